import {
  formCards,
  materialsCsv,
  pieceRecord,
  recordText,
  runSheet,
  sheetText,
  stepsCsv,
  toCalendar,
} from '../../engine/formats/index.ts';
import type { Plan, Shop } from '../../engine/index.ts';
import type { Command, Given } from '../command.ts';
import { Refusal } from '../exit.ts';
import { readPlan, readShop } from '../files.ts';
import { planPage } from '../page/index.ts';
import { exitCodeOf, isPlan, planWith, PLANNING_OPTIONS, readPlanningChoice } from '../planning.ts';
import type { Terminal } from '../terminal.ts';
import { readDay } from '../values.ts';

/** What can be printed instead of the page: one entry an option; one at a time. */
interface Document {
  /** What the option's value is called; left out for a plain yes. */
  readonly value?: string;
  readonly about: string;
  write(shop: Shop, plan: Plan, given: Given, terminal: Terminal, standing?: Plan): string;
}

const DOCUMENTS: Readonly<Record<string, Document>> = {
  json: {
    about: 'prints the plan document and nothing else',
    write: (_, plan) => `${JSON.stringify(plan, null, 2)}\n`,
  },
  sheet: {
    about: 'prints the run sheet of the next day with work (or of --day, or of --piece)',
    write: (shop, plan, given, terminal) =>
      sheetText(
        runSheet(shop, plan, { date: readDay(given.value('day')), piece: readPiece(shop, given) }),
        formCards(shop, plan),
        terminal.width,
      ),
  },
  ics: {
    about: 'prints an iCalendar file of hands-on work, windows and forms freeing up',
    write: (shop, plan, _given, _terminal, standing) => toCalendar(shop, plan, { standing }),
  },
  csv: {
    value: 'TABLE',
    about: 'prints a table as CSV: steps, or materials',
    write: (shop, plan, given) => tableNamed(given.value('csv'))(shop, plan),
  },
  record: {
    value: 'PIECE',
    about: 'prints what has happened to a piece: batches, times, temperatures, touch tests',
    write: (shop, plan, given, terminal) => {
      const piece = given.value('record') ?? '';
      requirePiece(shop, 'record', piece);
      return recordText(pieceRecord(shop, plan, piece), terminal.width);
    },
  },
};

const TABLES: Readonly<Record<string, (shop: Shop, plan: Plan) => string>> = {
  steps: stepsCsv,
  materials: materialsCsv,
};

export const plan: Command = {
  name: 'plan',
  summary: 'plans a shop and prints what to do, day by day',
  operands: [{ name: 'FILE', about: 'the shop file (- reads standard input)' }],
  options: {
    ...PLANNING_OPTIONS,
    ...Object.fromEntries(
      Object.entries(DOCUMENTS).map(([name, { value, about }]) => [name, { value, about }]),
    ),
    standing: {
      value: 'PLAN',
      about: 'a plan from before: as little of it is moved as can be, and --ics cancels what is gone',
    },
    day: { value: 'DATE', about: "the run sheet's day, such as 2026-11-26" },
    piece: { value: 'PIECE', about: "the run sheet's piece: all its days, or the one of --day" },
  },
  more: [
    'Today and tomorrow come first, then the other days: when, which piece, what to do, how long',
    'hands are needed, and between which moments the layer below can be poured over (its window).',
    'Then the forms and when each frees up, late pieces and why, remarks, and how good the plan is.',
    '',
    'examples',
    '  npm run plan -- examples/market-week.shop.json --now 2026-11-25T08:00',
    '  npm run --silent plan -- examples/market-week.shop.json --json > week.plan.json',
    '  npm run --silent plan -- examples/market-week.shop.json --ics > week.ics',
    '  npm run --silent plan -- examples/market-week.shop.json --standing week.plan.json --ics > change.ics',
    '  npm run --silent plan -- examples/market-week.shop.json --sheet --day 2026-11-26',
    '  npm run --silent plan -- examples/market-week.shop.json --csv materials',
  ],
  run(given, terminal) {
    const choice = readPlanningChoice(given);
    const name = documentNamed(given);
    const shop = readShop(given.operand('FILE'), terminal);
    refuseEarly(shop, given);
    const file = given.value('standing');
    const standing = file === undefined ? undefined : readPlan(file);
    const made = planWith(shop, choice, terminal, standing);
    if (name === undefined) terminal.print(planPage(shop, made, terminal));
    else if (name === 'json' || isPlan(made)) {
      terminal.print(DOCUMENTS[name].write(shop, made, given, terminal, standing));
    } else terminal.say(planPage(shop, made, terminal));
    return exitCodeOf(made);
  },
};

/** The one document that is asked for. @throws Refusal for two, and for a choice of days or pieces of no run sheet */
function documentNamed(given: Given): string | undefined {
  const [name, second] = Object.keys(DOCUMENTS).filter((option) => given.has(option));
  if (second !== undefined) throw new Refusal(`--${name} and --${second}: one thing is printed at a time`);
  const lost = ['day', 'piece'].find((option) => given.has(option));
  if (lost !== undefined && name !== 'sheet') {
    throw new Refusal(`--${lost} chooses what a run sheet shows; it needs --sheet beside it`);
  }
  return name;
}

/** What is wrong with the options' values is told before any time goes into planning. */
function refuseEarly(shop: Shop, given: Given): void {
  readDay(given.value('day'));
  readPiece(shop, given);
  const record = given.value('record');
  if (record !== undefined) requirePiece(shop, 'record', record);
  if (given.has('csv')) tableNamed(given.value('csv'));
}

function tableNamed(name = ''): (shop: Shop, plan: Plan) => string {
  if (Object.hasOwn(TABLES, name)) return TABLES[name];
  throw new Refusal(`--csv: found "${name}", needs one of ${Object.keys(TABLES).join(', ')}`);
}

function readPiece(shop: Shop, given: Given): string | undefined {
  const piece = given.value('piece');
  if (piece !== undefined) requirePiece(shop, 'piece', piece);
  return piece;
}

function requirePiece(shop: Shop, option: string, piece: string): void {
  if (shop.pieces.some(({ id }) => id === piece)) return;
  const known = shop.pieces.map(({ id }) => id).join(', ');
  throw new Refusal(`--${option}: found "${piece}", needs one of ${known || '(the shop has no pieces)'}`);
}
