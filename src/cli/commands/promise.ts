import { promise as promiseOf } from '../../engine/index.ts';
import type { Shop } from '../../engine/index.ts';
import { formatMoment, makeClock, toMinute } from '../../engine/time/index.ts';
import type { Command } from '../command.ts';
import { EXIT, Refusal } from '../exit.ts';
import { readShop } from '../files.ts';
import { fill } from '../table.ts';
import { PLANNING_OPTIONS, readPlanningChoice } from '../planning.ts';
import { readSize } from '../values.ts';

export const promise: Command = {
  name: 'promise',
  summary: 'tells when a new piece could be ready without making another late',
  operands: [
    { name: 'FILE', about: 'the shop file' },
    { name: 'RECIPE', about: "the recipe's id" },
    { name: 'SIZE', about: 'length x width of the piece: 600x300 (mm), 60x30cm or 24x12in' },
  ],
  options: {
    ...PLANNING_OPTIONS,
    json: { about: 'prints { "ready", "plan" } or { "clash" } and nothing else' },
  },
  more: [
    'example',
    '  npm run promise -- examples/market-week.shop.json river-board 450x300 --now 2026-11-25T08:00',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const size = readSize(given.operand('SIZE'));
    const shop = readShop(given.operand('FILE'), terminal);
    const recipe = requireRecipe(shop, given.operand('RECIPE'));
    terminal.progress('planning: looking for room');
    const answer = promiseOf(shop, { recipe: recipe.id, size, ...choice });
    terminal.clearProgress();
    if (given.has('json')) {
      terminal.print(`${JSON.stringify(answer, null, 2)}\n`);
    } else if ('ready' in answer) {
      const clock = makeClock(shop.zone, answer.ready);
      terminal.print(
        `${recipe.name}, ${size.lengthMm} x ${size.widthMm} mm: ready ${formatMoment(clock, toMinute(clock, answer.ready))}.\n`,
      );
    } else {
      const lines = answer.clash.flatMap((line) => fill(line, terminal.width, '  ', '    '));
      terminal.print(`${['No promise can be given:', ...lines].join('\n')}\n`);
    }
    return 'ready' in answer ? EXIT.fine : EXIT.no;
  },
};

function requireRecipe(shop: Shop, id: string): Shop['recipes'][number] {
  const recipe = shop.recipes.find((known) => known.id === id);
  if (recipe !== undefined) return recipe;
  throw new Refusal(
    `RECIPE: found "${id}", needs one of ${shop.recipes.map((known) => known.id).join(', ')}`,
  );
}
