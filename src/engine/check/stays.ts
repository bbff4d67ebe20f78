/** What a piece holds and for how long, as its steps imply: its form, its stretches of level bench, its warm box. */
import type { Bench, Form, PieceSize, WarmBox } from '../shop/index.ts';
import { AGE_TOLERANCE } from './age.ts';
import type { Curing } from './cure.ts';
import type { Evidence, PieceCase } from './evidence.ts';
import { moveMinutes } from './evidence.ts';
import type { Minute } from './minutes.ts';

export interface Stay {
  readonly piece: string;
  readonly what: 'form' | 'bench' | 'warm-box';
  readonly id: string;
  readonly unit?: number;
  readonly from: Minute;
  readonly to: Minute;
  /** cm2, or 1 for a form or a spot. */
  readonly amount: number;
  /** True when it began with a step that is a fact. */
  readonly begun: boolean;
}

/** A form stands 40 mm wider than its inside on every side, where the file is silent. Common practice, no source. */
const WALL_MM = 40;

/** Outside size of a form in mm. */
const outsideOf = (form: Form): PieceSize =>
  form.outside ?? {
    lengthMm: form.inside.lengthMm + WALL_MM + WALL_MM,
    widthMm: form.inside.widthMm + WALL_MM + WALL_MM,
  };

/** What something of this size takes of a place: one spot, or its area in whole cm2. */
function amountOn(place: Bench | WarmBox, size: PieceSize): number {
  if (place.spots !== undefined) return 1;
  const cm2 = (size.lengthMm / 10) * (size.widthMm / 10);
  return Math.ceil(cm2 - 1e-9);
}

/** Of which benches a piece makes use, as its steps say: under its form, to rest, and for its coats. */
export function benchesOf({ steps }: PieceCase) {
  const first = (pattern: RegExp): string | undefined =>
    steps.find(({ step }) => step.bench !== undefined && pattern.test(step.step))?.step.bench;
  return {
    form: first(/^(prepare|seal|layer-|cure$)/),
    demolding: first(/^(demold|turnaround)$/),
    rest: first(/^rest$/),
    coats: first(/^(coat-|flip-)/),
  };
}

/**
 * The first minute at which the last coat can be scuffed, the end of the span when it is not reached in it; or the minute
 * at which the record has the piece taken up for its finish, or ready, hard or not.
 */
function firstTouchable(evidence: Evidence, curing: Curing, of: PieceCase): Minute | undefined {
  const coat = of.applications.filter((each) => each.where === 'coats').at(-1);
  const apply = coat && of.byId.get(coat.apply);
  if (!coat || !apply) return undefined;
  const { scuffable } = curing.milestones(of, coat);
  let low = apply.start;
  let high = evidence.span.to;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (curing.age(of, coat, middle, { stalls: true }) >= scuffable - AGE_TOLERANCE) high = middle;
    else low = middle + 1;
  }
  const closing = of.byId.get('finish') ?? of.byId.get('ready');
  return closing?.started ? Math.min(low, closing.start) : low;
}

/** Everything that a piece holds. */
export function staysOf(evidence: Evidence, curing: Curing, of: PieceCase): readonly Stay[] {
  const { shop } = evidence;
  const { piece, byId, form } = of;
  const stays: Stay[] = [];
  const prepare = byId.get('prepare');
  const demold = byId.get('demold');
  const turnaround = byId.get('turnaround');
  const pour = byId.get('layer-1-pour');
  const layer = of.applications.find((each) => each.id === 'layer-1');
  const box = of.boxStays[0]?.box;
  const on = benchesOf(of);
  const benchCalled = (id: string | undefined): Bench | undefined =>
    shop.benches.find((each) => each.id === id);
  const add = (stay: Omit<Stay, 'piece'>): void => {
    if (stay.from < stay.to) stays.push({ piece: piece.id, ...stay });
  };

  if (form && prepare && demold && turnaround) {
    const unit = prepare.step.form?.unit;
    const begun = prepare.started;
    add({ what: 'form', id: form.id, unit, from: prepare.start, to: turnaround.end, amount: 1, begun });
    const under = benchCalled(on.form);
    const beside = benchCalled(on.demolding) ?? under;
    const size = outsideOf(form);
    const moved = box && pour && layer ? pour.start + moveMinutes(layer) : undefined;
    const standing = (bench: Bench | undefined, from: Minute, to: Minute, isBegun: boolean): void => {
      if (bench)
        add({ what: 'bench', id: bench.id, from, to, amount: amountOn(bench, size), begun: isBegun });
    };
    if (box && moved !== undefined) {
      standing(under, prepare.start, moved, begun);
      standing(beside, demold.start, turnaround.end, demold.started);
      const amount = amountOn(box, size);
      add({
        what: 'warm-box',
        id: box.id,
        from: moved,
        to: demold.start,
        amount,
        begun: pour?.started === true,
      });
    } else {
      standing(under, prepare.start, turnaround.end, begun);
    }
  }

  const resting = benchCalled(on.rest);
  const rest = of.steps.find(({ step }) => step.step === 'rest');
  if (resting && rest) {
    const amount = amountOn(resting, piece.size);
    const begun = demold?.started === true;
    add({ what: 'bench', id: resting.id, from: rest.start, to: rest.end, amount, begun });
  }
  const setting = benchCalled(on.coats);
  const mix = byId.get('coat-1-mix');
  const touchable = firstTouchable(evidence, curing, of);
  if (setting && mix && touchable !== undefined) {
    const amount = amountOn(setting, piece.size);
    add({ what: 'bench', id: setting.id, from: mix.start, to: touchable, amount, begun: mix.started });
  }
  return stays;
}

export interface Overload {
  readonly at: Minute;
  readonly used: number;
  readonly holders: readonly Stay[];
}

/** The first moment at which these stays together take more than there is; facts among themselves are not judged. */
export function overloadOf(stays: readonly Stay[], capacity: number): Overload | undefined {
  const moments = [...new Set(stays.map((stay) => stay.from))].sort((a, b) => a - b);
  for (const at of moments) {
    const holders = stays.filter((stay) => stay.from <= at && at < stay.to);
    const used = holders.reduce((sum, stay) => sum + stay.amount, 0);
    if (used > capacity && holders.some((stay) => !stay.begun)) return { at, used, holders };
  }
  return undefined;
}

/** What stands in a place that at some moment takes more than it has: who, when, and how much of how much. */
export function overfull(
  place: Bench | WarmBox,
  what: Stay['what'],
  stays: readonly Stay[],
):
  | { readonly at: Minute; readonly pieces: string; readonly last: string; readonly share: string }
  | undefined {
  const capacity = place.spots ?? place.areaCm2 ?? 0;
  const over = overloadOf(
    stays.filter((stay) => stay.what === what && stay.id === place.id),
    capacity,
  );
  if (!over) return undefined;
  const { at, used, holders } = over;
  const pieces = holders.map((stay) => stay.piece);
  return { at, pieces: pieces.join(', '), last: pieces[pieces.length - 1], share: `${used} of ${capacity}` };
}
