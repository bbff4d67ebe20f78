import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { dispatch } from '../../../src/engine/schedule/dispatch.ts';
import { readJobShop, verify, type Model } from '../../../src/engine/schedule/index.ts';
import { machineProblem } from '../../../src/engine/schedule/machine-problem.ts';
import { MachineSequences } from '../../../src/engine/schedule/machine-sequences.ts';
import { MachineWindows } from '../../../src/engine/schedule/machine-windows.ts';
import { FT06, LA01 } from './published-shops.ts';
import { randomShop } from './random-shops.ts';
import { randomFrom } from './tiny-models.ts';

const never = (): boolean => false;

/** A schedule by dispatching, and windows on it. */
function begun(
  model: Model,
  seed: number,
): { readonly graph: MachineSequences; readonly windows: MachineWindows } {
  const graph = new MachineSequences(machineProblem(model)!);
  const chance = new Chance(seed);
  graph.restore(dispatch(graph, chance, 1));
  return { graph, windows: new MachineWindows(graph, chance) };
}

/** The rules that the graph's schedule breaks. */
function faults(model: Model, graph: MachineSequences): string[] {
  const choices = model.choices.map(() => false);
  for (const mode of graph.mode)
    if (graph.problem.choiceOf[mode] >= 0) choices[graph.problem.choiceOf[mode]] = true;
  return verify(model, { starts: [...graph.head], choices });
}

/** All nodes by the middle of their slack, as windows count them. */
const inTime = ({ head, tail, order }: MachineSequences): number[] =>
  [...order].sort((u, v) => head[u] - tail[u] - head[v] + tail[v]);

/** Each machine's nodes in their sequence, without some. */
function sequences({ first, after }: MachineSequences, without: ReadonlySet<number>): number[][] {
  return Array.from(first, (node) => {
    const list: number[] = [];
    for (let u = node; u >= 0; u = after[u]) if (!without.has(u)) list.push(u);
    return list;
  });
}

test.each([
  ['FT06, optimum 55', readJobShop(FT06), 55],
  ['LA01, optimum 666', readJobShop(LA01), 666],
])('a window of all reaches the published optimum of %s, and nothing shorter', (_, model, optimum) => {
  const { graph, windows } = begun(model, 1);
  expect(graph.makespan).toBeGreaterThan(optimum);
  expect(windows.solve(0, graph.problem.nodes, optimum)).toBe(true);
  expect(graph.makespan).toBe(optimum);
  expect(faults(model, graph)).toEqual([]);
  expect(windows.solve(0, graph.problem.nodes, optimum - 1)).toBe(false);
  expect(graph.makespan).toBe(optimum);
});

test('a window solved anew keeps every rule, all modes and the sequences of what is not in it', () => {
  let found = 0;
  let changed = 0;
  for (let seed = 1; seed <= 300; seed++) {
    const model = randomShop(seed);
    const { graph, windows } = begun(model, seed);
    const random = randomFrom(seed);
    const { nodes } = graph.problem;
    const size = 1 + random(nodes);
    const at = random(nodes - size + 1);
    const free = new Set(inTime(graph).slice(at, at + size));
    const { makespan, mode, before } = graph.save();
    const others = sequences(graph, free);
    const most = makespan - random(2);
    const isFound = windows.solve(at, size, most);
    expect(faults(model, graph), `seed ${seed}`).toEqual([]);
    expect(graph.makespan, `seed ${seed}`).toBeLessThanOrEqual(makespan);
    expect(graph.mode, `seed ${seed}`).toEqual(mode);
    expect(sequences(graph, free), `seed ${seed}`).toEqual(others);
    if (isFound) {
      found++;
      for (const u of free) expect(graph.head[u] + graph.tail[u], `seed ${seed}`).toBeLessThanOrEqual(most);
    } else expect(graph.before, `seed ${seed}`).toEqual(before);
    if (graph.makespan < makespan) changed++;
  }
  expect(found).toBeGreaterThan(100);
  expect(changed).toBeGreaterThan(20);
});

test('a sweep makes no schedule longer and many shorter, and stops when it is told to', () => {
  let shorter = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const model = randomShop(seed);
    const { graph, windows } = begun(model, seed);
    const { makespan } = graph;
    windows.sweep(() => true);
    expect(graph.makespan).toBe(makespan);
    expect(windows.work).toBe(0);
    windows.sweep(never);
    expect(faults(model, graph), `seed ${seed}`).toEqual([]);
    expect(graph.makespan, `seed ${seed}`).toBeLessThanOrEqual(makespan);
    if (graph.makespan < makespan) shorter++;
  }
  expect(shorter).toBeGreaterThan(20);
});
