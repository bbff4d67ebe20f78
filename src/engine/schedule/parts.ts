/**
 * Parts: groups of starts and choices that hang together by lags, held tasks, conditions and clauses. Different parts meet only on
 * shared things (resources, exclusions) and in the objective, so one can be placed while the others stand. A board in the making is a
 * part, and so is a job of a job shop; nothing here needs to know.
 */
import type { Literal, Model } from './model.ts';

export interface Part {
  readonly starts: readonly number[];
  readonly choices: readonly number[];
  /** Indexes into `model.clauses`. */
  readonly clauses: readonly number[];
}

/** The parts of a model, in the order of their first starts; parts of choices alone come last. */
export function partsOf(model: Model): Part[] {
  const S = model.starts.length;
  const parent = Int32Array.from({ length: S + model.choices.length }, (_, k) => k);
  const root = (k: number): number => {
    while (parent[k] !== k) k = parent[k] = parent[parent[k]];
    return k;
  };
  const join = (a: number, b: number): void => {
    const [x, y] = [root(a), root(b)];
    if (x !== y) parent[Math.max(x, y)] = Math.min(x, y);
  };
  const joinAll = (start: number, when: readonly Literal[] = []): void => {
    for (const literal of when) join(start, S + (literal >> 1));
  };
  for (const lag of model.lags) {
    join(lag.from, lag.to);
    joinAll(lag.from, lag.when);
  }
  for (const opening of model.openings) joinAll(opening.start, opening.when);
  const tasks = [
    ...model.resources.flatMap((resource) => resource.tasks),
    ...model.exclusions.flatMap((exclusion) => [...exclusion.one, ...exclusion.other]),
  ];
  for (const task of tasks) {
    join(task.from, task.to);
    joinAll(task.from, task.when);
  }
  for (const { costs } of model.levels)
    for (const cost of costs)
      if (cost.kind === 'buckets') cost.starts.forEach((start, i) => joinAll(start, cost.when?.[i]));
  for (const { literals } of model.clauses)
    for (let k = 1; k < literals.length; k++) join(S + (literals[0] >> 1), S + (literals[k] >> 1));

  const parts = new Map<number, { starts: number[]; choices: number[]; clauses: number[] }>();
  for (let k = 0; k < parent.length; k++) {
    let part = parts.get(root(k));
    if (part === undefined) parts.set(root(k), (part = { starts: [], choices: [], clauses: [] }));
    if (k < S) part.starts.push(k);
    else part.choices.push(k - S);
  }
  model.clauses.forEach(({ literals }, k) => {
    if (literals.length > 0) parts.get(root(S + (literals[0] >> 1)))?.clauses.push(k);
  });
  return [...parts.values()];
}

/** The number of the part of each of `count` starts. */
export function partOfStarts(parts: readonly Part[], count: number): Int32Array {
  const partOf = new Int32Array(count);
  parts.forEach(({ starts }, p) => starts.forEach((s) => (partOf[s] = p)));
  return partOf;
}
