/** Every rule of the shop, a second time: does this plan hold? Reads only the shop file and the plan document. */
export { checkPlan } from './check-plan.ts';
export type { Broken } from './evidence.ts';
