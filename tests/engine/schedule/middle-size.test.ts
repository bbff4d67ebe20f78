import { expect, test } from 'vitest';
import { constantLag, solve, verify, type Lag, type Model } from '../../../src/engine/schedule/index.ts';
import { fortyActivities } from './forty-activities.ts';
import { randomFrom } from './tiny-models.ts';

/** Forty operations in eight jobs on five machines: here the orders settle the schedule. */
function jobs(seed: number): Model {
  const random = randomFrom(seed);
  const [count, machines] = [8, 5];
  const end = count * machines;
  const lags: Lag[] = [];
  const tasks = Array.from({ length: machines }, (): Model['resources'][number]['tasks'][number][] => []);
  for (let j = 0; j < count; j++) {
    const left = Array.from({ length: machines }, (_, m) => m);
    for (let k = 0; k < machines; k++) {
      const s = j * machines + k;
      const until = constantLag(1 + random(30));
      lags.push({
        from: s,
        to: k + 1 < machines ? s + 1 : end,
        kind: 'least',
        map: until,
      });
      tasks[left.splice(random(left.length), 1)[0]].push({
        from: s,
        to: s,
        until,
        amount: 1,
      });
    }
  }
  return {
    ...fortyActivities(seed),
    starts: Array.from({ length: end + 1 }, (_, i) => ({
      name: `${i}`,
      earliest: 0,
      latest: 2000,
    })),
    lags,
    resources: tasks.map((list, m) => ({
      name: `machine ${m}`,
      capacity: Int32Array.of(0, 1),
      tasks: list,
    })),
    levels: [
      {
        name: 'end',
        costs: [{ kind: 'late', start: end, after: 0, weight: 1 }],
      },
    ],
  };
}

test.each([
  ['projects of forty activities with least and most lags', fortyActivities],
  ['job shops of forty operations', jobs],
])(
  'on %s every improvement keeps every rule, and every bound lies under every schedule',
  (_, make) => {
    let improvements = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const model = make(seed);
      let bound = 0;
      let value = Infinity;
      const outcome = solve(model, {
        seed,
        budget: 1_000_000,
        progress: ({ best, levels }) => {
          if (best === null) return;
          improvements++;
          expect(verify(model, best), `seed ${seed}`).toEqual([]);
          const end = best.starts[best.starts.length - 1];
          expect(levels[0].value, `seed ${seed}`).toBe(end);
          expect(end, `seed ${seed}`).toBeLessThanOrEqual(value);
          value = end;
          bound = Math.max(bound, levels[0].bound);
        },
      });
      expect(outcome.status, `seed ${seed}`).not.toBe('unknown');
      if (outcome.status === 'infeasible') {
        expect(value, `seed ${seed}: a schedule was found, then denied`).toBe(Infinity);
        continue;
      }
      if (outcome.status === 'unknown') continue;
      expect(verify(model, outcome.best), `seed ${seed}`).toEqual([]);
      expect(bound, `seed ${seed}`).toBeLessThanOrEqual(outcome.levels[0].value);
    }
    expect(improvements).toBeGreaterThan(25);
  },
  120_000,
);
