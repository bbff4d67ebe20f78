/** The plan's steps with what the shop says happened since: a button's effect is seen before the next plan is made. */
import type { PlanStep } from '../../engine/plan/document.ts';
import type { Actual, Shop } from '../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';

type Read = (text: string) => Minute | null;

export const asHappened = (
  shop: Shop,
  steps: readonly PlanStep[],
  read: Read,
  iso: (minute: Minute) => string,
): readonly PlanStep[] => {
  const actuals = new Map<string, Actual>();
  for (const piece of shop.pieces) {
    for (const actual of piece.actuals) actuals.set(`${piece.id}/${actual.step}`, actual);
  }
  const lastRecorded = new Map<string, number>();
  steps.forEach(({ piece, step }, at) => {
    if (actuals.has(`${piece}/${step}`)) lastRecorded.set(piece, at);
  });
  // What a later step has passed over counts as done; only these two may wait while the piece goes on.
  const isPassedOver = ({ piece, kind }: PlanStep, at: number): boolean =>
    kind !== 'turnaround' && kind !== 'scuff' && at < (lastRecorded.get(piece) ?? 0);
  return steps.map((step, at) => {
    const actual = actuals.get(`${step.piece}/${step.step}`);
    // Taken back since the plan was made.
    if (!actual)
      return step.state === 'planned' || step.handsOnMinutes === 0 || isPassedOver(step, at)
        ? step
        : { ...step, state: 'planned' };
    const started = read(actual.started) ?? minuteOf(step.start);
    const ended = actual.ended === undefined ? null : read(actual.ended);
    const length = minuteOf(step.end) - minuteOf(step.start);
    return {
      ...step,
      start: iso(started),
      end: iso(ended ?? started + length),
      state: ended === null ? 'begun' : 'done',
    };
  });
};
