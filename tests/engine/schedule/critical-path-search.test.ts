import { describe, expect, test } from 'vitest';
import { between } from '../../../src/engine/schedule/between.ts';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { CriticalPathSearch } from '../../../src/engine/schedule/critical-path-search.ts';
import { dispatch } from '../../../src/engine/schedule/dispatch.ts';
import {
  constantLag,
  evaluate,
  readFlexibleJobShop,
  readJobShop,
  solve,
  verify,
  type Model,
} from '../../../src/engine/schedule/index.ts';
import { machineProblem, type MachineProblem } from '../../../src/engine/schedule/machine-problem.ts';
import { MachineSequences, type Sequenced } from '../../../src/engine/schedule/machine-sequences.ts';
import { FT06, LA01 } from './published-shops.ts';
import { flexible, randomShop } from './random-shops.ts';

// Kacem, Hammadi, Borne 2002: four jobs, five machines, each step on any of them. From memory.
const KACEM = [
  [[2, 5, 4, 1, 2], [5, 4, 5, 7, 5], [4, 5, 5, 4, 5]],
  [[2, 5, 4, 7, 8], [5, 6, 9, 8, 5], [4, 5, 4, 54, 5]],
  [[9, 8, 6, 7, 9], [6, 1, 2, 5, 4], [2, 5, 4, 2, 4], [4, 5, 2, 1, 5]],
  [[1, 5, 2, 4, 12], [5, 1, 2, 1, 2]],
]; // prettier-ignore
const KACEM_TEXT = flexible(
  5,
  KACEM.map((job) => job.map((ways) => ways.map((length, k) => [k + 1, length] as const))),
);

const never = (): boolean => false;

function searchOf(model: Model): CriticalPathSearch {
  const problem = machineProblem(model);
  if (problem === null) throw new Error('not recognised as a machine problem');
  return new CriticalPathSearch(problem, 1);
}

describe('the search on the critical path', () => {
  test.each([
    ['FT06, optimum 55', readJobShop(FT06), 55],
    ['LA01, optimum 666', readJobShop(LA01), 666],
    ['the four jobs of Kacem et al., optimum 11', readFlexibleJobShop(KACEM_TEXT), 11],
  ])('reaches the published optimum of %s', (_, model, optimum) => {
    const search = searchOf(model);
    search.run(200_000, optimum, never);
    const found = search.assignment();
    expect(verify(model, found)).toEqual([]);
    expect(search.makespan).toBe(optimum);
    expect(evaluate(model.levels[0], found)).toBe(optimum);
  });

  test('keeps every rule on random shops, is never worse than it began, and finds nearly all optima', () => {
    let best = 0;
    let bettered = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const model = randomShop(seed);
      const search = searchOf(model);
      const first = search.makespan;
      search.run(3000, 0, never);
      expect(search.makespan, `seed ${seed}`).toBeLessThanOrEqual(first);
      expect(verify(model, search.assignment()), `seed ${seed}`).toEqual([]);
      const outcome = solve(model, { seed: 1, budget: 5_000_000 });
      expect(outcome.status, `seed ${seed}`).toBe('optimal');
      if (outcome.status !== 'optimal') continue;
      expect(search.makespan, `seed ${seed}`).toBeGreaterThanOrEqual(outcome.levels[0].value);
      if (search.makespan === outcome.levels[0].value) best++;
      if (search.makespan < first) bettered++;
    }
    expect(best).toBeGreaterThanOrEqual(198);
    expect(bettered).toBeGreaterThan(50);
  });

  test('goes on from a schedule that it is given', () => {
    const model = readJobShop(LA01);
    const search = searchOf(model);
    const outcome = solve(model, { seed: 1, budget: 50_000_000 });
    if (outcome.status !== 'optimal') throw new Error('LA01 was not solved');
    expect(search.makespan).toBeGreaterThan(666);
    search.join(outcome.best);
    expect(search.makespan).toBe(666);
    expect(verify(model, search.assignment())).toEqual([]);
  });
});

test('paths are the same after many moves as computed anew', () => {
  for (let seed = 1; seed <= 100; seed++) {
    const problem = machineProblem(randomShop(seed))!;
    const graph = new MachineSequences(problem);
    const chance = new Chance(seed);
    graph.restore(dispatch(graph, chance, 1));
    const machined = [...graph.machine.keys()].filter((u) => graph.machine[u] >= 0);
    const isAsAnew = (): void => {
      const anew = new MachineSequences(problem);
      anew.restore(graph.save());
      for (const key of ['head', 'tail', 'lagHead', 'lagTail', 'before', 'after', 'machine'] as const)
        expect([...graph[key]], `${key}, seed ${seed}`).toEqual([...anew[key]]);
    };
    for (let k = 0; k < 40; k++) {
      const u = machined[chance.below(machined.length)];
      const next = graph.after[u];
      if (next < 0 || graph.mayLead(u, next)) continue;
      graph.move(u, graph.mode[u], next);
      isAsAnew();
    }
  }
});

test('between two schedules whatever goes the same way in both still does, and either end is that schedule', () => {
  for (let seed = 1; seed <= 100; seed++) {
    const problem = machineProblem(randomShop(seed))!;
    const graph = new MachineSequences(problem);
    const chance = new Chance(seed);
    const [from, to] = [1, 2].map(() => {
      graph.restore(dispatch(graph, chance, 1));
      return graph.save();
    });
    const at = (share: number): Sequenced => {
      graph.restore(between(graph, from, to, share, chance));
      return graph.save();
    };
    for (const [share, end] of [
      [0, from],
      [1, to],
    ] as const) {
      const { mode, before, makespan } = at(share);
      expect({ mode, before, makespan }, `seed ${seed}`).toEqual({
        mode: end.mode,
        before: end.before,
        makespan: end.makespan,
      });
    }
    const half = at(0.5);
    for (let u = 0; u < problem.nodes; u++) {
      expect([from.mode[u], to.mode[u]], `seed ${seed}, node ${u}`).toContain(half.mode[u]);
      for (let v = 0; v < problem.nodes; v++)
        if (comesFirst(problem, from, u, v) && comesFirst(problem, to, u, v))
          expect(comesFirst(problem, half, v, u), `seed ${seed}, ${u} and ${v}`).toBe(false);
    }
  }
});

/** Are both on one machine, u before v? */
function comesFirst(
  { machineOf }: MachineProblem,
  { mode, before }: Sequenced,
  u: number,
  v: number,
): boolean {
  if (machineOf[mode[u]] < 0 || machineOf[mode[u]] !== machineOf[mode[v]]) return false;
  let x = before[v];
  while (x >= 0 && x !== u) x = before[x];
  return x >= 0;
}

test('what is no machine problem is not taken for one: room for two, hours, lags that may not be too long', () => {
  const shop = readJobShop(FT06);
  expect(machineProblem(shop)).not.toBeNull();
  const [first, ...others] = shop.resources;
  const changed: Partial<Model>[] = [
    { resources: [{ ...first, capacity: Int32Array.of(0, 2) }, ...others] },
    { resources: [{ ...first, capacity: Int32Array.of(0, 1, 50, 0) }, ...others] },
    { openings: [{ start: 0, allowed: Int32Array.of(0, 10) }] },
    { lags: [...shop.lags, { from: 0, to: 1, kind: 'most', map: constantLag(9) }] },
    { levels: [{ name: 'early', costs: [{ kind: 'early', start: 0, before: 9, weight: 1 }] }] },
    { choices: ['free'] },
  ];
  for (const change of changed) expect(machineProblem({ ...shop, ...change })).toBeNull();
});

test('a shop in which something must begin early is scheduled so, though the quick search does not look at that', () => {
  for (const urgent of [0, 1]) {
    const shop = readJobShop('2 1\n0 5\n0 5');
    const starts = shop.starts.map((start, s) => (s === urgent ? { ...start, latest: 2 } : start));
    const model: Model = { ...shop, starts };
    const outcome = solve(model, { seed: 1, budget: 100_000 });
    if (outcome.status !== 'optimal') throw new Error(outcome.status);
    expect(verify(model, outcome.best)).toEqual([]);
    expect(outcome.levels[0].value).toBe(10);
  }
});
