/** One's own shop, page by page; each page shows what its numbers mean, and what is wrong with them, at once. */
import { createMemo, createSignal, For, onMount, Show, type Accessor, type JSX } from 'solid-js';
import type { Shop } from '../../engine/index.ts';
import { DAY, makeZoneClock } from '../clock/index.ts';
import type { FileFault } from '../engine/index.ts';
import { pathWords, SheetFoot, SheetOf } from '../fields/index.ts';
import { useSession } from '../state/index.ts';
import { freshShop, unitsFor } from './fresh-shop.ts';
import { PAGES } from './pages.tsx';

const THREE_WEEKS = 21 * DAY;
const FIVE_PM = 17 * 60;

export const OwnShop = (props: { readonly leave: () => void; readonly done: () => void }): JSX.Element => {
  const session = useSession();
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  const zoneClock = makeZoneClock(timeZone);
  const due = zoneClock.iso(zoneClock.at(zoneClock.dayOf(session.now() + THREE_WEEKS), FIVE_PM));
  const [draft, setDraft] = createSignal<Shop>(
    freshShop({ zone: timeZone, units: unitsFor(navigator.language), due: due.slice(0, 16) }),
  );
  const [number, setNumber] = createSignal(0);
  const [faults, setFaults] = createSignal<readonly FileFault[]>([]);
  const [busy, setBusy] = createSignal(false);
  const page = createMemo(() => PAGES[number()]);
  const isLast = (): boolean => number() === PAGES.length - 1;
  let heading: HTMLHeadingElement | undefined;

  const turn = (to: number): void => {
    setNumber(to);
    heading?.focus();
  };
  const judged = async (): Promise<readonly FileFault[]> => {
    const read = await session.engine.ask('open', { text: JSON.stringify(draft()) });
    return read.ok ? [] : read.faults;
  };
  const onward = async (): Promise<void> => {
    setBusy(true);
    try {
      const found = await judged();
      const here = found.filter((fault) => page().holds(fault.path));
      setFaults(isLast() ? found : here);
      if (here.length > 0) return;
      if (!isLast()) {
        turn(number() + 1);
        return;
      }
      const elsewhere = found[0];
      if (elsewhere) {
        const at = PAGES.findIndex((one) => one.holds(elsewhere.path));
        if (at >= 0) turn(at);
        return;
      }
      const refused = await session.openText(JSON.stringify(draft()), `start the shop “${draft().name}”`);
      if (refused.length === 0) props.done();
      else setFaults(refused);
    } catch (error) {
      setFaults([{ path: '', found: '', message: error instanceof Error ? error.message : String(error) }]);
    } finally {
      setBusy(false);
    }
  };
  const change = (next: Shop): void => {
    setDraft(next);
    if (faults().length > 0) {
      judged()
        .then((found) => setFaults(found.filter((fault) => page().holds(fault.path))))
        .catch(() => undefined);
    }
  };
  onMount(() => heading?.focus());

  return (
    <form
      class="plate own"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void onward();
      }}
    >
      <ol class="own-way" aria-label="Pages">
        <For each={PAGES}>
          {({ name }, at) => (
            <li classList={{ 'own-past': at() < number(), 'own-here': at() === number() }}>
              <button
                type="button"
                disabled={at() > number()}
                aria-current={at() === number() ? 'step' : undefined}
                onClick={() => turn(at())}
              >
                <span aria-hidden="true">{at() < number() ? '✓' : at() + 1}</span> {name}
              </button>
            </li>
          )}
        </For>
      </ol>
      <h2 ref={(element) => (heading = element)} tabindex="-1">
        {page().title}
      </h2>
      <p class="own-says">{page().says}</p>
      <SheetOf units={draft().units} base="" faults={faults()}>
        <div class="own-fields">
          <PageFields page={page} draft={draft} change={change} />
        </div>
        <SheetFoot shop={draft()} />
      </SheetOf>
      <div class="own-acts">
        <button type="submit" class="button primary" disabled={busy()}>
          {busy() ? 'One moment…' : isLast() ? 'Open my shop' : 'Next'}
        </button>
        <button
          type="button"
          class="button"
          onClick={() => (number() === 0 ? props.leave() : turn(number() - 1))}
        >
          Back
        </button>
        <Show when={isLast() && draft().pieces.length > 0}>
          <button type="button" class="button own-skip" onClick={() => change({ ...draft(), pieces: [] })}>
            No piece yet
          </button>
        </Show>
      </div>
      <p class="unseen" role="status">
        Page {number() + 1} of {PAGES.length}
        {faults()[0] ? `; ${pathWords(faults()[0].path, draft())}: ${faults()[0].message}` : ''}
      </p>
    </form>
  );
};

const PageFields = (props: {
  readonly page: Accessor<(typeof PAGES)[number]>;
  readonly draft: Accessor<Shop>;
  readonly change: (next: Shop) => void;
}): JSX.Element => <>{props.page().fields(props.draft, props.change)}</>;
