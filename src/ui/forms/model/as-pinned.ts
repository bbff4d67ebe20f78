/**
 * The plan as the maker has just put it: a step that was pinned since the plan was made already stands at its pin, so
 * that it does not jump back while the rest is planned around it. A mix and its application move as one.
 */
import type { Plan, PlanStep } from '../../../engine/plan/document.ts';
import type { Shop } from '../../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../../clock/index.ts';
import { applyStepOf } from '../../words/index.ts';

export const asPinned = (
  shop: Shop,
  plan: Plan,
  read: (text: string) => Minute | null,
  iso: (minute: Minute) => string,
): Plan => {
  const shifts = new Map<string, number>();
  for (const piece of shop.pieces) {
    for (const pin of piece.pins) {
      const at = pin.at === undefined ? null : read(pin.at);
      const step = plan.steps.find((one) => one.piece === piece.id && one.step === pin.step);
      if (at === null || !step || step.state !== 'planned') continue;
      const by = at - minuteOf(step.start);
      if (by !== 0) shifts.set(blockOf(step), by);
    }
  }
  if (shifts.size === 0) return plan;
  return {
    ...plan,
    steps: plan.steps.map((step) => {
      const by = shifts.get(blockOf(step));
      if (by === undefined || step.handsOnMinutes === 0) return step;
      return {
        ...step,
        start: iso(minuteOf(step.start) + by),
        end: iso(minuteOf(step.end) + by),
        pinned: true,
      };
    }),
  };
};

const isBlock = (step: PlanStep): boolean =>
  step.kind === 'mix' || step.kind === 'pour' || step.kind === 'seal' || step.kind === 'coat';

const blockOf = (step: PlanStep): string =>
  `${step.piece}/${isBlock(step) ? applyStepOf(step.step) : step.step}`;
