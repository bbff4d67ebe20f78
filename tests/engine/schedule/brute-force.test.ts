import { expect, test } from 'vitest';
import { evaluate, solve, verify } from '../../../src/engine/schedule/index.ts';
import { bruteForce, onlyReasons, tinyMachines, tinyModel } from './tiny-models.ts';

const COUNT = 2000;

test(`on ${COUNT} tiny problems with every feature the answer is that of brute force`, () => {
  let infeasible = 0;
  for (let seed = 1; seed <= COUNT; seed++) {
    const model = tinyModel(seed);
    const truth = bruteForce(model);
    const outcome = solve(model, { seed, budget: 5_000_000 });
    const where = `seed ${seed}`;
    if (truth === null) {
      infeasible++;
      expect(outcome.status, where).toBe('infeasible');
      if (outcome.status !== 'infeasible') continue;
      expect(bruteForce(onlyReasons(model, new Set(outcome.clash))), where).toBeNull();
      for (const r of outcome.clash)
        expect(
          bruteForce(onlyReasons(model, new Set(outcome.clash.filter((x) => x !== r)))),
          where,
        ).not.toBeNull();
    } else {
      expect(outcome.status, where).toBe('optimal');
      if (outcome.status !== 'optimal') continue;
      expect(verify(model, outcome.best), where).toEqual([]);
      expect(
        outcome.levels.map((level) => level.value),
        where,
      ).toEqual(truth);
      expect(
        model.levels.map((level) => evaluate(level, outcome.best)),
        where,
      ).toEqual(truth);
      expect(
        outcome.levels.every((level) => level.proven && level.bound === level.value),
        where,
      ).toBe(true);
    }
  }
  // The generator must keep making both kinds.
  expect(infeasible).toBeGreaterThan(COUNT / 20);
  expect(infeasible).toBeLessThan((COUNT * 19) / 20);
});

test('where a start takes more time on one machine than on another, each machine has the time it needs', () => {
  for (let seed = 1; seed <= 500; seed++) {
    const model = tinyMachines(seed);
    const truth = bruteForce(model);
    const outcome = solve(model, { seed, budget: 5_000_000 });
    const where = `seed ${seed}`;
    expect(outcome.status, where).toBe(truth === null ? 'infeasible' : 'optimal');
    if (outcome.status !== 'optimal') continue;
    expect(verify(model, outcome.best), where).toEqual([]);
    expect(
      outcome.levels.map(({ value }) => value),
      where,
    ).toEqual(truth);
  }
});
