/**
 * Readers of the textbook formats, from text to models: `.sch` (minimum and maximum time lags, ProGen/max, Schwindt 1996), job shop, and
 * flexible job shop. The only level is the makespan; the last start is the end of the project.
 */
import { constantLag } from './maps.ts';
import { no, yes, type Lag, type Model, type Start, type Task, type Time } from './model.ts';
import { makespanModel } from './plain-model.ts';

/** A problem with the text: which line, and what was expected. */
export class TextbookError extends Error {}

function numbersOf(text: string): number[][] {
  return text
    .split(/\r?\n/)
    .map((line) => line.replaceAll(/[[\]]/g, ' ').trim())
    .filter((line) => line !== '')
    .map((line, row) =>
      line.split(/\s+/).map((word) => {
        const value = Number(word);
        if (!Number.isFinite(value)) throw new TextbookError(`line ${row + 1}: '${word}' is not a number`);
        return value;
      }),
    );
}

/**
 * Reads a `.sch` text: `n R 0 0`; n + 2 lines `i 1 k successors... [lags]...`; n + 2 lines `i 1 duration uses...`; capacities.
 * @throws TextbookError when a line is missing or short.
 */
export function readSch(text: string): Model {
  const rows = numbersOf(text);
  const [count, kinds] = rows[0] ?? [];
  const n = count + 2;
  if (!Number.isInteger(count) || !Number.isInteger(kinds) || rows.length < 2 * n + 2)
    throw new TextbookError(
      `expected '${'n R 0 0'}' and 2 (n + 2) + 1 lines after it, found ${rows.length} lines`,
    );
  const duration: Time[] = [];
  const use: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row = rows[1 + n + i];
    if (row.length < 3 + kinds)
      throw new TextbookError(`activity ${i}: expected ${kinds} uses after its duration`);
    duration.push(row[2]);
    use.push(row.slice(3, 3 + kinds));
  }
  const lags: Lag[] = [];
  let longest = 0;
  for (let i = 0; i < n; i++) {
    const row = rows[1 + i];
    const k = row[2];
    if (row.length < 3 + 2 * k)
      throw new TextbookError(`activity ${i}: expected ${k} successors and as many lags`);
    let most = duration[i];
    for (let j = 0; j < k; j++) {
      const gap = row[3 + k + j];
      lags.push({ from: i, to: row[3 + j], kind: 'least', map: constantLag(gap) });
      most = Math.max(most, gap);
    }
    longest += most;
  }
  const starts = duration.map((_, i) => ({ name: `${i}`, earliest: 0, latest: i === 0 ? 0 : longest }));
  const last = n - 1;
  for (let i = 0; i < last; i++)
    lags.push({ from: i, to: last, kind: 'least', map: constantLag(duration[i]) });
  const capacity = rows[1 + 2 * n];
  const until = duration.map((d) => constantLag(d));
  const resources = Array.from({ length: kinds }, (_, r) => ({
    name: `resource ${r}`,
    capacity: Int32Array.of(0, capacity[r]),
    tasks: duration.flatMap((d, i): Task[] =>
      d > 0 && use[i][r] > 0 ? [{ from: i, to: i, until: until[i], amount: use[i][r] }] : [],
    ),
  }));
  return makespanModel(starts, lags, resources, last);
}

/** Reads a job shop: `jobs machines`, then for each job machine (from 0) and duration in turn. */
export function readJobShop(text: string): Model {
  const rows = numbersOf(text);
  const [jobs, machines] = rows[0] ?? [];
  if (!(jobs > 0) || !(machines > 0) || rows.length < jobs + 1)
    throw new TextbookError(`expected 'jobs machines' and a line for each job, found ${rows.length} lines`);
  const operations = rows.slice(1, jobs + 1).map((row) => {
    const list: Alternative[][] = [];
    for (let k = 0; k + 1 < row.length; k += 2) list.push([{ machine: row[k], duration: row[k + 1] }]);
    return list;
  });
  return shop(operations, machines);
}

/**
 * Reads a flexible job shop: `jobs machines [average]`, then for each job the number of operations, and for each operation the number of
 * alternatives with machine (from 1) and duration.
 */
export function readFlexibleJobShop(text: string): Model {
  const rows = numbersOf(text);
  const [jobs, machines] = rows[0] ?? [];
  if (!(jobs > 0) || !(machines > 0) || rows.length < jobs + 1)
    throw new TextbookError(`expected 'jobs machines' and a line for each job, found ${rows.length} lines`);
  const operations = rows.slice(1, jobs + 1).map((row, j) => {
    let at = 0;
    const next = (): number => {
      if (at >= row.length) throw new TextbookError(`job ${j}: the line ends before its operations do`);
      return row[at++];
    };
    return Array.from({ length: next() }, () =>
      Array.from({ length: next() }, () => ({ machine: next() - 1, duration: next() })),
    );
  });
  return shop(operations, machines);
}

interface Alternative {
  readonly machine: number;
  readonly duration: Time;
}

function shop(jobs: readonly (readonly (readonly Alternative[])[])[], machines: number): Model {
  const horizon = jobs
    .flat()
    .reduce((sum, alternatives) => sum + Math.max(...alternatives.map((a) => a.duration)), 0);
  const starts: Start[] = [];
  const lags: Lag[] = [];
  const choices: string[] = [];
  const clauses: { literals: number[] }[] = [];
  const tasks: Task[][] = Array.from({ length: machines }, () => []);
  const end = jobs.flat().length;
  jobs.forEach((job, j) => {
    job.forEach((alternatives, k) => {
      const start = starts.push({ name: `${j}.${k}`, earliest: 0, latest: horizon }) - 1;
      const next = k + 1 < job.length ? start + 1 : end;
      const shortest = Math.min(...alternatives.map((a) => a.duration));
      lags.push({ from: start, to: next, kind: 'least', map: constantLag(shortest) });
      const one = alternatives.length === 1;
      const literals = alternatives.map(({ machine, duration }) => {
        const choice = one ? -1 : choices.push(`${j}.${k} on ${machine}`) - 1;
        const when = one ? undefined : [yes(choice)];
        const until = constantLag(duration);
        if (duration > shortest) lags.push({ from: start, to: next, kind: 'least', map: until, when });
        tasks[machine].push({ from: start, to: start, until, amount: 1, when });
        return yes(choice);
      });
      if (one) return;
      clauses.push({ literals });
      literals.forEach((a, x) =>
        literals.slice(x + 1).forEach((b) => clauses.push({ literals: [no(a >> 1), no(b >> 1)] })),
      );
    });
  });
  starts.push({ name: 'end', earliest: 0, latest: horizon });
  const resources = tasks.map((list, m) => ({
    name: `machine ${m}`,
    capacity: Int32Array.of(0, 1),
    tasks: list,
  }));
  return { ...makespanModel(starts, lags, resources, end), choices, clauses };
}
