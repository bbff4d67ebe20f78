/**
 * `npm run --silent bench:job-shop -- DIR --ms N [--json]`: job shop and flexible job shop, `.txt` files (three numbers in the first line: flexible).
 */
import { readFlexibleJobShop, readJobShop } from '../src/engine/schedule/index.ts';
import { runBench } from './textbook-bench.ts';

process.exitCode = runBench(process.argv.slice(2), {
  extension: '.txt',
  read(text) {
    const head = text.split('\n', 1)[0].trim().split(/\s+/);
    return head.length > 2 ? readFlexibleJobShop(text) : readJobShop(text);
  },
  known(reference, _set, instance) {
    const entry = (reference as Record<string, { readonly upper: number } | undefined>)[instance];
    return entry === undefined ? null : { best: entry.upper, infeasible: false };
  },
});
