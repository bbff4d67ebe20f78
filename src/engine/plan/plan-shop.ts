/** Plans a shop: routes it, has it solved, and tells the answer in the shop's words. */
import { solve } from '../schedule/index.ts';
import type { Assignment, LevelOutcome, Model, Outcome } from '../schedule/index.ts';
import { LEVELS, LEVELS_REPLAN, routeShop } from '../routing/index.ts';
import type { Ground, ModelBuilder, Option, PieceRoute } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';
import { makeClock, toDeadline, toIso, toMinute } from '../time/index.ts';
import { remember } from './answered.ts';
import type { Routed } from './answered.ts';
import { clashWords } from './clash-words.ts';
import { PLAN_FORMAT, PLAN_VERSION } from './document.ts';
import type { Plan, PlanLevel } from './document.ts';
import { dealUnits } from './holds.ts';
import { shortHours } from './short-hours.ts';
import { passedPinNote } from './notes.ts';
import { allHold, readPiece } from './reading.ts';
import { standingAssignment, withPassesMade } from './standing.ts';
import { tellPiece } from './told-piece.ts';

export interface PlanOptions {
  /** ISO moment; nothing is planned before it. */
  readonly now: string;
  /** Whole number; the same shop, now, seed and budget give the same plan. */
  readonly seed: number;
  /** Counted steps of search. */
  readonly budget: number;
  readonly stop?: () => boolean;
  /** Called with every better plan. */
  readonly progress?: (plan: Plan) => void;
  /** The plan that stands: as little of it is moved as can be. */
  readonly standing?: Plan;
  /** A plan found for this shop before, for a promise say: what is planned is no worse. */
  readonly known?: Plan;
}

const DAY = 1440;
const LONGEST_HORIZON = 400 * DAY;
/** How many horizons are tried, each twice the one before, until a shop counts as impossible. */
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

/** The routed shop with its model ready to be solved. */
export interface Prepared extends Routed {
  readonly passedPins: readonly { readonly piece: string; readonly step: string }[];
  readonly hint: Assignment | undefined;
  readonly others: readonly Assignment[];
}

/** Adds costs of its own to the model, and names the levels to be minimised. */
export type Aim = (builder: ModelBuilder, ground: Ground, pieces: readonly PieceRoute[]) => readonly string[];

/** Another form or bench than before costs as much as moving a step by so many minutes. */
const ANOTHER_PLACE_COST = 120;

/** Routes the shop; with a standing plan, moving what it has settled costs, and its values are the hint. A known plan only has values. */
export function prepare(
  shop: Shop,
  now: string,
  horizonMinutes: number,
  { standing, known }: Pick<PlanOptions, 'standing' | 'known'> = {},
  aim?: Aim,
): Prepared {
  const { builder, ground, pieces, passedPins } = routeShop(shop, { now, horizonMinutes });
  const aimed = aim?.(builder, ground, pieces);
  // A wet layer waits for nobody: its passes come before any date.
  const build = (levels: readonly string[]): Model =>
    builder.build(builder.costsAt('passes') ? ['passes', ...levels] : levels);
  let plain: Model | null = null;
  const read = (plan: Plan) =>
    standingAssignment(ground, pieces, (plain ??= builder.build([])), plan, builder.implied);
  const others = known && known.steps.length > 0 ? [read(known).assignment] : [];
  if (!standing || standing.steps.length === 0) {
    const model = build(aimed ?? LEVELS);
    return { ground, pieces, builder, passedPins, model, hint: undefined, others };
  }
  const { assignment, isKnown } = read(standing);
  for (const { blocks } of pieces) {
    for (const { block, start, past } of blocks) {
      if (past || !isKnown[start] || block.optionalFor) continue;
      const at = assignment.starts[start];
      builder.cost('moved', { kind: 'late', start, after: at, weight: 1 });
      builder.cost('moved', { kind: 'early', start, before: at, weight: 1 });
    }
  }
  for (const { forms, formBenches, formStandings, coatBenches, blocks } of pieces) {
    const isOpen = blocks.some((b) => b.past === null);
    for (const options of isOpen ? [forms, formStandings, formBenches, coatBenches] : []) {
      for (const { when } of options as readonly Option<unknown>[]) {
        if (when.length !== 1 || !allHold(assignment, when)) continue;
        builder.cost('moved', { kind: 'choice', when: when[0] ^ 1, weight: ANOTHER_PLACE_COST });
      }
    }
  }
  const model = build(aimed ?? LEVELS_REPLAN);
  const better = withPassesMade(pieces, model, assignment);
  const hints = better ? { hint: better, others: [assignment, ...others] } : { hint: assignment, others };
  return { ground, pieces, builder, passedPins, model, ...hints };
}

/**
 * @returns the best plan found; `infeasible` with its clash in words, or `unknown`, when there is none
 * @throws RangeError for a `now` that cannot be read
 */
export function planShop(shop: Shop, options: PlanOptions): Plan {
  const { now, seed, budget, stop, progress } = options;
  let horizon = firstHorizon(shop, now);
  let smallest: readonly string[] | null = null;
  for (let tried = 1; ; tried++) {
    const prepared = prepare(shop, now, horizon, options);
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
      progress:
        progress && ((report) => report.best && progress(tell(report.best, report.levels, 'feasible'))),
    });
    if (outcome.status === 'unknown') return tell(null, [], 'unknown');
    if (outcome.status !== 'infeasible') return tell(outcome.best, outcome.levels, outcome.status);
    const { reasons } = prepared.builder;
    if (tried === 1 && shop.pieces.length > 1) {
      const alone = impossibleAlone(
        shop,
        options,
        new Set(outcome.clash.map((index) => reasons[index].piece)),
      );
      if (alone) return tell(null, [], 'infeasible', shortOr(prepared, alone.clash));
    }
    const words = clashWords(shop, reasons, outcome.clash);
    if (smallest === null || lengthOf(words) < lengthOf(smallest)) smallest = words;
    if (tried === HORIZONS || horizon >= LONGEST_HORIZON || !mayBeShort(prepared, outcome)) {
      return tell(null, [], 'infeasible', shortOr(prepared, smallest));
    }
    horizon = Math.min(LONGEST_HORIZON, horizon * 2);
  }
}

/** Enough to find that a piece cannot be planned by itself. */
const ALONE_BUDGET = 20_000;

const planAlone = (shop: Shop, { now, seed, budget, stop }: PlanOptions, id: string): Plan =>
  planShop(
    { ...shop, pieces: shop.pieces.filter((piece) => piece.id === id) },
    { now, seed, budget: Math.min(budget, ALONE_BUDGET), stop },
  );

/** The answer for the first of these pieces that cannot be planned even by itself: its clash is told in few words. Those with pins come first. */
function impossibleAlone(shop: Shop, options: PlanOptions, among: ReadonlySet<string | null>): Plan | null {
  const pieces = shop.pieces.filter(({ id }) => among.has(id));
  const pinned = pieces.filter(({ pins }) => pins.length > 0);
  for (const { id } of [...pinned, ...pieces.filter(({ pins }) => pins.length === 0)]) {
    const alone = planAlone(shop, options, id);
    if (alone.status === 'infeasible') return alone;
  }
  return null;
}

/**
 * As `planShop`, for a shop in which something of one piece has been fixed that may not hold: the piece is planned by
 * itself first, since what cannot be planned alone is found so far sooner.
 */
export function tryPlan(shop: Shop, piece: string, options: PlanOptions): Plan {
  const alone = planAlone(shop, options, piece);
  return alone.status === 'infeasible' ? alone : planShop(shop, options);
}

/** Where nobody's hours suffice for a step, that is the clash; else what the scheduler found. */
function shortOr({ ground, pieces }: Prepared, clash: readonly string[]): readonly string[] {
  const short = shortHours(ground, pieces);
  return short.length > 0 ? short : clash;
}

const lengthOf = (words: readonly string[]): number => words.join().length;

/** Whether the end of the calendar has a part in the clash: then a longer one may do. */
const mayBeShort = (
  { builder, model }: Prepared,
  outcome: Extract<Outcome, { status: 'infeasible' }>,
): boolean =>
  outcome.clash.length === 0 ||
  model.starts.length === 0 ||
  outcome.clash.some((index) => ['time', 'cure', 'window'].includes(builder.reasons[index]?.rule ?? 'time'));

/** The document of an answer, or of none. */
export function tellPlan(
  shop: Shop,
  { now, seed, budget }: PlanOptions,
  prepared: Prepared,
  answer: Assignment | null,
  levels: readonly LevelOutcome[],
  status: Plan['status'],
  clash: readonly string[],
): Plan {
  const { ground, pieces, passedPins } = prepared;
  const head = {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    shop: shop.name,
    zone: shop.zone,
    now: toIso(ground.clock, toMinute(ground.clock, now)),
    seed,
    budget,
    status,
  } as const;
  if (!answer) return { ...head, levels: [], steps: [], holds: [], pieces: [], notes: [], clash };
  const readings = pieces.map((route) => readPiece(answer, route));
  const units = dealUnits(readings);
  const isTold = ({ piece, step }: { piece: string; step: string }): boolean =>
    readings.some(({ route, times }) => route.itinerary.piece.id === piece && times.has(step));
  const told = readings.map((r) => tellPiece(ground, answer, r, units.get(r.route.itinerary.piece.id) ?? 1));
  const plan: Plan = {
    ...head,
    levels: levels.map(({ name, value, bound, proven }) => ({
      name: name as PlanLevel['name'],
      value,
      bound,
      proven,
    })),
    steps: told.flatMap(({ steps }) => steps),
    holds: told.flatMap(({ holds }) => holds),
    pieces: readings.map(({ route, times }) => {
      const ready = times.get('ready')?.start ?? ground.horizon;
      const due = toDeadline(ground.clock, route.itinerary.piece.due);
      return {
        piece: route.itinerary.piece.id,
        ready: toIso(ground.clock, ready),
        due: toIso(ground.clock, due),
        lateMinutes: Math.max(0, ready - due),
      };
    }),
    notes: [...passedPins.filter(isTold).map(passedPinNote), ...told.flatMap(({ notes }) => notes)],
    clash: [],
  };
  remember(shop, plan, prepared, answer);
  return plan;
}
