import { promise as promiseOf } from '../../engine/index.ts';
import type { Plan, Promised, Shop } from '../../engine/index.ts';
import type { Command } from '../command.ts';
import { EXIT, Refusal, type ExitCode } from '../exit.ts';
import { readPlan, readShop } from '../files.ts';
import { promisePage } from '../page/index.ts';
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
    standing: {
      value: 'PLAN',
      about: 'the plan that stands: tells what fits beside it, nothing of it moved',
    },
    move: { about: 'with --standing: as early as can be, as little as can be of the plan moved for it' },
    json: { about: 'prints { "ready", "piece", "plan" } or { "status", "clash" } and nothing else' },
  },
  more: [
    'examples',
    '  npm run promise -- examples/market-week.shop.json river-board 450x300 --now 2026-11-25T08:00',
    '  npm run promise -- examples/market-week.shop.json tray 400x300 --standing week.plan.json --move',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const size = readSize(given.operand('SIZE'));
    const file = given.value('standing');
    const mayMove = given.has('move');
    if (mayMove && file === undefined)
      throw new Refusal('--move: says that a plan may be moved; it needs --standing beside it');
    const shop = readShop(given.operand('FILE'), terminal);
    const recipe = requireRecipe(shop, given.operand('RECIPE'));
    const standing = file === undefined ? undefined : readPlan(file);
    terminal.progress('planning: looking for room');
    const answer = promiseOf(shop, { recipe: recipe.id, size, ...choice, standing, mayMove });
    terminal.clearProgress();
    terminal.print(
      given.has('json')
        ? `${JSON.stringify(document(answer), null, 2)}\n`
        : promisePage(shop, { recipe: recipe.name, size, standing, mayMove }, answer, terminal),
    );
    return exitCode(answer);
  },
};

/** What --json prints. */
function document(
  answer: Promised,
): { ready: string; piece: string; plan: Plan } | { status: string; clash: readonly string[] } {
  if (!answer.ok) return { status: answer.status, clash: answer.clash };
  return { ready: answer.ready, piece: answer.piece, plan: answer.plan };
}

function exitCode(answer: Promised): ExitCode {
  if (answer.ok) return EXIT.fine;
  return answer.status === 'infeasible' ? EXIT.no : EXIT.outOfBudget;
}

function requireRecipe(shop: Shop, id: string): Shop['recipes'][number] {
  const recipe = shop.recipes.find((known) => known.id === id);
  if (recipe !== undefined) return recipe;
  throw new Refusal(
    `RECIPE: found "${id}", needs one of ${shop.recipes.map((known) => known.id).join(', ')}`,
  );
}
