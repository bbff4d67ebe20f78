import { expect, test } from 'vitest';
import type { ByParts } from '../../../src/engine/schedule/best-by-parts.ts';
import { PartSearch, type Beside } from '../../../src/engine/schedule/improve-by-parts.ts';
import { evaluate, solve, verify } from '../../../src/engine/schedule/index.ts';
import type { Assignment, Cost, Level, Model } from '../../../src/engine/schedule/index.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { bruteForce, tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

/** A search by itself, with no bounds but that nothing costs less than nothing. */
const nothingBeside = ({ levels }: Model): Beside => ({
  stop: () => false,
  boundsOf: () => levels.map(() => 0),
  better: () => undefined,
  rest: () => 0,
});

test('the jobs of a workshop are told apart as its parts', () => {
  const parts = partsOf(workshop(6, 1));
  expect(parts.map(({ starts }) => starts.length)).toEqual([5, 5, 5, 5, 5, 5]);
  expect(parts.map(({ choices }) => choices)).toEqual([[0], [1], [2], [3], [4], [5]]);
});

test('plans made part by part keep every rule, and get better level by level', () => {
  for (let seed = 1; seed <= 8; seed++) {
    const model = workshop(10, seed);
    const search = new PartSearch(model, seed);
    expect(search.construct()).toBe(true);
    const seen = [search.found!];
    search.improve(60_000, { ...nothingBeside(model), better: (found) => void seen.push(found) });
    for (const { assignment, values } of seen) {
      expect(verify(model, assignment), `seed ${seed}`).toEqual([]);
      expect(model.levels.map((level) => evaluate(level, assignment))).toEqual(values);
    }
    for (let k = 1; k < seen.length; k++) {
      const [before, after] = [seen[k - 1].values, seen[k].values];
      const level = after.findIndex((value, at) => value !== before[at]);
      expect(after[level]).toBeLessThan(before[level]);
    }
    expect(seen.length).toBeGreaterThan(1);
  }
});

test('the same model and seed give the same plan, another seed may not', () => {
  const plan = (seed: number): string => {
    const model = workshop(12, 3);
    const search = new PartSearch(model, seed);
    search.construct();
    search.improve(30_000, nothingBeside(model));
    return JSON.stringify(search.found);
  };
  expect(plan(1)).toBe(plan(1));
  expect(new Set([1, 2, 3, 4, 5].map(plan)).size).toBeGreaterThan(1);
});

test('on tiny problems every plan made part by part keeps every rule', () => {
  let plans = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const model = tinyModel(seed);
    if (bruteForce(model) === null) continue;
    const search = new PartSearch(model, seed);
    if (!search.construct()) continue;
    expect(verify(model, search.found!.assignment), `seed ${seed}`).toEqual([]);
    plans++;
  }
  expect(plans).toBeGreaterThan(100);
});

const pinnedAt = (model: Model, pinned: number, at: number): Model => ({
  ...model,
  starts: model.starts.map((start, s) => (s === pinned ? { ...start, earliest: at, latest: at } : start)),
});

/** Minutes by which all steps together lie elsewhere than in the plan that stood. */
const movedFrom = (standing: Assignment): Level => ({
  name: 'moved',
  costs: standing.starts.flatMap((time, start): Cost[] => [
    { kind: 'late', start, after: time, weight: 1 },
    { kind: 'early', start, before: time, weight: 1 },
  ]),
});

test('of a plan that stands no more is moved than when it is made afresh, and nothing when nothing changed', () => {
  const model = workshop(8, 5);
  const outcome = solve(model, { seed: 1, budget: 100_000 });
  if (outcome.status !== 'feasible' && outcome.status !== 'optimal') throw new Error(outcome.status);
  const standing = outcome.best;
  // The first step of job 2 is now to begin a day later.
  const at = standing.starts[10] + 144;
  const pinned: Model = { ...pinnedAt(model, 10, at), levels: [movedFrom(standing), ...model.levels] };
  const search = new PartSearch(pinned, 1);
  expect(search.construct([standing])).toBe(true);
  const { assignment } = search.found!;
  expect(verify(pinned, assignment)).toEqual([]);
  expect(assignment.starts[10]).toBe(at);
  const afresh = new PartSearch(pinned, 1);
  afresh.construct();
  expect(search.found!.values[0]).toBeLessThanOrEqual(afresh.found!.values[0]);
  // Nothing pinned: nothing is moved.
  const same = new PartSearch(model, 1);
  same.construct([standing]);
  expect(same.found!.assignment).toEqual(standing);
});

test('a repair that makes nothing later is told at once, keeps every rule, and is no better than the plan that follows', () => {
  let told = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const model = workshop(8, seed);
    const outcome = solve(model, { seed, budget: 40_000 });
    if (outcome.status !== 'feasible' && outcome.status !== 'optimal') throw new Error(outcome.status);
    const standing = outcome.best;
    const pin = 5 * (seed % 8);
    const [late, ...others] = model.levels;
    const replanned: Model = {
      ...pinnedAt(model, pin, standing.starts[pin] + 3),
      levels: [late, movedFrom(standing), ...others],
    };
    const search = new PartSearch(replanned, seed);
    const early: ByParts[] = [];
    const isPlanned = search.construct([standing], (found) => early.push(found));
    for (const { assignment, values } of early) {
      told++;
      expect(verify(replanned, assignment), `seed ${seed}`).toEqual([]);
      expect(replanned.levels.map((level) => evaluate(level, assignment))).toEqual(values);
      expect(values[0]).toBeLessThanOrEqual(evaluate(late, standing));
      expect(isPlanned).toBe(true);
      expect(search.found!.values[0]).toBeLessThanOrEqual(values[0]);
    }
  }
  expect(told).toBeGreaterThan(2);
});
