import { expect, test } from 'vitest';
import { PartSearch, type ByParts } from '../../../src/engine/schedule/improve-by-parts.ts';
import { constantLag, evaluate, nextOpen, solve, verify, yes } from '../../../src/engine/schedule/index.ts';
import type {
  Assignment,
  Cost,
  Lag,
  Level,
  Model,
  Opening,
  Start,
  Task,
} from '../../../src/engine/schedule/index.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { bruteForce, randomFrom, tinyModel } from './tiny-models.ts';

/**
 * Jobs of five steps that take turns on one pair of hands, by day only; each holds one of two alike benches from its first step to its
 * last, waits between steps, must not wait too long once, and may be done in a long or a short way.
 */
function workshop(jobs: number, seed: number): Model {
  const random = randomFrom(seed);
  const horizon = jobs * 600 + 2000;
  const days: number[] = [];
  for (let day = 0; day * 144 < horizon; day++) days.push(day * 144 + 40, day * 144 + 100);
  const open = Int32Array.from(days);
  const starts: Start[] = [];
  const lags: Lag[] = [];
  const openings: Opening[] = [];
  const hands: Task[] = [];
  const benches: Task[] = [];
  const late: Cost[] = [];
  const long: Cost[] = [];
  for (let job = 0; job < jobs; job++) {
    const first = starts.length;
    for (let step = 0; step < 5; step++) {
      const s = starts.push({ name: `job ${job} step ${step}`, earliest: 0, latest: horizon }) - 1;
      const minutes = 3 + random(10);
      hands.push({ from: s, to: s, until: constantLag(minutes), amount: 1 });
      openings.push({
        start: s,
        allowed: Int32Array.from(days, (t, k) => (k % 2 === 0 ? t : t - minutes + 1)),
      });
      if (step === 0) continue;
      const wait = minutes + 10 + random(50);
      lags.push({ from: s - 1, to: s, kind: 'least', map: constantLag(wait) });
      if (step === 2) lags.push({ from: s - 1, to: s, kind: 'most', map: constantLag(wait + 60) });
    }
    lags.push({ from: first + 3, to: first + 4, kind: 'least', map: nextOpen(open) });
    lags.push({ from: first + 1, to: first + 3, kind: 'least', map: constantLag(300), when: [yes(job)] });
    benches.push({ from: first, to: first + 4, until: constantLag(5), amount: 1 });
    late.push({ kind: 'late', start: first + 4, after: 200 + random(jobs * 150), weight: 1 + random(3) });
    long.push({ kind: 'choice', when: yes(job) ^ 1, weight: 1 });
  }
  return {
    starts,
    choices: Array.from({ length: jobs }, (_, job) => `job ${job} the long way`),
    lags,
    openings,
    clauses: [],
    resources: [
      { name: 'hands', capacity: Int32Array.of(0, 1), tasks: hands },
      { name: 'benches', capacity: Int32Array.of(0, 2), tasks: benches },
    ],
    exclusions: [],
    levels: [
      { name: 'late', costs: late },
      { name: 'short ways', costs: long },
    ],
    reasons: 0,
  };
}

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
    search.improve(
      60_000,
      () => false,
      (found) => seen.push(found),
    );
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
    const search = new PartSearch(workshop(12, 3), seed);
    search.construct();
    search.improve(
      30_000,
      () => false,
      () => undefined,
    );
    return JSON.stringify(search.found);
  };
  expect(plan(1)).toBe(plan(1));
  expect(new Set([1, 2, 3, 4, 5].map(plan)).size).toBeGreaterThan(1);
});

test('no plan is better than the bounds: on tiny problems they are at most what brute force finds', () => {
  let plans = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const model = tinyModel(seed);
    const truth = bruteForce(model);
    if (truth === null) continue;
    const search = new PartSearch(model, seed);
    expect(search.construct() ? verify(model, search.found!.assignment) : [], `seed ${seed}`).toEqual([]);
    search.bounds().forEach((bound, k) => {
      // A later level's bound holds for every plan, so for the best in the order of levels too.
      expect(bound, `seed ${seed} level ${k}`).toBeLessThanOrEqual(truth[k]);
    });
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
  expect(search.construct(standing)).toBe(true);
  const { assignment } = search.found!;
  expect(verify(pinned, assignment)).toEqual([]);
  expect(assignment.starts[10]).toBe(at);
  const afresh = new PartSearch(pinned, 1);
  afresh.construct();
  expect(search.found!.values[0]).toBeLessThanOrEqual(afresh.found!.values[0]);
  // Nothing pinned: nothing is moved.
  const same = new PartSearch(model, 1);
  same.construct(standing);
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
    const isPlanned = search.construct(standing, (found) => early.push(found));
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
