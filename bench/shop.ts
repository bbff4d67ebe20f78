/**
 * How fast and how well the example shops are planned. Every plan is held against the model's rules and, as a plan document, against the checker.
 *
 * `npm run bench:shop` prints a table, `npm run --silent bench:shop -- --json` one JSON line a shop. `--ms N` is the wall time a shop (10,000),
 * `--budget N` the work (unlimited by default), `--seed N`; names of examples choose among them. Figures are of a fresh process: `--warm`
 * runs each shop once before it is measured. Other shops: `npx tsx bench/make-shop.ts 160 48 6 7 > FILE`, then give FILE.
 */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { SHOP_STARTS } from './make-shop.ts';
import { readShop, runShop, type ShopRun } from './shop-run.ts';

const EXAMPLES = ['evening-board', 'market-week', 'cold-garage', 'six-weeks'];

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    json: { type: 'boolean', default: false },
    warm: { type: 'boolean', default: false },
    ms: { type: 'string', default: '10000' },
    budget: { type: 'string', default: '1e12' },
    seed: { type: 'string', default: '1' },
  },
});

const whole = (ms: number | null): string => (ms === null ? '-' : ms.toFixed(0));

function print(run: ShopRun): void {
  if (values.json) {
    console.log(JSON.stringify(run));
    return;
  }
  console.log(
    `${run.name}: ${run.pieces} pieces, ${run.steps} steps, ${run.choices} choices, ${run.status}\n` +
      `  model ${whole(run.msModel)} ms, first plan ${whole(run.msFirst)} ms, last improvement ${whole(run.msBest)} ms, ` +
      `in all ${whole(run.msTotal)} ms, ${run.work} counted steps\n` +
      run.levels
        .map(
          ({ name, value, bound, proven }, k) =>
            `  ${name.padEnd(10)} first ${run.first[k]}, best ${value}, ${proven ? `proved after ${whole(run.msProved[k])} ms` : `bound ${bound}`}\n`,
        )
        .join('') +
      `  rules of the model broken: ${run.brokenModel}; of the shop, by the checker: ${run.brokenShop}`,
  );
}

let broken = 0;
for (const name of positionals.length > 0 ? positionals : EXAMPLES) {
  const path = name.endsWith('.json') ? name : new URL(`../examples/${name}.shop.json`, import.meta.url);
  const shop = readShop(readFileSync(path, 'utf8'));
  const options = {
    now: SHOP_STARTS,
    seed: Number(values.seed),
    budget: Number(values.budget),
    ms: Number(values.ms),
    isChecked: true,
  };
  if (values.warm) runShop(name, shop, { ...options, ms: 1000, isChecked: false });
  const run = runShop(basename(name, '.shop.json'), shop, options);
  print(run);
  broken += run.brokenModel + (run.brokenShop ?? 0);
}
process.exitCode = broken > 0 ? 1 : 0;
