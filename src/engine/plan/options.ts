/** What a plan is asked for with. */
import type { Plan } from './document.ts';

export interface PlanOptions {
  /** ISO moment; nothing is planned before it. */
  readonly now: string;
  /** Whole number; the same shop, now, seed and budget give the same plan. */
  readonly seed: number;
  /** Counted steps of search. */
  readonly budget: number;
  readonly stop?: () => boolean;
  /** Called with every better plan. */
  readonly progress?: (plan: Plan) => void;
  /** The plan that stands: as little of it is moved as can be. */
  readonly standing?: Plan;
  /** A plan found for this shop before, for a promise say: what is planned is no worse. */
  readonly known?: Plan;
}
