/** Plans a shop as far ahead as it takes. */
import { clashOf, solve } from '../schedule/index.ts';
import type { Assignment, LevelOutcome } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import { makeClock, toDeadline, toMinute } from '../time/index.ts';
import { clashWords } from './clash-words.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { prepare } from './prepare.ts';
import type { Aim, Prepared } from './prepare.ts';
import { shortHours } from './short-hours.ts';
import { tellPlan } from './tell-plan.ts';
import { writtenAhead } from './written-ahead.ts';

const DAY = 1440;
const LONGEST_HORIZON = 400 * DAY;
/** How many horizons in which everyone has hours enough are tried, each twice the one before, until a shop counts as impossible. */
const HORIZONS = 3;

/**
 * How far ahead to look first, in minutes after now: past every due time, and far enough for the forms to serve all
 * pieces one after the other. When no plan is found in it, it is doubled.
 */
export function firstHorizon(shop: Shop, now: string): number {
  const clock = makeClock(shop.zone, now);
  const slowest = Math.max(0, ...shop.resins.map((r) => r.fullCureMinutes));
  const lastWish = Math.max(
    0,
    ...shop.pieces.map((p) => toDeadline(clock, p.due)),
    ...shop.pieces.map((p) => (p.earliest ? toMinute(clock, p.earliest) : 0)),
  );
  const formCount = shop.forms.reduce((sum, f) => sum + f.count, 0);
  const turns = Math.ceil(shop.pieces.length / formCount);
  const inForm = 2 * Math.max(0, ...shop.resins.map((r) => r.demoldMinutes)) + 4 * DAY;
  const needed = turns * inForm + 2 * slowest + 14 * DAY;
  return Math.min(LONGEST_HORIZON, Math.max(lastWish + 14 * DAY + slowest, needed));
}

/**
 * Tells a clash better than by what the search found: of pinned pieces, and where these are not to blame, of those that clash (null: none in
 * particular); null where it cannot.
 */
export interface Blame {
  pinned(): readonly string[] | null;
  among(clashing: ReadonlySet<string | null>): readonly string[] | null;
}

/** Tells what the search found. */
export const NOBODY: Blame = { pinned: () => null, among: () => null };

/**
 * @param aim what is aimed at, where that is not the shop's own order of levels
 * @param firstMinutes how far ahead to look first
 * @returns the best plan found; `infeasible` with its clash in words, or `unknown`, when there is none
 * @throws RangeError for a `now` that cannot be read
 */
export function planAhead(
  shop: Shop,
  options: PlanOptions,
  blame: Blame,
  aim?: Aim,
  firstMinutes = firstHorizon(shop, options.now),
): Plan {
  const { now, seed, budget, stop, progress } = options;
  const ahead = writtenAhead(shop, now);
  if (ahead.length > 0) {
    const bare = prepare({ ...shop, pieces: [] }, now, DAY);
    const names = new Map(shop.pieces.map(({ id, name }) => [id, name]));
    const clash = ahead.map(({ piece, text }) => `${names.get(piece ?? '')} - ${text}`);
    return { ...tellPlan(shop, options, bare, null, [], 'infeasible', clash), notes: ahead };
  }
  let horizon = firstMinutes;
  let smallest: readonly string[] | null = null;
  for (let tried = 0; ;) {
    const prepared = prepare(shop, now, horizon, options, aim);
    const tell = (
      answer: Assignment | null,
      levels: readonly LevelOutcome[],
      status: Plan['status'],
      clash: readonly string[] = [],
    ): Plan => tellPlan(shop, options, prepared, answer, levels, status, clash);
    const outcome = solve(prepared.model, {
      seed,
      budget,
      stop,
      hint: prepared.hint,
      others: prepared.others,
      isExplained: false,
      progress:
        progress && ((report) => report.best && progress(tell(report.best, report.levels, 'feasible'))),
    });
    if (outcome.status === 'unknown') return tell(null, [], 'unknown');
    if (outcome.status !== 'infeasible') return tell(outcome.best, outcome.levels, outcome.status);
    const short = shortHours(prepared.ground, prepared.pieces);
    if (short.length > 0) {
      if (horizon >= LONGEST_HORIZON) return tell(null, [], 'infeasible', short);
      // Whoever is away for so long may be back behind it.
      horizon = Math.min(LONGEST_HORIZON, horizon * 2);
      continue;
    }
    tried++;
    const { reasons } = prepared.builder;
    // What a maker fixed is most often what clashes, and told far sooner than a clash is found among all.
    const fixed = tried === 1 ? blame.pinned() : null;
    if (fixed) return tell(null, [], 'infeasible', fixed);
    const { clash } = clashOf(prepared.model, { seed, budget, stop });
    const blamed = tried === 1 ? blame.among(new Set(clash.map((index) => reasons[index].piece))) : null;
    if (blamed) return tell(null, [], 'infeasible', blamed);
    const words = clashWords(shop, reasons, clash);
    if (smallest === null || lengthOf(words) < lengthOf(smallest)) smallest = words;
    if (tried === HORIZONS || horizon >= LONGEST_HORIZON || !mayBeShort(prepared, clash)) {
      return tell(null, [], 'infeasible', smallest);
    }
    horizon = Math.min(LONGEST_HORIZON, horizon * 2);
  }
}

const lengthOf = (words: readonly string[]): number => words.join().length;

/** Whether the end of the calendar has a part in the clash: then a longer one may do. */
const mayBeShort = ({ builder, model }: Prepared, clash: readonly number[]): boolean =>
  clash.length === 0 ||
  model.starts.length === 0 ||
  clash.some((index) => ['time', 'cure', 'window'].includes(builder.reasons[index]?.rule ?? 'time'));
