import { expect, test } from 'vitest';
import { solveByParts } from '../../../src/engine/schedule/solve-by-parts.ts';
import { workshop } from './workshop.ts';

test('of a small budget nothing is kept for an exact search that could only read the model', () => {
  const model = workshop(6, 2);
  const least = model.starts.length ** 2;
  for (let times = 0.5; times <= 60; times *= 1.03) {
    const budget = Math.ceil(times * least);
    let left: number | null = null;
    const outcome = solveByParts(model, { seed: 1, budget }, (_, rest) => {
      left = rest.budget;
      return { status: 'unknown', work: 0 };
    });
    expect(outcome.status).toBe('feasible');
    if (left !== null) expect(left).toBeGreaterThanOrEqual(least);
    if (times < 2) expect('work' in outcome && outcome.work).toBeGreaterThanOrEqual(budget);
    if (times > 50) expect(left).not.toBeNull();
  }
});
