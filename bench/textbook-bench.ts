/**
 * Runs the solver over a folder of textbook instances, one after the other in this process after a warm-up, and reports a line each. Wall time enters only
 * as the solver's stop signal and in the time stamps. Every schedule is verified; a wrong one ends the run.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { solve, verify, type Model } from '../src/engine/schedule/index.ts';

export type Status = 'optimal' | 'feasible' | 'infeasible' | 'unknown';

export interface Line {
  readonly instance: string;
  readonly status: Status;
  readonly makespan: number | null;
  readonly bound: number | null;
  /** Milliseconds to the first schedule, to the best, and to the end; null without a schedule. */
  readonly msFirst: number | null;
  readonly msBest: number | null;
  readonly msTotal: number;
}

/** What is known of an instance from elsewhere. */
export interface Known {
  readonly best: number | null;
  readonly infeasible: boolean;
}

export interface Format {
  readonly extension: string;
  read(text: string): Model;
  /** Looks an instance up in the parsed `reference.json`. */
  known(reference: unknown, set: string, instance: string): Known | null;
}

const round = (ms: number): number => Math.round(ms * 10) / 10;

function solveOne(instance: string, model: Model, limitMs: number): Line {
  const begun = performance.now();
  let first: number | null = null;
  let best: number | null = null;
  let value = Infinity;
  const outcome = solve(model, {
    seed: 1,
    budget: Number.MAX_SAFE_INTEGER,
    stop: () => performance.now() - begun >= limitMs,
    progress: ({ levels }) => {
      if (levels.length === 0 || levels[0].value >= value) return;
      value = levels[0].value;
      best = performance.now() - begun;
      first ??= best;
    },
  });
  const msTotal = round(performance.now() - begun);
  if (outcome.status === 'infeasible' || outcome.status === 'unknown')
    return {
      instance,
      status: outcome.status,
      makespan: null,
      bound: null,
      msFirst: null,
      msBest: null,
      msTotal,
    };
  const faults = verify(model, outcome.best);
  if (faults.length > 0) throw new Error(`${instance}: the schedule breaks a rule: ${faults[0]}`);
  const [level] = outcome.levels;
  return {
    instance,
    status: outcome.status,
    makespan: level.value,
    bound: level.bound,
    msFirst: first === null ? null : round(first),
    msBest: best === null ? null : round(best),
    msTotal,
  };
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}

function contradicts(line: Line, known: Known | null): string | null {
  if (known === null) return null;
  if (line.status === 'infeasible' && known.best !== null) return `a schedule of ${known.best} is known`;
  if (line.makespan !== null && known.infeasible) return 'it is known to be infeasible';
  if (line.bound !== null && known.best !== null && line.bound > known.best)
    return `the bound ${line.bound} is above the known ${known.best}`;
  return null;
}

function argument(args: readonly string[], name: string): string | undefined {
  const at = args.indexOf(name);
  return at < 0 ? undefined : args[at + 1];
}

/** The whole program: `DIR --ms N [--json] [--only WORD]`. Returns the exit code. */
export function runBench(args: readonly string[], format: Format): number {
  const folder = args.find((arg, k) => !arg.startsWith('--') && !['--ms', '--only'].includes(args[k - 1]));
  const limitMs = Number(argument(args, '--ms') ?? '1000');
  if (folder === undefined || !existsSync(folder) || !(limitMs > 0)) {
    process.stderr.write(`usage: DIR --ms N [--json] [--only WORD]; DIR holds *${format.extension} files\n`);
    return 2;
  }
  const json = args.includes('--json');
  const only = argument(args, '--only');
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(format.extension))
    .map((name) => name.slice(0, -format.extension.length))
    .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const place = [folder, dirname(resolve(folder))].map((dir) => join(dir, 'reference.json')).find(existsSync);
  const reference: unknown = place === undefined ? null : JSON.parse(readFileSync(place, 'utf8'));
  const model = (name: string): Model =>
    format.read(readFileSync(join(folder, name + format.extension), 'utf8'));

  for (const name of names.slice(0, 6)) solveOne(name, model(name), Math.min(300, limitMs));

  const lines: Line[] = [];
  const gaps: number[] = [];
  let wrong = 0;
  for (const name of names) {
    if (only !== undefined && name !== only) continue;
    const line = solveOne(name, model(name), limitMs);
    lines.push(line);
    const known = reference === null ? null : format.known(reference, basename(resolve(folder)), name);
    const fault = contradicts(line, known);
    if (fault !== null) {
      wrong++;
      process.stderr.write(`${name}: wrong: ${fault}\n`);
    }
    const gap =
      line.makespan !== null && known !== null && known.best !== null
        ? (line.makespan - known.best) / known.best
        : null;
    if (gap !== null) gaps.push(gap);
    if (json) process.stdout.write(`${JSON.stringify(line)}\n`);
    else
      process.stdout.write(
        `${name.padEnd(12)} ${line.status.padEnd(10)} ${String(line.makespan ?? '-').padStart(6)} ` +
          `>= ${String(line.bound ?? '-').padStart(6)} best known ${String(known?.best ?? '-').padStart(6)} ` +
          `gap ${gap === null ? '     -' : (100 * gap).toFixed(2).padStart(6)} % ` +
          `first ${String(line.msFirst ?? '-').padStart(7)} best ${String(line.msBest ?? '-').padStart(7)} total ${line.msTotal} ms\n`,
      );
  }
  if (!json) {
    const proved = lines.filter((line) => line.status === 'optimal' || line.status === 'infeasible').length;
    const decided = lines.filter((line) => line.status !== 'unknown').length;
    const mean = gaps.length === 0 ? 0 : gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    const first = median(lines.flatMap((line) => (line.msFirst === null ? [] : [line.msFirst])));
    process.stdout.write(
      `\n${lines.length} instances, ${limitMs} ms each, warm: decided ${decided}, proved ${proved}, ` +
        `mean gap ${(100 * mean).toFixed(3)} %, first schedule (median) ${first ?? '-'} ms, wrong ${wrong}\n`,
    );
  }
  return wrong === 0 ? 0 : 1;
}
