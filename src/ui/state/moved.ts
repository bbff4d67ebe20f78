/** What a new plan changed for the people in the shop: promises that no longer hold, and attended steps at another time than before. */
import { movedSteps, type Plan } from '../../engine/plan/index.ts';
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

/** The steps that moved, without those in `except`: nobody needs to be told what they just did. */
export const movedBy = (
  before: Plan,
  after: Plan,
  except: readonly { readonly piece: string; readonly step: string }[],
): readonly Moved[] =>
  movedSteps(before, after)
    .filter((moved) => !except.some(({ piece, step }) => piece === moved.piece && step === moved.step))
    .map(({ piece, step, from, to }) => ({ piece, step, from: minuteOf(from), to: minuteOf(to) }));
