/** What a new plan changed for the people in the shop: promises that no longer hold, and attended steps that start at another minute than before. */
import type { Plan, PlanStep } from '../../engine/plan/document.ts';
import { minuteOf, type Minute } from '../clock/index.ts';

export interface Moved {
  readonly piece: string;
  readonly step: string;
  readonly from: Minute;
  readonly to: Minute;
}

/** A piece that will be late, and was not, or not so much. */
export interface Later {
  readonly piece: string;
  readonly lateMinutes: number;
}

/** The pieces that are later after their dates in `after` than in `before`, the latest first. */
export const laterPieces = (before: Plan, after: Plan): readonly Later[] => {
  const known = new Map(before.pieces.map(({ piece, lateMinutes }) => [piece, lateMinutes]));
  return after.pieces
    .filter(({ piece, lateMinutes }) => lateMinutes > (known.get(piece) ?? 0))
    .map(({ piece, lateMinutes }) => ({ piece, lateMinutes }))
    .sort((a, b) => b.lateMinutes - a.lateMinutes);
};

const keyOf = (step: PlanStep): string => `${step.piece}\u0000${step.step}`;

/**
 * Attended steps of `after` that `before` had at another start, the soonest first. Steps that began or are done, and
 * those in `except` (`piece`, `step`), are left out: nobody needs to be told what they just did.
 */
export const movedSteps = (
  before: Plan,
  after: Plan,
  except: readonly { readonly piece: string; readonly step: string }[] = [],
): readonly Moved[] => {
  const starts = new Map(before.steps.map((step) => [keyOf(step), step.start]));
  const skip = new Set(except.map(({ piece, step }) => `${piece}\u0000${step}`));
  return after.steps
    .filter((step) => step.handsOnMinutes > 0 && step.state === 'planned' && !skip.has(keyOf(step)))
    .flatMap((step) => {
      const from = starts.get(keyOf(step));
      if (from === undefined || from === step.start) return [];
      return [{ piece: step.piece, step: step.step, from: minuteOf(from), to: minuteOf(step.start) }];
    })
    .sort((a, b) => Math.min(a.from, a.to) - Math.min(b.from, b.to));
};
