import highsLoader from 'highs';
import { expect, test } from 'vitest';
import {
  constantLag,
  readJobShop,
  readSch,
  solve,
  verify,
  type Lag,
  type Model,
} from '../../../src/engine/schedule/index.ts';
import { makespanModel } from '../../../src/engine/schedule/plain-model.ts';
import { FT06, LA01 } from './published-shops.ts';
import { randomFrom } from './tiny-models.ts';

test.each([
  ['FT06, optimum 55', FT06, 55],
  ['LA01, optimum 666', LA01, 666],
])('the job shop %s as published is proved', (_, text, optimum) => {
  const model = readJobShop(text);
  const outcome = solve(model, { seed: 1, budget: 50_000_000 });
  expect(outcome.status).toBe('optimal');
  if (outcome.status !== 'optimal') return;
  expect(verify(model, outcome.best)).toEqual([]);
  expect(outcome.levels[0].value).toBe(optimum);
});

test('a text that ends too early says what was expected', () => {
  expect(() => readSch('10 5 0 0')).toThrow('n R 0 0');
  expect(() => readJobShop('3 3\n0 1')).toThrow('a line for each job');
});

interface Small {
  readonly model: Model;
  readonly durations: readonly number[];
  /** Of each resource: how much there is, and how much each activity uses. */
  readonly resources: readonly { readonly capacity: number; readonly uses: readonly number[] }[];
  readonly horizon: number;
}

/** Four to six activities, minimum and maximum lags, two resources; some activities use one of them alone. */
function small(seed: number): Small {
  const random = randomFrom(seed);
  const n = 4 + random(3);
  const horizon = 16;
  const durations = Array.from({ length: n }, () => 1 + random(4));
  const resources = [2 + random(2), 3 + random(3)].map((capacity) => ({
    capacity,
    uses: durations.map(() => random(1 + capacity)),
  }));
  const lags: Lag[] = [];
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      if (random(3) === 0) lags.push({ from: i, to: j, kind: 'least', map: constantLag(random(6) - 1) });
      if (random(4) === 0) lags.push({ from: i, to: j, kind: 'most', map: constantLag(1 + random(6)) });
    }
  for (let i = 0; i < n; i++) lags.push({ from: i, to: n, kind: 'least', map: constantLag(durations[i]) });
  const model = makespanModel(
    Array.from({ length: n + 1 }, (_, i) => ({ name: `${i}`, earliest: 0, latest: horizon })),
    lags,
    resources.map(({ capacity, uses }, r) => ({
      name: `resource ${r}`,
      capacity: Int32Array.of(0, capacity),
      tasks: durations.map((d, i) => ({ from: i, to: i, until: constantLag(d), amount: uses[i] })),
    })),
    n,
  );
  return { model, durations, resources, horizon };
}

/** The same problem as a time-indexed program: x_i_t is 1 when activity i starts at t (Pritsker, Watters, Wolfe 1969). */
function program({ model, durations, resources, horizon }: Small): string {
  const times = Array.from({ length: horizon + 1 }, (_, t) => t);
  const all = model.starts.map((_, i) => i);
  const start = (i: number, sign: string): string =>
    times
      .slice(1)
      .map((t) => `${sign} ${t} x_${i}_${t}`)
      .join(' ');
  const rows = all.map((i) => `${times.map((t) => `+ x_${i}_${t}`).join(' ')} = 1`);
  for (const lag of model.lags)
    rows.push(
      `${start(lag.to, '+')} ${start(lag.from, '-')} ${lag.kind === 'least' ? '>=' : '<='} ${lag.map.at(0)}`,
    );
  for (const { uses, capacity } of resources)
    for (const t of times) {
      const terms = durations.flatMap((d, i) =>
        times.filter((s) => s <= t && t < s + d).map((s) => `+ ${uses[i]} x_${i}_${s}`),
      );
      rows.push(`${terms.join(' ')} <= ${capacity}`);
    }
  const end = model.starts.length - 1;
  const binary = all.flatMap((i) => times.map((t) => `x_${i}_${t}`)).join(' ');
  return `Minimize\n obj: ${start(end, '+')}\nSubject To\n${rows.map((row, k) => ` c${k}: ${row}`).join('\n')}\nBinary\n ${binary}\nEnd\n`;
}

test('on 200 small projects with minimum and maximum lags the optimum is that of the HiGHS solver', async () => {
  const highs = await highsLoader();
  let feasible = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const problem = small(seed);
    const reference = highs.solve(program(problem));
    const outcome = solve(problem.model, { seed, budget: 5_000_000 });
    if (reference.Status === 'Infeasible') {
      expect(outcome.status, `seed ${seed}`).toBe('infeasible');
      continue;
    }
    expect(reference.Status).toBe('Optimal');
    feasible++;
    expect(outcome.status, `seed ${seed}`).toBe('optimal');
    if (outcome.status !== 'optimal') continue;
    expect(verify(problem.model, outcome.best), `seed ${seed}`).toEqual([]);
    expect(outcome.levels[0].value, `seed ${seed}`).toBe(Math.round(reference.ObjectiveValue));
  }
  expect(feasible).toBeGreaterThan(60);
  expect(feasible).toBeLessThan(200);
}, 120_000);
