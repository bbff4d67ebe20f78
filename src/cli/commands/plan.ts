import type { Plan, Shop } from '../../engine/index.ts';
import type { Command, Given } from '../command.ts';
import { readShop } from '../files.ts';
import { planPage } from '../page/index.ts';
import { exitCodeOf, planWith, PLANNING_OPTIONS, readPlanningChoice } from '../planning.ts';
import type { Terminal } from '../terminal.ts';

/** What can be printed instead of the page: one entry an option; the first one given is printed. */
const DOCUMENTS: Readonly<Record<string, { readonly about: string; write(shop: Shop, plan: Plan): string }>> =
  {
    json: {
      about: 'prints the plan document and nothing else',
      write: (_, plan) => `${JSON.stringify(plan, null, 2)}\n`,
    },
  };

export const plan: Command = {
  name: 'plan',
  summary: 'plans a shop and prints what to do, day by day',
  operands: [{ name: 'FILE', about: 'the shop file (- reads standard input)' }],
  options: {
    ...PLANNING_OPTIONS,
    ...Object.fromEntries(Object.entries(DOCUMENTS).map(([name, { about }]) => [name, { about }])),
  },
  more: [
    'Today and tomorrow come first, then the other days: when, which piece, what to do, how long',
    'hands are needed, and between which moments the layer below can be poured over (its window).',
    'Then the forms and when each frees up, late pieces and why, remarks, and how good the plan is.',
    '',
    'examples',
    '  npm run plan -- examples/market-week.shop.json --now 2026-11-25T08:00',
    '  npm run --silent plan -- examples/market-week.shop.json --json > week.plan.json',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const shop = readShop(given.operand('FILE'), terminal);
    const made = planWith(shop, choice, terminal);
    terminal.print(written(shop, made, given, terminal));
    return exitCodeOf(made);
  },
};

function written(shop: Shop, made: Plan, given: Given, terminal: Terminal): string {
  const name = Object.keys(DOCUMENTS).find((option) => given.has(option));
  return name === undefined ? planPage(shop, made, terminal) : DOCUMENTS[name].write(shop, made);
}
