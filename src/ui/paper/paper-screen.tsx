/** Choose what goes to paper, see it as it will be printed, print it or save it as a file. */
import { createMemo, createSignal, For, Match, Show, Switch, type JSX } from 'solid-js';
import type { SheetChoice, StockReport } from '../../engine/formats/index.ts';
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import type { FileKind, Paper } from '../engine/index.ts';
import { saveFile } from '../files/index.ts';
import { createAnswer, createQuiet, useSession } from '../state/index.ts';
import { planWords } from '../words/index.ts';
import { CardsPage } from './cards-page.tsx';
import { SheetPage } from './sheet-page.tsx';
import { StockPage } from './stock-page.tsx';
import './paper.css';

type Kind = 'day' | 'piece' | 'cards' | 'stock';

const KINDS: readonly { readonly kind: Kind; readonly name: string }[] = [
  { kind: 'day', name: 'Day' },
  { kind: 'piece', name: 'Piece' },
  { kind: 'cards', name: 'Form cards' },
  { kind: 'stock', name: 'Resin and money' },
];

const FILES: readonly { readonly kind: FileKind; readonly name: string; readonly type: 'ics' | 'csv' }[] = [
  { kind: 'calendar', name: 'Calendar', type: 'ics' },
  { kind: 'steps', name: 'Steps', type: 'csv' },
  { kind: 'materials', name: 'Materials', type: 'csv' },
];

/** Better plans come several a second; paper waits until they stop. */
const QUIET_MS = 300;

interface OfPlan {
  readonly shop: Shop;
  readonly plan: Plan;
}

export const PaperScreen = (): JSX.Element => {
  const session = useSession();
  const [kind, setKind] = createSignal<Kind>('day');
  const [date, setDate] = createSignal<string>();
  const [piece, setPiece] = createSignal<string>();
  const [fault, setFault] = createSignal('');

  const ofPlan = createQuiet<OfPlan | null>(() => {
    const shop = session.shop();
    const plan = session.planned()?.plan;
    return shop && plan ? { shop, plan } : null;
  }, QUIET_MS);
  const choice = createMemo<SheetChoice>(() =>
    kind() === 'piece' ? { piece: piece() ?? session.shop()?.pieces[0]?.id } : { date: date() },
  );
  const paper = createAnswer<{ of: OfPlan | null | undefined; choice: SheetChoice }, Paper | null>(
    () => ({ of: ofPlan(), choice: choice() }),
    async ({ of, choice: chosen }) => (of ? session.engine.ask('paper', { ...of, choice: chosen }) : null),
    null,
  );
  const stock = createAnswer<OfPlan | null | undefined, StockReport | null>(
    () => (kind() === 'stock' ? ofPlan() : null),
    async (of) => (of ? session.engine.ask('stock', of) : null),
    null,
  );

  const dates = (): readonly string[] => paper()?.sheet.dates ?? [];
  const shownDate = (): string => date() ?? paper()?.sheet.days[0]?.date ?? '';
  const neighbour = (by: 1 | -1): string | undefined =>
    by === 1
      ? dates().find((one) => one > shownDate())
      : dates()
          .filter((one) => one < shownDate())
          .at(-1);

  const save = (file: FileKind, type: 'ics' | 'csv' | 'txt', what: string): void => {
    const of = ofPlan();
    if (!of) return;
    setFault('');
    session.engine
      .ask('file', { ...of, kind: file, piece: choice().piece })
      .then((text) => saveFile(text, `${of.shop.name} ${what}`, type))
      .catch((error: unknown) => setFault(error instanceof Error ? error.message : String(error)));
  };

  return (
    <div class="paper">
      <div class="paper-acts">
        <div class="paper-kinds" role="group" aria-label="What to print">
          <For each={KINDS}>
            {(one) => (
              <button
                type="button"
                class="button"
                aria-pressed={kind() === one.kind}
                onClick={() => setKind(one.kind)}
              >
                {one.name}
              </button>
            )}
          </For>
        </div>
        <Show when={kind() === 'day'}>
          <div class="paper-choice">
            <button
              type="button"
              class="button"
              disabled={neighbour(-1) === undefined}
              onClick={() => setDate(neighbour(-1))}
            >
              Day before
            </button>
            <label>
              <span class="unseen">Day</span>
              <input
                type="date"
                class="paper-field"
                value={shownDate()}
                onChange={(event) => setDate(event.currentTarget.value || undefined)}
              />
            </label>
            <button
              type="button"
              class="button"
              disabled={neighbour(1) === undefined}
              onClick={() => setDate(neighbour(1))}
            >
              Day after
            </button>
          </div>
        </Show>
        <Show when={kind() === 'piece'}>
          <div class="paper-choice">
            <label>
              <span class="unseen">Piece</span>
              <select class="paper-field" onChange={(event) => setPiece(event.currentTarget.value)}>
                <For each={session.shop()?.pieces ?? []}>
                  {(one) => (
                    <option value={one.id} selected={one.id === choice().piece}>
                      {one.name}
                    </option>
                  )}
                </For>
              </select>
            </label>
            <button
              type="button"
              class="button"
              onClick={() => save('record', 'txt', `record ${choice().piece}`)}
            >
              Save its record
            </button>
          </div>
        </Show>
        <div class="paper-files">
          <button type="button" class="button primary" disabled={!ofPlan()} onClick={() => window.print()}>
            Print
          </button>
          <For each={FILES}>
            {(file) => (
              <button
                type="button"
                class="button"
                disabled={!ofPlan()}
                onClick={() => save(file.kind, file.type, file.kind)}
              >
                {file.name} <small>.{file.type}</small>
              </button>
            )}
          </For>
        </div>
      </div>
      <Show when={fault() !== ''}>
        <p class="paper-fault" role="alert">
          {fault()}
        </p>
      </Show>
      <Show
        when={ofPlan()}
        fallback={
          <p class="quiet">{session.planned() ? 'One moment…' : planWords(session.phase(), false)}</p>
        }
      >
        <Switch>
          <Match when={kind() === 'cards'}>
            <Show when={paper()}>{(known) => <CardsPage cards={known().cards} />}</Show>
          </Match>
          <Match when={kind() === 'stock'}>
            <Show when={stock()} fallback={<p class="quiet">One moment…</p>}>
              {(report) => (
                <Show when={session.shop()}>{(shop) => <StockPage report={report()} shop={shop()} />}</Show>
              )}
            </Show>
          </Match>
          <Match when={true}>
            <Show when={paper()} fallback={<p class="quiet">One moment…</p>}>
              {(known) => <SheetPage sheet={known().sheet} />}
            </Show>
          </Match>
        </Switch>
      </Show>
    </div>
  );
};
