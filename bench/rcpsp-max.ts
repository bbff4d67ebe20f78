/** `npm run --silent bench:rcpsp-max -- DIR --ms N [--json]`: minimum and maximum time lags, `.sch` files. */
import { readSch } from '../src/engine/schedule/index.ts';
import { runBench } from './textbook-bench.ts';

interface Entry {
  readonly status: string;
  readonly makespan: number | null;
}

process.exitCode = runBench(process.argv.slice(2), {
  extension: '.sch',
  read: readSch,
  known(reference, set, instance) {
    const entry = (reference as Record<string, Record<string, Entry> | undefined>)[set]?.[instance];
    return entry === undefined ? null : { best: entry.makespan, infeasible: entry.status === 'infeasible' };
  },
});
