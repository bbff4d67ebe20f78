import { whyStep } from '../../engine/index.ts';
import type { Plan, Shop } from '../../engine/index.ts';
import type { Command } from '../command.ts';
import { EXIT, Refusal } from '../exit.ts';
import { readPlanOf, readShop } from '../files.ts';
import { fill } from '../table.ts';
import { planWith, PLANNING_OPTIONS, readPlanningChoice } from '../planning.ts';

export const why: Command = {
  name: 'why',
  summary: 'tells what holds a step where it is, back to the cause',
  operands: [
    { name: 'FILE', about: 'the shop file' },
    { name: 'PIECE', about: "the piece's id" },
    { name: 'STEP', about: 'the step of the piece, such as layer-2-pour or ready' },
  ],
  options: {
    plan: { value: 'PLAN', about: 'asks about this plan document instead of planning now' },
    ...PLANNING_OPTIONS,
  },
  more: [
    'example',
    '  npm run why -- examples/market-week.shop.json curlew layer-2-pour --plan week.plan.json',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const shop = readShop(given.operand('FILE'), terminal);
    const [piece, step] = [given.operand('PIECE'), given.operand('STEP')];
    requirePiece(shop, piece);
    const saved = given.value('plan');
    const plan = saved === undefined ? planWith(shop, choice, terminal) : readPlanOf(shop, saved);
    requireStep(plan, piece, step);
    const lines = whyStep(shop, plan, piece, step).flatMap((line) => fill(line, terminal.width, '', '    '));
    terminal.print(`${lines.join('\n')}\n`);
    return EXIT.fine;
  },
};

function requirePiece(shop: Shop, piece: string): void {
  if (shop.pieces.some(({ id }) => id === piece)) return;
  throw new Refusal(
    `PIECE: found "${piece}", needs one of ${shop.pieces.map(({ id }) => id).join(', ') || '(the shop has no pieces)'}`,
  );
}

function requireStep(plan: Plan, piece: string, step: string): void {
  const own = plan.steps.filter((planned) => planned.piece === piece);
  if (own.some((planned) => planned.step === step)) return;
  if (plan.steps.length === 0) {
    if (plan.status === 'infeasible')
      throw new Refusal(`no plan can exist:\n${plan.clash.map((line) => `  ${line}`).join('\n')}`, EXIT.no);
    throw new Refusal(
      'the budget ran out before there was a plan; give more with --budget',
      EXIT.outOfBudget,
    );
  }
  throw new Refusal(
    `STEP: found "${step}", needs one of ${own.map((planned) => planned.step).join(', ') || '(no step of this piece is in the plan)'}`,
  );
}
