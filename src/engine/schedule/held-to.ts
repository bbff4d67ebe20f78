/** A model in which the earlier levels are held to what they have: what follows from that for each start and choice by itself. */
import { NEVER, type Literal, type Model, type Opening, type Time } from './model.ts';

/** What is known of the parts, each having everything for itself. */
export interface Alone {
  leastAlone(start: number): Time;
  isForced(literal: Literal): boolean;
}

/**
 * A model that every assignment of `model` satisfies in which level k of the first `count` is at most `values[k]`: nothing may cost more than what
 * the level leaves when all else costs its least. Its clauses and openings are those of `model` with more behind them.
 */
export function heldTo(model: Model, count: number, values: readonly number[], alone: Alone): Model {
  const latest = model.starts.map((start) => start.latest);
  const openings: Opening[] = [...model.openings];
  const clauses = [...model.clauses];
  const leastOf = (cost: Model['levels'][number]['costs'][number]): number => {
    if (cost.kind === 'late') return cost.weight * Math.max(0, alone.leastAlone(cost.start) - cost.after);
    return cost.kind === 'choice' && alone.isForced(cost.when) ? cost.weight : 0;
  };
  model.levels.slice(0, count).forEach(({ costs }, k) => {
    const spare = values[k] - costs.reduce((sum, cost) => sum + leastOf(cost), 0);
    for (const cost of costs) {
      if (cost.kind === 'late') {
        const most = cost.after + Math.floor((spare + leastOf(cost)) / cost.weight);
        latest[cost.start] = Math.min(latest[cost.start], most);
      } else if (cost.kind === 'choice') {
        if (cost.weight > spare && !alone.isForced(cost.when)) clauses.push({ literals: [cost.when ^ 1] });
      } else if (cost.kind === 'buckets' && cost.weight > spare && cost.edges.length > 1) {
        const allowed = Int32Array.of(-NEVER, cost.edges[0], cost.edges[cost.edges.length - 1], NEVER);
        cost.starts.forEach((start, i) => openings.push({ start, allowed, when: cost.when?.[i] }));
      }
    }
  });
  const starts = model.starts.map((start, s) => ({ ...start, latest: latest[s] }));
  return { ...model, starts, openings, clauses };
}
