import { cupsText, dayOfCups, materialsText, stockReport } from '../../engine/formats/index.ts';
import type { Command } from '../command.ts';
import { Refusal } from '../exit.ts';
import { readPlanOf, readShop } from '../files.ts';
import { planPage } from '../page/index.ts';
import { exitCodeOf, isPlan, planWith, PLANNING_OPTIONS, readPlanningChoice } from '../planning.ts';
import { readDay } from '../values.ts';

export const mix: Command = {
  name: 'mix',
  summary: "prints a day's cups: A, B and tint, by the cup and by weight, and who gets how much",
  operands: [{ name: 'FILE', about: 'the shop file (- reads standard input)' }],
  options: {
    day: { value: 'DATE', about: 'the day, such as 2026-11-26; left out, the next day with anything to mix' },
    stock: { about: 'prints what the cans hold, what is short, when to order, and what each piece costs' },
    plan: { value: 'PLAN', about: 'takes this plan document instead of planning now' },
    json: { about: 'prints the same as JSON and nothing else' },
    ...PLANNING_OPTIONS,
  },
  more: [
    'One cup after the other, in the order of mixing. Amounts are rounded to what the cups and the scale of',
    'the shop can read ("mixing" in the shop file), with what is left of the ratio told. Tare the empty cup',
    'once: the scale column counts on. Of several portions the last is what is left in the cup.',
    '',
    'examples',
    '  npm run mix -- examples/market-week.shop.json --now 2026-11-25T08:00',
    '  npm run mix -- examples/market-week.shop.json --stock',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const day = readDay(given.value('day'));
    if (day !== undefined && given.has('stock')) {
      throw new Refusal(
        '--day: is of the cups, and --stock of the whole plan; right would be one without the other',
      );
    }
    const shop = readShop(given.operand('FILE'), terminal);
    const saved = given.value('plan');
    const plan = saved === undefined ? planWith(shop, choice, terminal) : readPlanOf(shop, saved);
    if (!isPlan(plan)) {
      terminal.say(planPage(shop, plan, terminal));
      return exitCodeOf(plan);
    }
    const isStock = given.has('stock');
    if (given.has('json')) {
      const told = isStock ? stockReport(shop, plan) : dayOfCups(shop, plan, day);
      terminal.print(`${JSON.stringify(told, null, 2)}\n`);
    } else {
      terminal.print(
        isStock ? materialsText(shop, plan, terminal.width) : cupsText(shop, plan, terminal.width, day),
      );
    }
    return exitCodeOf(plan);
  },
};
