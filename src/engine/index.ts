/** The engine's door for the command line and the screens. */
export * from './shop/index.ts';
export * from './plan/index.ts';
export { checkPlan } from './check/index.ts';
export type { Broken } from './check/index.ts';
