/** How the plan stands, in a few words. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Phase } from '../state/index.ts';

const SAYS: Readonly<Record<Phase, string>> = {
  starting: 'opening the shop…',
  planning: 'planning…',
  improving: 'looking for a better plan…',
  settled: 'plan is settled',
  clash: 'no plan',
  failed: 'the plan may be out of date',
};

/** Proved is said only of what is proved: around a plan that stood, the best is the best of those that move as little. */
export const standingSays = (phase: Phase, plan: Pick<Plan, 'status' | 'levels'> | null): string => {
  if (phase !== 'settled' || plan?.status !== 'optimal') return SAYS[phase];
  return plan.levels.some(({ name }) => name === 'moved')
    ? 'proved best, moving least'
    : 'plan is proved best';
};
