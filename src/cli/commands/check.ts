import { checkPlan } from '../../engine/index.ts';
import type { Command } from '../command.ts';
import { EXIT } from '../exit.ts';
import { readPlan, readShop } from '../files.ts';

export const check: Command = {
  name: 'check',
  summary: 'checks a plan against every rule of the shop',
  operands: [
    { name: 'FILE', about: 'the shop file' },
    { name: 'PLAN', about: 'the plan document, as "plan FILE --json" prints it (- reads standard input)' },
  ],
  options: {},
  more: [
    'Prints one line for every rule that is broken, and nothing into a pipe when all hold. The rules are',
    'written a second time for this and share nothing with the planner.',
    '',
    'example',
    '  npm run --silent check -- examples/market-week.shop.json week.plan.json',
  ],
  run(given, terminal) {
    const shop = readShop(given.operand('FILE'), terminal);
    const plan = readPlan(given.operand('PLAN'));
    const broken = checkPlan(shop, plan);
    for (const { rule, piece, step, text } of broken) {
      const where = [piece, step].filter((part) => part !== undefined).join(' ');
      terminal.print(`${rule}: ${where === '' ? '' : `${where}: `}${text.replaceAll(/\s+/g, ' ')}\n`);
    }
    if (broken.length > 0) return EXIT.no;
    if (terminal.isWatched) terminal.print(`Every rule holds, for ${plan.steps.length} steps.\n`);
    return EXIT.fine;
  },
};
