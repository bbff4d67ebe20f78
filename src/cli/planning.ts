/** What the commands that plan have in common: the options that steer planning, and the planning itself. */
import { planShop } from '../engine/index.ts';
import type { Plan, Shop } from '../engine/index.ts';
import type { Given, Option } from './command.ts';
import { EXIT, type ExitCode } from './exit.ts';
import type { Terminal } from './terminal.ts';
import { readNow, readWhole } from './values.ts';

const DEFAULT_SEED = 1;
/** Counted steps of search, so that the plan does not depend on the machine; some seconds for a shop of forty pieces. */
const DEFAULT_BUDGET = 4_000_000;
const LARGEST_SEED = 2 ** 31 - 1;
const LARGEST_BUDGET = 1e12;

export const PLANNING_OPTIONS = {
  now: {
    value: 'TIME',
    about: "plan as of this moment, such as 2026-11-25T14:30 (the shop's clock); else the real clock",
  },
  seed: { value: 'N', about: `seed of the search; the same seed gives the same plan (${DEFAULT_SEED})` },
  budget: {
    value: 'N',
    about: `work to spend, in counted steps of search and not in seconds (${DEFAULT_BUDGET})`,
  },
} as const satisfies Record<string, Option>;

export interface PlanningChoice {
  readonly now: string;
  readonly seed: number;
  readonly budget: number;
}

/** The planning options of a call. @throws Refusal for a value that is none. */
export const readPlanningChoice = (given: Given): PlanningChoice => ({
  now: readNow(given.value('now')),
  seed: readWhole('seed', given.value('seed'), { least: 0, most: LARGEST_SEED, fallback: DEFAULT_SEED }),
  budget: readWhole('budget', given.value('budget'), {
    least: 1,
    most: LARGEST_BUDGET,
    fallback: DEFAULT_BUDGET,
  }),
});

/**
 * Plans the shop; on a terminal one line tells how far it has come.
 * @param standing a plan that stands: as little of it is moved as can be
 */
export function planWith(shop: Shop, choice: PlanningChoice, terminal: Terminal, standing?: Plan): Plan {
  let improvements = 0;
  terminal.progress('planning: looking for a first plan');
  const plan = planShop(shop, {
    ...choice,
    standing,
    progress: (better) => {
      improvements += 1;
      const late = better.pieces.filter(({ lateMinutes }) => lateMinutes > 0).length;
      terminal.progress(`planning: plan ${improvements}, ${late} of ${better.pieces.length} pieces late`);
    },
  });
  terminal.clearProgress();
  return plan;
}

/** Whether it says what to do; otherwise it only says why not. */
export const isPlan = ({ status }: Plan): boolean => status === 'optimal' || status === 'feasible';

export function exitCodeOf(plan: Plan): ExitCode {
  if (plan.status === 'infeasible') return EXIT.no;
  return plan.status === 'unknown' ? EXIT.outOfBudget : EXIT.fine;
}
