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
  return steps.map((step) => {
    const actual = actuals.get(`${step.piece}/${step.step}`);
    // Taken back since the plan was made.
    if (!actual)
      return step.state === 'planned' || step.handsOnMinutes === 0 ? step : { ...step, state: 'planned' };
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
