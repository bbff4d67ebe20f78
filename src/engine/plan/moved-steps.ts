/** What a plan moves of the work that stood in another, for the people who do it. */
import type { Plan, PlanStep } from './document.ts';

export interface MovedStep {
  readonly piece: string;
  readonly step: string;
  /** ISO, as the plans have them. */
  readonly from: string;
  readonly to: string;
}

const keyOf = ({ piece, step }: PlanStep): string => `${piece}/${step}`;

/** Attended steps that are still to come in `after` and that `before` had at another start; the soonest first. */
export function movedSteps(before: Plan, after: Plan): MovedStep[] {
  const stood = new Map(before.steps.map((step) => [keyOf(step), step.start]));
  return after.steps
    .filter(({ handsOnMinutes, state }) => handsOnMinutes > 0 && state === 'planned')
    .flatMap((step) => {
      const from = stood.get(keyOf(step));
      if (from === undefined || Date.parse(from) === Date.parse(step.start)) return [];
      return [{ piece: step.piece, step: step.step, from, to: step.start }];
    })
    .sort((a, b) => firstOf(a) - firstOf(b));
}

const firstOf = ({ from, to }: MovedStep): number => Math.min(Date.parse(from), Date.parse(to));
