import { expect, test } from 'vitest';
import { solveWatched } from '../../../src/engine/schedule/solve.ts';
import { Judge } from './explanations.ts';
import { tinyMachines, tinyModel } from './tiny-models.ts';

const COUNT = 1500;

test(`on ${COUNT} tiny problems with every feature, and as many of machines, every explanation used and every clause learned follows from the rules alone`, () => {
  let explanations = 0;
  let clauses = 0;
  for (let seed = 1; seed <= 2 * COUNT; seed++) {
    const model = seed % 2 === 0 ? tinyMachines(seed) : tinyModel(seed);
    const judge = new Judge(model);
    try {
      solveWatched(model, { seed, budget: 5_000_000 }, judge);
    } catch (error) {
      throw new Error(`seed ${seed}: ${String(error)}`, { cause: error });
    }
    explanations += judge.explanations;
    clauses += judge.clauses;
  }
  expect(explanations).toBeGreaterThan(COUNT);
  expect(clauses).toBeGreaterThan(COUNT / 2);
});
