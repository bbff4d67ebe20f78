/** The scheduler's answers as people read them: steps, holds, promises and reasons. */
export * from './document.ts';
export { parsePlan } from './parse-plan.ts';
export type { ParsedPlan, PlanFault } from './parse-plan.ts';
export { planShop } from './plan-shop.ts';
export type { PlanOptions } from './plan-shop.ts';
