/** One measured run of a shop: from the file's text to the best plan, with every answer checked twice. */
import { checkPlan } from '../src/engine/check/index.ts';
import { planShop } from '../src/engine/plan/plan-shop.ts';
import { prepare } from '../src/engine/plan/prepare.ts';
import { solve, verify, type LevelOutcome } from '../src/engine/schedule/index.ts';
import { parseShop, type Shop } from '../src/engine/shop/index.ts';

export interface ShopRun {
  readonly name: string;
  readonly pieces: number;
  /** Starts of the model: blocks of work, every one placed in time. */
  readonly steps: number;
  readonly choices: number;
  /** From the parsed shop to the model, ms. */
  readonly msModel: number;
  /** From the model on, ms; null when there was no plan. */
  readonly msFirst: number | null;
  readonly msBest: number | null;
  /** When each level was proved best, from the model on, ms; null where it was not. */
  readonly msProved: readonly (number | null)[];
  readonly msTotal: number;
  readonly heapMB: number;
  readonly status: string;
  readonly first: readonly number[];
  readonly levels: readonly LevelOutcome[];
  /** Broken rules, of the model and of the shop (null: not asked). */
  readonly brokenModel: number;
  readonly brokenShop: number | null;
  readonly work: number;
}

export interface RunOptions {
  readonly now: string;
  readonly seed: number;
  readonly budget: number;
  /** Wall time after which the solver is stopped, ms. */
  readonly ms: number;
  /** Also plan the shop in its own words, with a small budget, and ask the checker. */
  readonly isChecked: boolean;
}

const DAY = 1440;
const CHECK_BUDGET = 100_000;

/** Minutes ahead: past every date, and twice as far as the forms take for all pieces one after the other. */
function horizonOf(shop: Shop, now: string): number {
  const last = Math.max(...shop.pieces.map(({ due }) => Date.parse(due.slice(0, 16)) - Date.parse(now)));
  const forms = shop.forms.reduce((sum, { count }) => sum + count, 0);
  return Math.round(Math.max(last / 60_000, (shop.pieces.length / forms) * 14 * DAY)) + 28 * DAY;
}

export function readShop(text: string): Shop {
  const read = parseShop(text);
  if (!read.ok) throw new Error(read.faults.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  return read.shop;
}

export function runShop(name: string, shop: Shop, { now, seed, budget, ms, isChecked }: RunOptions): ShopRun {
  const begun = performance.now();
  const { model } = prepare(shop, now, horizonOf(shop, now));
  const built = performance.now();
  let msFirst: number | null = null;
  let msBest: number | null = null;
  let first: readonly number[] = [];
  let best = '';
  let msProved: readonly (number | null)[] = model.levels.map(() => null);
  const outcome = solve(model, {
    seed,
    budget,
    stop: () => performance.now() - built > ms,
    progress: ({ best: found, levels }) => {
      if (found === null) return;
      const values = levels.map(({ value }) => value);
      const at = performance.now() - built;
      msProved = levels.map(({ proven }, k) => (proven ? (msProved[k] ?? at) : null));
      if (msFirst === null) {
        msFirst = at;
        first = values;
      }
      if (best !== values.join()) {
        best = values.join();
        msBest = at;
      }
    },
  });
  const msTotal = performance.now() - built;
  if ('levels' in outcome)
    msProved = outcome.levels.map(({ proven }, k) => (proven ? (msProved[k] ?? msTotal) : null));
  const hasPlan = outcome.status === 'optimal' || outcome.status === 'feasible';
  return {
    name,
    pieces: shop.pieces.length,
    steps: model.starts.length,
    choices: model.choices.length,
    msModel: built - begun,
    msFirst,
    msBest,
    msProved,
    msTotal,
    heapMB: process.memoryUsage().heapUsed / 1e6 + process.memoryUsage().arrayBuffers / 1e6,
    status: outcome.status,
    first,
    levels: hasPlan ? outcome.levels : [],
    brokenModel: hasPlan ? verify(model, outcome.best).length : 0,
    brokenShop: isChecked
      ? checkPlan(shop, planShop(shop, { now, seed, budget: CHECK_BUDGET })).length
      : null,
    work: outcome.work,
  };
}
