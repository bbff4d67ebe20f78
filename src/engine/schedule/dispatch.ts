/**
 * A first schedule of a machine problem by dispatching (Giffler and Thompson 1960): where the next end is soonest, the node with the longest way to
 * the end goes first. Each node takes the mode in which it would end soonest.
 */
import type { Chance } from './chance.ts';
import type { LagArcs } from './lag-arcs.ts';
import type { MachineProblem } from './machine-problem.ts';
import type { MachineSequences, Sequenced } from './machine-sequences.ts';

/** `noise`: by how much of itself, at most, half up and half down, a node's way to the end is misjudged. */
export function dispatch(
  graph: MachineSequences,
  chance: Chance,
  noise: number,
): Pick<Sequenced, 'mode' | 'order'> {
  const { problem } = graph;
  const { out, outTo, outStart } = graph.arcs;
  const { nodes, machines, earliest, modeStart, machineOf, lengthOf, gap, gapBase, arcTo } = problem;
  const urgency = waysToEnd(problem, graph.arcs).map((way) => way * (1 + noise * (chance.next() - 0.5)));
  const missing = new Int32Array(nodes);
  for (const to of arcTo) missing[to]++;
  const at = earliest.slice();
  const free = new Int32Array(machines);
  const mode = modeStart.slice(0, nodes);
  const order = new Int32Array(nodes);
  const ready: number[] = [];
  for (let u = 0; u < nodes; u++) if (missing[u] === 0) ready.push(u);
  const begin = (u: number, m: number): number =>
    machineOf[m] < 0 ? at[u] : Math.max(at[u], free[machineOf[m]]);
  for (let k = 0; k < nodes; k++) {
    let soonest = Infinity;
    let machine = -1;
    for (const u of ready) {
      let own = Infinity;
      for (let m = modeStart[u]; m < modeStart[u + 1]; m++) {
        const end = begin(u, m) + lengthOf[m];
        if (end >= own) continue;
        own = end;
        mode[u] = m;
      }
      if (own >= soonest) continue;
      soonest = own;
      machine = machineOf[mode[u]];
    }
    let chosen = -1;
    ready.forEach((u, i) => {
      if (machineOf[mode[u]] !== machine || (machine >= 0 && begin(u, mode[u]) >= soonest)) return;
      if (chosen < 0 || urgency[u] > urgency[ready[chosen]]) chosen = i;
    });
    const u = ready[chosen];
    ready[chosen] = ready[ready.length - 1];
    ready.pop();
    order[k] = u;
    const start = begin(u, mode[u]);
    if (machine >= 0) free[machine] = start + lengthOf[mode[u]];
    for (let i = outStart[u]; i < outStart[u + 1]; i++) {
      const v = outTo[i];
      at[v] = Math.max(at[v], start + gap[gapBase[out[i]] + mode[u]]);
      if (--missing[v] === 0) ready.push(v);
    }
  }
  return { mode, order };
}

/** The longest way over lags from each node to the end, each at its least. */
function waysToEnd(problem: MachineProblem, { into, intoStart }: LagArcs): Float64Array {
  const { nodes, end, modeStart, gap, gapBase, arcFrom } = problem;
  const open = new Int32Array(nodes);
  for (const from of arcFrom) open[from]++;
  const way = new Float64Array(nodes);
  const done = [end];
  for (let v = done.pop(); v !== undefined; v = done.pop())
    for (let i = intoStart[v]; i < intoStart[v + 1]; i++) {
      const u = arcFrom[into[i]];
      const base = gapBase[into[i]];
      const least = gap
        .subarray(base + modeStart[u], base + modeStart[u + 1])
        .reduce((a, b) => Math.min(a, b));
      way[u] = Math.max(way[u], way[v] + least);
      if (--open[u] === 0) done.push(u);
    }
  return way;
}
