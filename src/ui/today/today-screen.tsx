/** Today: what now, what next, what is setting. */
import { createMemo, For, Show, type JSX } from 'solid-js';
import type { CupCard, CupOfPour } from '../../engine/formats/index.ts';
import type { Caution } from '../../engine/mix/index.ts';
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { durationText } from '../clock/index.ts';
import { Cautions } from '../paper/index.ts';
import { createAnswer, createQuiet, useSession } from '../state/index.ts';
import { applicationWords, planWords } from '../words/index.ts';
import { takeBack, wereMade } from './acts.ts';
import { asHappened } from './as-happened.ts';
import { worklistOf, type Entry, type Worklist } from './entries.ts';
import { EntryCard } from './entry-card.tsx';
import { missedOf, type Missed } from './missed.ts';
import { SettingCard } from './setting-card.tsx';
import { settingOf, type Setting } from './setting.ts';
import './today.css';

interface OfPlan {
  readonly shop: Shop;
  readonly plan: Plan;
}

/** Better plans come several a second; what is measured out waits until they stop. */
const QUIET_MS = 300;

const NOTHING: Worklist = { running: [], due: [], next: [], done: [] };

export const TodayScreen = (): JSX.Element => {
  const session = useSession();
  const today = () => session.clock().dayOf(session.now());
  const plan = createMemo(() => {
    const shop = session.shop();
    const known = session.planned()?.plan;
    const clock = session.clock();
    return shop && known ? { ...known, steps: asHappened(shop, known.steps, clock.parse, clock.iso) } : null;
  });
  const list = createMemo<Worklist>(() => {
    const shop = session.shop();
    const known = plan();
    return shop && known ? worklistOf(shop, known, session.cures(), session.now(), today().start) : NOTHING;
  });
  const setting = createMemo<readonly Setting[]>(() => {
    const shop = session.shop();
    const known = plan();
    return shop && known ? settingOf(shop, known, session.cures(), session.now()) : [];
  });
  const missed = createMemo<readonly Missed[]>(() => {
    const shop = session.shop();
    const known = plan();
    return shop && known ? missedOf(shop, known) : [];
  });
  const dayName = (start: number): string => {
    const date = session.clock().date(start);
    if (start === today().start) return `Later today, ${date}`;
    return start === today().end ? `Tomorrow, ${date}` : date;
  };
  /** The rest of today and the next day that has work. */
  const days = createMemo(() => {
    const groups: { readonly name: string; readonly start: number; readonly entries: Entry[] }[] = [];
    for (const entry of list().next) {
      const day = session.clock().dayOf(entry.start);
      const last = groups.at(-1);
      if (last?.start === day.start) last.entries.push(entry);
      else if (groups.length < 2)
        groups.push({ name: dayName(day.start), start: day.start, entries: [entry] });
      else break;
    }
    return groups;
  });
  const ofPlan = createQuiet<OfPlan | null>(() => {
    const shop = session.shop();
    const planned = session.planned();
    return shop && planned ? { shop, plan: planned.plan } : null;
  }, QUIET_MS);
  const cups = createAnswer<OfPlan | null | undefined, readonly CupOfPour[]>(
    ofPlan,
    async (of) => (of ? session.engine.ask('cups', of) : []),
    [],
  );
  const cupsFor = ({ piece, steps }: Entry): readonly CupCard[] =>
    cups()
      .filter((one) => one.piece === piece && steps.some(({ step }) => step === one.step))
      .map(({ card }) => card);
  /** The cautions of today's work, or of the next day with some. */
  const cautions = createAnswer<OfPlan | null | undefined, readonly Caution[]>(
    ofPlan,
    async (of) => (of ? (await session.engine.ask('paper', { ...of, choice: {} })).sheet.cautions : []),
    [],
  );
  /** What stands above every screen until it is read need not stand here too. */
  const shownCautions = (): readonly Caution[] => cautions().filter(({ isDismissible }) => !isDismissible);
  const nothingNow = (): boolean => list().running.length === 0 && list().due.length === 0;
  /** Words for a place where the plan has nothing; without a plan nothing is known of it. */
  const nothing = (words: string): string => (session.planned() ? words : planWords(session.phase(), false));
  const isCureUnknown = (): boolean =>
    session.cures().length === 0 && (plan()?.steps ?? []).some(({ resin }) => resin !== undefined);
  return (
    <div class="today">
      <section class="today-now" aria-labelledby="now-title">
        <h2 id="now-title">Now</h2>
        <For each={list().running}>
          {(entry) => <EntryCard entry={entry} mood="running" cups={cupsFor(entry)} />}
        </For>
        <For each={list().due}>{(entry) => <EntryCard entry={entry} mood="due" cups={cupsFor(entry)} />}</For>
        <Show when={nothingNow()}>
          <p class="quiet">
            <Show when={list().next[0]} fallback={nothing('Nothing is planned.')}>
              {(first) => (
                <>
                  Nothing to do until <strong>{session.clock().near(first().start, session.now())}</strong>,
                  in {durationText(first().start - session.now())}.
                </>
              )}
            </Show>
          </p>
        </Show>
      </section>
      <section class="today-setting" aria-labelledby="setting-title">
        <h2 id="setting-title">Setting</h2>
        <For
          each={setting()}
          fallback={
            <p class="quiet">
              {isCureUnknown() ? 'Looking how the resin cures…' : nothing('No resin is setting.')}
            </p>
          }
        >
          {(one) => <SettingCard setting={one} />}
        </For>
        <For each={missed()}>
          {(one) => (
            <p class="today-missed">
              <span>
                {one.pieceName}: {one.text}.
              </span>
              <button
                type="button"
                class="button"
                aria-label={`It was made: bubbles out of ${applicationWords(one.layer)}, ${one.pieceName}`}
                onClick={() => session.edit(wereMade(one, session.now(), session.clock().iso))}
              >
                It was made
              </button>
            </p>
          )}
        </For>
        <Cautions cautions={shownCautions()} />
      </section>
      <section class="today-next" aria-labelledby="next-title">
        <h2 id="next-title">Next</h2>
        <For each={days()} fallback={<p class="quiet">{nothing('Nothing more.')}</p>}>
          {(day) => (
            <>
              <h3>{day.name}</h3>
              <For each={day.entries}>
                {(entry) => <EntryCard entry={entry} mood="later" cups={cupsFor(entry)} />}
              </For>
            </>
          )}
        </For>
        <Show when={list().done.length > 0}>
          <details class="today-done">
            <summary>Done today: {list().done.length}</summary>
            <ul>
              <For each={list().done}>
                {(entry) => (
                  <li>
                    <span>
                      <strong>{session.clock().time(entry.end)}</strong> {entry.title}, {entry.pieceName}
                    </span>
                    <button type="button" class="button" onClick={() => session.edit(takeBack(entry))}>
                      Take back
                    </button>
                  </li>
                )}
              </For>
            </ul>
          </details>
        </Show>
      </section>
    </div>
  );
};
