import { checkPlan } from '../../engine/index.ts';
import type { Broken } from '../../engine/index.ts';
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
    for (const one of broken) terminal.print(`${brokenLine(one)}\n`);
    if (broken.length > 0) return EXIT.no;
    if (terminal.isWatched) terminal.print(`Every rule holds, for ${plan.steps.length} steps.\n`);
    return EXIT.fine;
  },
};

/** One line, whatever the rule's text holds; it begins with the rule's name and says which step it is about. */
function brokenLine({ rule, piece, step, text }: Broken): string {
  const where = [piece, step].filter((part) => part !== undefined).join(' ');
  const line = text.startsWith(where) ? text : `${where}: ${text}`;
  return `${rule}: ${line.replaceAll(/\s+/g, ' ')}`;
}
