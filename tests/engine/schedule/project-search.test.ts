import { expect, test } from 'vitest';
import { componentsOf } from '../../../src/engine/schedule/cycles.ts';
import {
  constantLag,
  readJobShop,
  solve,
  verify,
  type Lag,
  type Model,
} from '../../../src/engine/schedule/index.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import { ProjectSearch } from '../../../src/engine/schedule/project-search.ts';
import { asProject, listArcs, opposedArcs } from '../../../src/engine/schedule/project.ts';
import { FT06 } from './published-shops.ts';
import { randomFrom } from './tiny-models.ts';

const never = (): boolean => false;

/** Eight activities on two shared things, joined by least and greatest lags; the end of all is minimised. */
function small(seed: number): Model {
  const random = randomFrom(seed);
  const n = 8;
  const length = Array.from({ length: n }, () => 1 + random(5));
  const lags: Lag[] = [];
  for (let i = 0; i < n; i++) {
    lags.push({ from: i, to: n, kind: 'least', map: constantLag(length[i]) });
    for (let j = i + 1; j < n; j++) {
      if (random(3) === 0) lags.push({ from: i, to: j, kind: 'least', map: constantLag(random(6)) });
      if (random(6) === 0) lags.push({ from: i, to: j, kind: 'most', map: constantLag(4 + random(8)) });
    }
  }
  return {
    starts: Array.from({ length: n + 1 }, (_, i) => ({ name: `${i}`, earliest: random(3), latest: 60 })),
    choices: [],
    lags,
    openings: [],
    clauses: [],
    resources: [1, 3].map((capacity, r) => ({
      name: `${r}`,
      capacity: seed % 2 === 0 ? Int32Array.of(0, capacity) : Int32Array.of(0, capacity, 9, 1, 13, capacity),
      tasks: length.flatMap((gap, i) =>
        random(2) === 0 ? [] : [{ from: i, to: i, until: constantLag(gap), amount: 1 + random(capacity) }],
      ),
    })),
    exclusions: [],
    levels: [{ name: 'makespan', costs: [{ kind: 'late', start: n, after: 0, weight: 1 }] }],
    reasons: 0,
  };
}

test('list schedules keep every rule, are never better than the proved best, and mostly reach it', () => {
  let found = 0;
  let reached = 0;
  for (let seed = 1; seed <= 300; seed++) {
    const model = small(seed);
    const outcome = solve(model, { seed, budget: 1_000_000 });
    const search = new ProjectSearch(asProject(model)!, seed);
    search.run(search.work + 20_000, 0, never);
    const assignment = search.assignment();
    if (outcome.status === 'infeasible') {
      expect(assignment).toBeNull();
      continue;
    }
    if (outcome.status !== 'optimal') throw new Error(`seed ${seed}: ${outcome.status}`);
    if (assignment === null) continue;
    expect(verify(model, assignment)).toEqual([]);
    expect(search.makespan).toBeGreaterThanOrEqual(outcome.levels[0].value);
    found++;
    if (search.makespan === outcome.levels[0].value) reached++;
  }
  expect(found).toBeGreaterThan(150);
  expect(reached).toBeGreaterThan((2 / 3) * found);
});

test('a published shop is scheduled at its published best', () => {
  const search = new ProjectSearch(asProject(readJobShop(FT06))!, 1);
  search.run(search.work + 300_000, 55, never);
  expect(search.makespan).toBe(55);
});

test('where nothing shorter is found, some of the work is left to others', () => {
  const search = new ProjectSearch(asProject(readJobShop(FT06))!, 1);
  search.run(search.work + 300_000, 55, never);
  const before = search.work;
  // Nothing is shorter than the published best.
  search.run(before + 300_000, 0, never);
  expect(search.work - before).toBeLessThan(300_000);
});

test('the same seed gives the same schedules, however the work is cut up', () => {
  const model = readJobShop(FT06);
  const whole = new ProjectSearch(asProject(model)!, 7);
  const again = new ProjectSearch(asProject(model)!, 7);
  whole.run(whole.work + 5_000, 0, never);
  again.run(again.work + 5_000, 0, never);
  expect(again.assignment()).toEqual(whole.assignment());
});

test('a project without any shared thing ends when its longest path does', () => {
  const model = { ...small(4), resources: [] };
  const search = new ProjectSearch(asProject(model)!, 1);
  search.run(1_000_000, 0, never);
  const outcome = solve(model, { seed: 1, budget: 100_000 });
  expect(outcome).toMatchObject({ status: 'optimal', levels: [{ value: search.makespan }] });
});

test('it does not matter when time begins: a project long before or after it is scheduled alike', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const model = small(2 * seed);
    const run = (shift: number): number[] | null => {
      const starts = model.starts.map(({ name, earliest, latest }) => ({
        name,
        earliest: earliest + shift,
        latest: latest + shift,
      }));
      const shifted = { ...model, starts };
      const search = new ProjectSearch(asProject(shifted)!, 1);
      search.run(search.work + 3_000, -NEVER, never);
      const assignment = search.assignment();
      if (assignment !== null) expect(verify(shifted, assignment)).toEqual([]);
      return assignment && assignment.starts.map((start) => start - shift);
    };
    const plain = run(0);
    expect(run(-1000)).toEqual(plain);
    expect(run(5000)).toEqual(plain);
  }
});

test('what can be reached both ways is in one component, and no arc leads back to an earlier one', () => {
  const random = randomFrom(5);
  for (let round = 0; round < 200; round++) {
    const n = 1 + random(9);
    const count = random(2 * n + 1);
    const from = Array.from({ length: count }, () => random(n));
    const to = Array.from({ length: count }, () => random(n));
    const arcs = listArcs(n, from, to, from);
    const component = componentsOf(arcs, opposedArcs(n, arcs));
    const reaches = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => i === j));
    for (let k = 0; k < n; k++)
      for (let e = 0; e < count; e++)
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) reaches[i][j] ||= reaches[i][from[e]] && reaches[to[e]][j];
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) expect(component[i] === component[j]).toBe(reaches[i][j] && reaches[j][i]);
    for (let e = 0; e < count; e++) expect(component[from[e]]).toBeLessThanOrEqual(component[to[e]]);
  }
});
