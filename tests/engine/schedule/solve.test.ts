import { expect, test } from 'vitest';
import { solve } from '../../../src/engine/schedule/index.ts';
import type { Assignment, Model } from '../../../src/engine/schedule/index.ts';
import { compare } from '../../../src/engine/schedule/compare-levels.ts';
import { evaluate } from '../../../src/engine/schedule/evaluate.ts';
import { solveWatched } from '../../../src/engine/schedule/solve.ts';
import { workshop } from './workshop.ts';

const planOf = (model: Model, budget: number): Assignment => {
  const outcome = solve(model, { seed: 1, budget });
  if (outcome.status !== 'feasible' && outcome.status !== 'optimal') throw new Error(outcome.status);
  return outcome.best;
};

test('of several plans to begin from, the best is gone on from, by the exact search and by parts', () => {
  for (let seed = 1; seed <= 4; seed++) {
    const model = workshop(8, seed);
    const good = planOf(model, 200_000);
    const poor = planOf({ ...model, levels: [] }, 2000);
    const values = model.levels.map((level) => evaluate(level, good));
    for (const [hint, others] of [
      [poor, [good]],
      [good, [poor]],
    ] as const) {
      const options = { seed: 1, budget: 5000, hint, others };
      for (const outcome of [solveWatched(model, options, null), solve(model, { ...options, budget: 50 })]) {
        if (!('best' in outcome)) throw new Error(outcome.status);
        expect(
          compare(
            outcome.levels.map(({ value }) => value),
            values,
          ),
        ).toBeLessThanOrEqual(0);
      }
    }
  }
});
