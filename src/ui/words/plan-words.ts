/** How planning stands: the same words on every screen. */
import type { Phase } from '../state/index.ts';

/** A plan stands: of the shop as it is, or as it was before the last change. */
const WITH_PLAN: Readonly<Record<Phase, string>> = {
  starting: 'Opening the shop…',
  planning: 'The plan is being made…',
  improving: 'Looking for a better plan…',
  settled: 'The plan is settled',
  clash: 'The plan is out of date',
  failed: 'The plan may be out of date',
};

const WITHOUT_PLAN: Readonly<Record<Phase, string>> = {
  ...WITH_PLAN,
  improving: WITH_PLAN.planning,
  clash: 'There is no plan',
  failed: 'There is no plan',
};

/** @param isThere whether the screens show a plan */
export const planWords = (phase: Phase, isThere: boolean): string =>
  (isThere ? WITH_PLAN : WITHOUT_PLAN)[phase];
