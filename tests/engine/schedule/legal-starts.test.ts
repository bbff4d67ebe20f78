import { expect, test } from 'vitest';
import {
  blockers,
  constantLag,
  legalStarts,
  makeOracle,
  solve,
  verify,
  yes,
} from '../../../src/engine/schedule/index.ts';
import type { Assignment, Model } from '../../../src/engine/schedule/index.ts';
import { tinyModel } from './tiny-models.ts';

const moved = (assignment: Assignment, start: number, at: number): Assignment => ({
  ...assignment,
  starts: assignment.starts.map((s, k) => (k === start ? at : s)),
});

const within = (intervals: Int32Array, at: number): boolean =>
  intervals.some((_, k) => k % 2 === 0 && intervals[k] <= at && at < intervals[k + 1]);

test('on tiny problems with every feature a move is legal exactly when the moved plan keeps every rule', () => {
  let plans = 0;
  let refused = 0;
  for (let seed = 1; seed <= 2000; seed++) {
    const model = tinyModel(seed);
    const outcome = solve(model, { seed, budget: 200_000 });
    if (outcome.status !== 'optimal' && outcome.status !== 'feasible') continue;
    plans++;
    const oracle = makeOracle(model, outcome.best);
    model.starts.forEach(({ earliest, latest }, start) => {
      const legal = oracle.legalStarts(start);
      for (let at = earliest - 2; at <= latest + 2; at++) {
        const isLegal = verify(model, moved(outcome.best, start, at)).length === 0;
        const where = `seed ${seed} start ${start} at ${at}`;
        expect(within(legal, at), where).toBe(isLegal);
        expect(oracle.blockers(start, at).length === 0, where).toBe(isLegal);
        if (!isLegal) refused++;
      }
      for (let k = 1; k < legal.length; k++) expect(legal[k]).toBeGreaterThan(legal[k - 1]);
    });
  }
  expect(plans).toBeGreaterThan(1000);
  expect(refused).toBeGreaterThan(1000);
});

/** Two jobs of one machine, one after the other within 10, the second only in the morning, on a machine chosen. */
const twoJobs: Model = {
  starts: [
    { name: 'first', earliest: 0, latest: 100, reason: 0 },
    { name: 'second', earliest: 0, latest: 100 },
    { name: 'third', earliest: 0, latest: 100 },
  ],
  choices: ['this machine'],
  lags: [{ from: 0, to: 1, kind: 'most', map: constantLag(10), reason: 1 }],
  openings: [{ start: 1, allowed: Int32Array.of(0, 20, 50, 60), when: [yes(0)], reason: 2 }],
  clauses: [],
  resources: [
    {
      name: 'machine',
      capacity: Int32Array.of(0, 1),
      tasks: [0, 1, 2].map((k) => ({
        from: k,
        to: k,
        until: constantLag(5),
        amount: 1,
        when: [yes(0)],
        reason: 3 + k,
      })),
    },
  ],
  exclusions: [],
  levels: [],
  reasons: 6,
};

test('what forbids a time is named with its reason and with whom it runs into', () => {
  const plan = { starts: [5, 11, 30], choices: [true] };
  expect(blockers(twoJobs, plan, 1, 8)).toEqual([{ kind: 'resource', index: 0, reason: 4, others: [0] }]);
  expect(blockers(twoJobs, plan, 1, 30)).toEqual([
    { kind: 'lag', index: 0, reason: 1, others: [0] },
    { kind: 'opening', index: 0, reason: 2, others: [] },
    { kind: 'resource', index: 0, reason: 4, others: [2] },
  ]);
  expect(blockers(twoJobs, plan, 0, -1)).toEqual([
    { kind: 'domain', index: 0, reason: 0, others: [] },
    { kind: 'lag', index: 0, reason: 1, others: [1] },
  ]);
  expect([...legalStarts(twoJobs, plan, 1)]).toEqual([0, 1, 10, 16]);
  expect([...legalStarts(twoJobs, { ...plan, choices: [false] }, 1)]).toEqual([0, 16]);
});

test('an assignment of another model is refused', () => {
  expect(() => makeOracle(twoJobs, { starts: [1], choices: [true] })).toThrow(/1 starts and 1 choices given/);
  expect(() => legalStarts(twoJobs, { starts: [5, 11, 30], choices: [true] }, 7)).toThrow(/no start 7/);
});
