/**
 * A model laid out as rules over the checker's variables: `s` starts, `c` choices, `t` totals of the objective levels, `m` markers of
 * buckets, and whatever a proof defines.
 */
import type { Literal, Model, MonotoneMap, Task } from '../model.ts';
import { atLeast, atMost, Bounds, type Atom } from './bounds.ts';
import {
  leastLag,
  markerRule,
  mostLag,
  openingRule,
  sumRule,
  VERY_MUCH,
  type Rule,
  type Term,
} from './rules.ts';
import type { Shared } from './cliques.ts';
import { exclusionRule, resourceRule, type Use } from './use-rules.ts';

export interface RuleBook {
  readonly bounds: Bounds;
  readonly variables: Map<string, number>;
  readonly rules: readonly Rule[];
  readonly clauses: readonly (readonly Atom[])[];
  readonly totals: readonly number[];
  readonly resources: readonly Shared[];
}

export function layOut(model: Model): RuleBook {
  const bounds = new Bounds();
  const variables = new Map<string, number>();
  const add = (name: string, lo: number, hi: number): number => {
    const variable = bounds.add(lo, hi);
    variables.set(name, variable);
    return variable;
  };
  model.starts.forEach(({ earliest, latest }, s) => add(`s${s}`, earliest, latest));
  const firstChoice = model.starts.length;
  model.choices.forEach((_, c) => add(`c${c}`, 0, 1));
  const totals = model.levels.map((_, k) => add(`t${k}`, 0, VERY_MUCH));
  const atom = (literal: Literal): Atom => {
    const variable = firstChoice + (literal >> 1);
    return (literal & 1) === 0 ? atLeast(variable, 1) : atMost(variable, 0);
  };
  const all = (literals: readonly Literal[] | undefined): Atom[] => (literals ?? []).map(atom);
  const lengths = lengthsOf(model);
  const use = (task: Task): Use => ({
    from: task.from,
    to: task.to,
    until: task.until,
    amount: task.amount,
    when: all(task.when),
    length: lengths(task),
  });
  const resources = model.resources.map(({ tasks, capacity }) => ({ uses: tasks.map(use), capacity }));
  const rules: Rule[] = [
    ...model.lags.map(({ from, to, kind, map, when }) =>
      (kind === 'least' ? leastLag : mostLag)(from, to, map, all(when)),
    ),
    ...model.openings.map(({ start, allowed, when }) => openingRule(start, allowed, all(when))),
    ...resources.map(({ uses, capacity }) => resourceRule(uses, capacity)),
    ...model.exclusions.map(({ one, other }) => exclusionRule(one.map(use), other.map(use))),
  ];
  model.levels.forEach((level, k) => {
    const terms = level.costs.flatMap((cost, c): Term[] => {
      const { weight } = cost;
      if (cost.kind === 'late')
        return [{ variable: cost.start, isNegated: false, after: cost.after, weight }];
      if (cost.kind === 'early')
        return [{ variable: cost.start, isNegated: true, after: -cost.before, weight }];
      if (cost.kind === 'choice') {
        const { variable, isLeast } = atom(cost.when);
        return [{ variable, isNegated: !isLeast, after: isLeast ? 0 : -1, weight }];
      }
      return Array.from({ length: Math.max(0, cost.edges.length - 1) }, (_, b) => {
        const marker = add(`m${k}.${c}.${b}`, 0, 1);
        cost.starts.forEach((start, i) =>
          rules.push(
            markerRule(start, cost.edges[b], cost.edges[b + 1], atLeast(marker, 1), all(cost.when?.[i])),
          ),
        );
        return { variable: marker, isNegated: false, after: 0, weight };
      });
    });
    rules.push(sumRule(totals[k], terms));
  });
  return {
    bounds,
    variables,
    rules,
    clauses: model.clauses.map(({ literals }) => literals.map(atom)),
    totals,
    resources,
  };
}

/** The least of `map(s) - s` over a start's window. */
function leastGain(map: MonotoneMap, earliest: number, latest: number): number {
  let gain = Infinity;
  for (let s = earliest; s <= latest; s++) gain = Math.min(gain, map.at(s) - s);
  return gain;
}

/** For a task the least of `until(to) - from` in any schedule, by its map and the lags without condition; 0 where that is not positive. */
function lengthsOf(model: Model): (task: Task) => number {
  const known = new Map<MonotoneMap, Map<number, number>>();
  const gainOf = (map: MonotoneMap, start: number): number => {
    let ofMap = known.get(map);
    if (ofMap === undefined) known.set(map, (ofMap = new Map()));
    let gain = ofMap.get(start);
    if (gain === undefined) {
      const { earliest, latest } = model.starts[start];
      ofMap.set(start, (gain = leastGain(map, earliest, latest)));
    }
    return gain;
  };
  const edges: { readonly from: number; readonly to: number; readonly gap: number }[] = [];
  if (model.resources.some(({ tasks }) => tasks.some(({ from, to }) => from !== to)))
    for (const { from, to, kind, map, when } of model.lags) {
      if ((when ?? []).length > 0) continue;
      if (kind === 'least') edges.push({ from, to, gap: gainOf(map, from) });
      else edges.push({ from: to, to: from, gap: -mostGain(map, model.starts[from]) });
    }
  const distances = new Map<number, readonly number[]>();
  const distance = (from: number, to: number): number => {
    let row = distances.get(from);
    if (row === undefined) distances.set(from, (row = longestPaths(edges, from, model.starts.length)));
    return row[to];
  };
  return ({ from, to, until }) => {
    const inside = from === to ? 0 : distance(from, to);
    const length = inside + gainOf(until, to);
    return length > 0 && Number.isFinite(length) ? length : 0;
  };
}

/** The greatest of `map(s) - s` over a start's window. */
function mostGain(map: MonotoneMap, { earliest, latest }: Model['starts'][number]): number {
  let gain = -Infinity;
  for (let s = earliest; s <= latest; s++) gain = Math.max(gain, map.at(s) - s);
  return gain;
}

/** `start[k] >= start[from] + result[k]` (Bellman and Ford); -Infinity where nothing is known. */
function longestPaths(
  edges: readonly { readonly from: number; readonly to: number; readonly gap: number }[],
  from: number,
  count: number,
): readonly number[] {
  const path = Array.from({ length: count }, () => -Infinity);
  path[from] = 0;
  for (let round = 0; round < count; round++) {
    let isDone = true;
    for (const edge of edges) {
      const through = path[edge.from] + edge.gap;
      if (through <= path[edge.to]) continue;
      path[edge.to] = through;
      isDone = false;
    }
    if (isDone) break;
  }
  return path;
}
