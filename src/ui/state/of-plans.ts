/** What planning asks of the plans it is given: whether they still hold, are the same, or are worth looking at for longer. */
import type { Plan } from '../../engine/plan/document.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import type { ApplicationCure, Planned } from '../engine/index.ts';

/** A step that is not begun this long after its time, and the plan is made again around what is true. */
const PATIENCE_MINUTES = 10;

/** Whether something should have begun a while ago and has not. */
export const isOverdue = ({ steps }: Plan, now: Minute): boolean =>
  steps.some(
    (step) =>
      step.handsOnMinutes > 0 && step.state === 'planned' && minuteOf(step.start) + PATIENCE_MINUTES < now,
  );

/** While a finer answer is on its way, what cures as before is drawn as before. */
export const stillCuring = (plan: Plan, cures: readonly ApplicationCure[]): readonly ApplicationCure[] => {
  const starts = new Map(plan.steps.map((step) => [`${step.piece}/${step.step}`, step.start]));
  return cures.filter((cure) => starts.get(`${cure.piece}/${cure.step}`) === cure.applied);
};

/** Whether a piece is late of which it is not proved that it must be. */
export const mayBeSooner = ({ levels }: Plan): boolean =>
  levels.some(({ name, value, proven }) => name === 'tardiness' && value > 0 && !proven);

export const isSame = (one: Planned, other: Planned): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

export const isSameWorth = (one: Plan, other: Plan): boolean =>
  one.levels.length === other.levels.length &&
  one.levels.every(({ name, value }, k) => name === other.levels[k].name && value === other.levels[k].value);
