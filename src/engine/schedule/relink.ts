/**
 * From one schedule of a machine problem part of the way to another, so that what comes out has something of both (path relinking: Glover 1997; for
 * job shops Nowicki, Smutnicki 2005, Peng, Lü, Cheng 2015). Steps by chance: two neighbours on a machine that the other schedule has the other
 * way round change places, or a node goes to the machine on which the other has it. None closes a circle.
 */
import type { Chance } from './chance.ts';
import type { MachineSequences, Sequenced } from './machine-sequences.ts';

/** Goes the `share` of the way to `target`; returns the steps made. */
export function relink(graph: MachineSequences, target: Sequenced, share: number, chance: Chance): number {
  const { machine, mode, after } = graph;
  const nodes = machine.length;
  const place = new Int32Array(nodes);
  target.order.forEach((u, k) => (place[u] = k));
  let distance = 0;
  for (let u = 0; u < nodes; u++) {
    if (machine[u] < 0) continue;
    if (mode[u] !== target.mode[u]) distance++;
    for (let v = after[u]; v >= 0; v = after[v]) if (place[v] < place[u]) distance++;
  }
  const steps = Math.floor(distance * share);
  const differing: number[] = [];
  for (let step = 0; step < steps; step++) {
    differing.length = 0;
    for (let u = 0; u < nodes; u++) {
      if (machine[u] < 0) continue;
      if (mode[u] !== target.mode[u] || (after[u] >= 0 && place[after[u]] < place[u])) differing.push(u);
    }
    for (;;) {
      if (differing.length === 0) return step;
      const k = chance.below(differing.length);
      const u = differing[k];
      if (mode[u] !== target.mode[u] ? takeMode(graph, u, target.mode[u], place) : exchange(graph, u)) break;
      differing[k] = differing[differing.length - 1];
      differing.pop();
    }
  }
  return steps;
}

/** Node u and the next on its machine change places, if that closes no circle. */
function exchange(graph: MachineSequences, u: number): boolean {
  const next = graph.after[u];
  if (graph.mayLead(u, next)) return false;
  graph.move(u, graph.mode[u], next);
  return true;
}

/** Node u takes another mode, at the place that fits an order best; if there is one that closes no circle. */
function takeMode(graph: MachineSequences, u: number, mode: number, place: Int32Array): boolean {
  const { first, after, machine, problem } = graph;
  const k = problem.machineOf[mode];
  if (k === machine[u]) return false;
  let wrong = 0;
  for (let x = first[k]; x >= 0; x = after[x]) if (place[x] < place[u]) wrong++;
  let least = Infinity;
  let found = -1;
  for (let behind = -1, next = first[k]; ; behind = next, next = after[next]) {
    if (behind >= 0 && graph.mayLead(u, behind)) break;
    if (wrong < least && (next < 0 || !graph.mayFollow(u, next))) {
      least = wrong;
      found = behind;
    }
    if (next < 0) break;
    wrong += place[next] < place[u] ? -1 : 1;
  }
  if (least === Infinity) return false;
  graph.move(u, mode, found);
  return true;
}
