/**
 * Where one step of a plan may go. Everything of other pieces stays where it is, and so does what this piece does before
 * the step; what it does after may follow, since letting go plans that again. What a step of another crew could do is
 * allowed too.
 */
import { makeOracle } from '../schedule/index.ts';
import type { Assignment, Blocker, Literal, Model, Oracle } from '../schedule/index.ts';
import { stepOffset } from '../routing/index.ts';
import type { Crew, Option, PieceRoute, RoutedBlock } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';
import { clip, complement, intersect, NO_TIME, tidy, toIso, toMinute, union } from '../time/index.ts';
import type { Intervals } from '../time/index.ts';
import type { Span } from './cures.ts';
import type { Plan } from './document.ts';
import { obstacles } from './obstacles.ts';
import type { Obstacle } from './obstacles.ts';
import { allHold } from './reading.ts';
import { revive } from './revived.ts';
import type { Answered } from './answered.ts';

export interface ClosedSpan extends Span {
  readonly why: readonly Obstacle[];
}

/** `open` and `closed` together cover the range asked for. */
export interface LegalPlaces {
  readonly piece: string;
  readonly step: string;
  readonly open: readonly Span[];
  readonly closed: readonly ClosedSpan[];
}

/** At most so many different reasons are told apart within one closed stretch. */
const SAMPLES_A_GAP = 6;

/** The block of a step, and its piece's route. @throws RangeError when the plan has no such step */
export function findBlock(
  { pieces }: Answered,
  piece: string,
  step: string,
): { route: PieceRoute; routed: RoutedBlock } {
  const route = pieces.find((p) => p.itinerary.piece.id === piece);
  if (!route) throw new RangeError(`there is no piece "${piece}"`);
  const routed = route.blocks.find((b) => b.block.steps.some((s) => s.id === step));
  if (!routed) {
    const names = route.blocks.flatMap((b) => b.block.steps.map((s) => s.id)).join(', ');
    throw new RangeError(`piece "${piece}" has no step "${step}" that can be moved; it has ${names}`);
  }
  return { route, routed };
}

/** Starts of the piece that are not settled yet, from this block on. */
const unsettledFrom = (route: PieceRoute, routed: RoutedBlock): ReadonlySet<number> =>
  new Set(route.blocks.slice(route.blocks.indexOf(routed)).flatMap((b) => (b.past ? [] : [b.start])));

/** The model without what ties `start` to the other starts that may move with it, and to a pin: letting go pins it anew. */
function loosened({ model, unpinned }: Answered, moving: ReadonlySet<number>, start: number): Model {
  const moves = (other: number): boolean => other !== start && moving.has(other);
  // A hold that begins with the start keeps its end, though that end may move later: the thing is in use until then.
  const stays = (task: { readonly from: number; readonly to: number }): boolean =>
    !moves(task.from) && !(moves(task.to) && task.from !== start);
  return {
    ...model,
    starts: model.starts.map((each, s) => (s === start ? (unpinned.get(s) ?? each) : each)),
    lags: model.lags.filter((lag) => !moves(lag.to) && !moves(lag.from)),
    resources: model.resources.map((r) => ({ ...r, tasks: r.tasks.filter(stays) })),
    exclusions: model.exclusions.map((e) => ({
      ...e,
      one: e.one.filter(stays),
      other: e.other.filter(stays),
    })),
  };
}

/** Where the step may begin so that each bubble pass that goes with it finds a place, too. */
function withPasses(
  revived: Answered,
  route: PieceRoute,
  routed: RoutedBlock,
  answer: Assignment,
): Intervals[] {
  const moving = unsettledFrom(route, routed);
  return route.blocks
    .filter((b) => b.block.pass?.after === routed.block.id && !b.past)
    .map(({ block, start, crews }) => {
      const loose = loosened(revived, moving, start);
      const passes = crews
        .map((c) => makeOracle(loose, taking(answer, crews, c)).legalStarts(start))
        .reduce(union);
      const { from = 0, to = 0 } = block.pass ?? {};
      const length = routed.block.minutes;
      const pairs: [number, number][] = [];
      for (let i = 0; i < passes.length; i += 2)
        pairs.push([passes[i] - length - to, passes[i + 1] - length - from]);
      return tidy(pairs);
    });
}

/** The answer with one option of several taken instead. */
export function taking<T>(answer: Assignment, options: readonly Option<T>[], chosen: Option<T>): Assignment {
  const choices = [...answer.choices];
  const set = (literal: Literal, value: boolean): void => {
    choices[literal >> 1] = value === ((literal & 1) === 0);
  };
  for (const { when } of options) for (const literal of when) set(literal, false);
  for (const literal of chosen.when) set(literal, true);
  return { starts: answer.starts, choices };
}

/** A step done as planned, or by others. */
interface Way {
  readonly oracle: Oracle;
  readonly crew?: Crew;
}

/** Where the least is in the way of a start: as planned, or when others do it. */
function leastInTheWay(
  planned: Way,
  others: readonly Way[],
  start: number,
  at: number,
): { readonly blockers: readonly Blocker[]; readonly crew?: Crew } {
  let best = { blockers: planned.oracle.blockers(start, at), crew: planned.crew };
  for (const { oracle, crew } of others) {
    if (best.blockers.length < 2) break;
    const blockers = oracle.blockers(start, at);
    if (blockers.length < best.blockers.length) best = { blockers, crew };
  }
  return best;
}

/** Nowhere, for the piece does not go into that form at all. */
function notInForm(shop: Shop, piece: string, step: string, range: Span, form: string): LegalPlaces {
  const name = shop.forms.find(({ id }) => id === form)?.name ?? form;
  const why: readonly Obstacle[] = [{ kind: 'form', text: `it does not go into ${name}`, others: [] }];
  return { piece, step, open: [], closed: [{ ...range, why }] };
}

/**
 * @param range the stretch to look at, ISO
 * @param form as if the piece were cast in this form; for steps up to the turnaround
 * @throws RangeError for a piece or step that the plan does not have
 */
export function legalPlaces(
  shop: Shop,
  plan: Plan,
  piece: string,
  step: string,
  range: Span,
  form?: string,
): LegalPlaces {
  const revived = revive(shop, plan);
  const { ground } = revived;
  const { route, routed } = findBlock(revived, piece, step);
  const offset = stepOffset(routed.block, step);
  const [from, to] = [range.from, range.to].map((iso) => toMinute(ground.clock, iso) - offset);
  const inForm = route.forms.find((o) => o.value.id === form);
  if (form !== undefined && !inForm) return notInForm(shop, piece, step, range, form);
  const answer = inForm ? taking(revived.unwishing, route.forms, inForm) : revived.unwishing;
  const loose = loosened(revived, unsettledFrom(route, routed), routed.start);
  const iso = (minute: number): string => toIso(ground.clock, minute + offset);

  const planned: Way = { oracle: makeOracle(loose, answer) };
  const others: readonly Way[] = routed.crews
    .filter(({ when }) => !allHold(answer, when))
    .map((crew) => ({ oracle: makeOracle(loose, taking(answer, routed.crews, crew)), crew: crew.value }));
  let open: Intervals = NO_TIME;
  if (!routed.past) {
    const own = [planned, ...others].map(({ oracle }) => oracle.legalStarts(routed.start)).reduce(union);
    open = clip(withPasses(revived, route, routed, answer).reduce(intersect, own), from, to);
  }
  const closed: ClosedSpan[] = [];
  const gaps = complement(open, from, to);
  for (let i = 0; i < gaps.length; i += 2) {
    const width = Math.max(1, Math.ceil((gaps[i + 1] - gaps[i]) / SAMPLES_A_GAP));
    for (let at = gaps[i]; at < gaps[i + 1]; at += width) {
      const end = Math.min(gaps[i + 1], at + width);
      const { blockers, crew } = leastInTheWay(planned, others, routed.start, at);
      const why =
        blockers.length > 0
          ? obstacles(revived, plan, { route, routed, crew }, blockers, at, loose)
          : [{ kind: 'hours' as const, text: 'nobody is free for the bubble pass after it', others: [] }];
      const before = closed[closed.length - 1];
      if (before && before.to === iso(at) && sameWords(before.why, why))
        closed[closed.length - 1] = { ...before, to: iso(end) };
      else closed.push({ from: iso(at), to: iso(end), why });
    }
  }
  const spans: Span[] = [];
  for (let i = 0; i < open.length; i += 2) spans.push({ from: iso(open[i]), to: iso(open[i + 1]) });
  return { piece, step, open: spans, closed };
}

const sameWords = (a: readonly Obstacle[], b: readonly Obstacle[]): boolean =>
  a.length === b.length && a.every((o, i) => o.text === b[i].text);
