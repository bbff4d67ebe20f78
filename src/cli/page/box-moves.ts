/** With which step a piece is put into a warm box or taken out: the plan says only which waiting is done in one. */
import type { Plan, PlanStep } from '../../engine/index.ts';
import type { Moments } from './moments.ts';

export interface BoxMove {
  /** Box that the piece leaves before the step. */
  readonly outOf?: string;
  /** Box that it goes into after the step. */
  readonly into?: string;
}

/** For every hands-on step of the plan around which a piece moves. */
export function boxMoves(plan: Plan, moments: Moments): Map<PlanStep, BoxMove> {
  const moves = new Map<PlanStep, BoxMove>();
  const add = (step: PlanStep | undefined, move: BoxMove) => {
    if (step !== undefined) moves.set(step, { ...moves.get(step), ...move });
  };
  for (const wait of plan.steps) {
    const { piece, warmBox } = wait;
    if (warmBox === undefined || wait.handsOnMinutes > 0) continue;
    const end = moments.minute(wait.end);
    const handled = plan.steps
      .filter((step) => step.piece === piece && step.handsOnMinutes > 0)
      .map((step) => ({ step, start: moments.minute(step.start) }))
      .sort((a, b) => a.start - b.start);
    add(handled.filter(({ start }) => start < end).at(-1)?.step, { into: warmBox });
    add(handled.find(({ start }) => start >= end)?.step, { outOf: warmBox });
  }
  return moves;
}
