/**
 * A beginning between two schedules of a machine problem that has something of both (path relinking: Glover 1997; for job shops Nowicki, Smutnicki
 * 2005, Peng, Lü, Cheng 2015), without a walk: each node's place in time is a weighted mean of its places in the two, and the nodes go in that
 * order. What comes first in both comes first here, lags among it, so nothing closes a circle; where the two differ, the mean decides.
 */
import type { Chance } from './chance.ts';
import type { MachineSequences, Sequenced } from './machine-sequences.ts';

/** The `share`, 0 to 1, of the way from one to the other. Each node has its mode in one of the two, by chance in that proportion. Changes `graph`. */
export function between(
  graph: MachineSequences,
  from: Sequenced,
  to: Sequenced,
  share: number,
  chance: Chance,
): Pick<Sequenced, 'mode' | 'order'> {
  const at = placesInTime(graph, from);
  placesInTime(graph, to).forEach((place, u) => (at[u] = (1 - share) * at[u] + share * place));
  return {
    mode: from.mode.map((mode, u) => (chance.next() < share ? to.mode[u] : mode)),
    // The sort keeps what lies at the same place in an order in which the lags go forward.
    order: from.order.slice().sort((u, v) => at[u] - at[v]),
  };
}

/** Twice the middle of each node's slack, but for a constant: it never falls along a lag. */
function placesInTime(graph: MachineSequences, schedule: Sequenced): Float64Array {
  graph.restore(schedule);
  return Float64Array.from(graph.head, (head, u) => head - graph.tail[u]);
}
