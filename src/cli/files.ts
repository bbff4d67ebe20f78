/** Reads the files a command names. Every fault of a file is told at once, with its path inside the file. */
import { readFileSync } from 'node:fs';
import { parsePlan, parseShop } from '../engine/index.ts';
import type { Fault, Plan, Shop } from '../engine/index.ts';
import { Refusal } from './exit.ts';
import type { Terminal } from './terminal.ts';

const STANDARD_INPUT = '-';

/** The shop of a file (`-`: standard input). Warnings go to standard error. */
export const readShop = (file: string, terminal: Terminal): Shop =>
  shopOf(readShopText(file), file, terminal);

export const readShopText = (file: string): string =>
  readText(file, 'a shop file such as examples/market-week.shop.json');

/** The shop written in `text`; `file` is what messages call it. */
export function shopOf(text: string, file: string, terminal: Terminal): Shop {
  const parsed = parseShop(text);
  if (!parsed.ok) throw unusable(file, 'shop file', parsed.faults);
  for (const warning of parsed.warnings) terminal.say(`${nameOf(file)}: note: ${sentence(warning)}\n`);
  return parsed.shop;
}

/** The plan document of a file (`-`: standard input). */
export function readPlan(file: string): Plan {
  const parsed = parsePlan(readText(file, 'a plan document as "plan FILE --json" prints it'));
  if (!parsed.ok) throw unusable(file, 'plan document', parsed.faults);
  return parsed.plan;
}

/** The same, of this shop: what it is made of is in the shop file. @throws Refusal for the plan of another one */
export function readPlanOf(shop: Shop, file: string): Plan {
  const plan = readPlan(file);
  const pieces = new Set(shop.pieces.map(({ id }) => id));
  const resins = new Set(shop.resins.map(({ id }) => id));
  const stray = plan.steps.find(
    ({ piece, resin }) => !pieces.has(piece) || (resin !== undefined && !resins.has(resin)),
  );
  if (!stray) return plan;
  const what = pieces.has(stray.piece) ? `the resin "${stray.resin}"` : `the piece "${stray.piece}"`;
  throw new Refusal(
    `${nameOf(file)}: found a plan with ${what}, which the shop file does not have; needed is a plan of this shop`,
  );
}

const nameOf = (file: string) => (file === STANDARD_INPUT ? 'standard input' : file);

function readText(file: string, wanted: string): string {
  try {
    return readFileSync(file === STANDARD_INPUT ? 0 : file, 'utf8');
  } catch (fault) {
    const code = fault instanceof Error && 'code' in fault ? fault.code : undefined;
    const what =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'this is a folder'
          : code === 'EACCES'
            ? 'this may not be read'
            : `cannot be read (${String(code ?? fault)})`;
    throw new Refusal(`${nameOf(file)}: ${what}; needed is ${wanted}`);
  }
}

function unusable(file: string, what: string, faults: readonly Fault[]): Refusal {
  const count = faults.length === 1 ? 'one fault' : `${faults.length} faults`;
  return new Refusal(
    [`${nameOf(file)} cannot be used as a ${what}: ${count}`, ...faults.map((f) => `  ${sentence(f)}`)].join(
      '\n',
    ),
  );
}

const sentence = ({ path, found, message }: Fault) =>
  `${path === '' ? '' : `${path}: `}found ${found}; ${message}`;
