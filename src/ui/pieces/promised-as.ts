/** The plan of a promise, with the piece that was asked about under the name that it got. */
import type { Plan } from '../../engine/plan/document.ts';

export interface Promised {
  readonly plan: Plan;
  /** What the plan calls the piece. */
  readonly piece: string;
}

export const promisedAs = ({ plan, piece }: Promised, id: string): Plan => {
  const named = <T extends { readonly piece: string }>(one: T): T =>
    one.piece === piece ? { ...one, piece: id } : one;
  return {
    ...plan,
    steps: plan.steps.map(named),
    holds: plan.holds.map(named),
    pieces: plan.pieces.map(named),
  };
};
