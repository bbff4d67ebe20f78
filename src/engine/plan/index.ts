/** The scheduler's answers as people read them: steps, holds, cures, promises and reasons. */
export { writtenAheadIn } from './ahead-notes.ts';
export type { WrittenAhead } from './ahead-notes.ts';
export { milestones } from './cures.ts';
export type { ApplicationCure, CureSample, Span } from './cures.ts';
export * from './document.ts';
export { movedSteps } from './moved-steps.ts';
export type { MovedStep } from './moved-steps.ts';
export { legalPlaces } from './places.ts';
export type { ClosedSpan, LegalPlaces } from './places.ts';
export type { Obstacle } from './obstacles.ts';
export { parsePlan } from './parse-plan.ts';
export type { ParsedPlan } from './parse-plan.ts';
export { planShop, tryPlan } from './plan-shop.ts';
export type { PlanOptions } from './options.ts';
export { promise } from './promise.ts';
export type { Promised, PromiseOptions } from './promise.ts';
export { resinCurve } from './resin-curve.ts';
export type { ResinTimes } from './resin-curve.ts';
export { air, openHours } from './surroundings.ts';
export type { PersonOpen, RoomAir } from './surroundings.ts';
export { whyStep } from './why.ts';
/** Whether a piece of a recipe goes into a form; screens ask before they offer it. */
export { fits } from '../routing/index.ts';
