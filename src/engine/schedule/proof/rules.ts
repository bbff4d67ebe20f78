/**
 * The rules of a model as plain propagation of bounds, for the checker of proofs: each written from the meaning of the model alone. A rule
 * looks at all it has each time; what it concludes follows from the bounds it reads.
 */
import { NEVER, type MonotoneMap } from '../model.ts';
import { binding, negated, type Atom, type Bounds } from './bounds.ts';

export interface Rule {
  /** The variables whose bounds it looks at. */
  readonly reads: readonly number[];
  /** Draws conclusions; false when the rule cannot hold. */
  run(bounds: Bounds): boolean;
}

/** Thrown when a map of the model breaks its contract, so that nothing can be concluded from it. */
export class BrokenMap extends Error {}

/** The least `s` with `map.at(s) >= v`, held against `at`. */
export function leastReaching(map: MonotoneMap, v: number): number {
  const s = map.leastReaching(v);
  const inside = -NEVER < s && s < NEVER;
  if (inside && (map.at(s) < v || (s - 1 > -NEVER && map.at(s - 1) >= v)))
    throw new BrokenMap(`a map's inverse of ${v} is said to be ${s}, where the map has ${map.at(s)}`);
  return s;
}

/** The greatest `s` with `map.at(s) <= v`. */
const lastNotAbove = (map: MonotoneMap, v: number): number => leastReaching(map, v + 1) - 1;

/** `to >= map(from)`, while the condition holds. */
export function leastLag(from: number, to: number, map: MonotoneMap, when: readonly Atom[]): Rule {
  return {
    reads: [from, to, ...when.map(({ variable }) => variable)],
    run(bounds) {
      const state = binding(bounds, when);
      if (state === false) return true;
      const least = map.at(bounds.lo[from]);
      if (state === true)
        return bounds.raise(to, least) && bounds.lower(from, lastNotAbove(map, bounds.hi[to]));
      return least <= bounds.hi[to] || bounds.set(negated(state));
    },
  };
}

/** `to <= map(from)`, while the condition holds. */
export function mostLag(from: number, to: number, map: MonotoneMap, when: readonly Atom[]): Rule {
  return {
    reads: [from, to, ...when.map(({ variable }) => variable)],
    run(bounds) {
      const state = binding(bounds, when);
      if (state === false) return true;
      const most = map.at(bounds.hi[from]);
      if (state === true)
        return bounds.lower(to, most) && bounds.raise(from, leastReaching(map, bounds.lo[to]));
      return most >= bounds.lo[to] || bounds.set(negated(state));
    },
  };
}

/** The start lies in one of the half-open intervals, while the condition holds. */
export function openingRule(start: number, allowed: Int32Array, when: readonly Atom[]): Rule {
  return {
    reads: [start, ...when.map(({ variable }) => variable)],
    run(bounds) {
      const state = binding(bounds, when);
      if (state === false) return true;
      let first = Infinity;
      let last = -Infinity;
      for (let k = 0; k < allowed.length; k += 2) {
        const from = Math.max(allowed[k], bounds.lo[start]);
        const to = Math.min(allowed[k + 1] - 1, bounds.hi[start]);
        if (from > to) continue;
        first = Math.min(first, from);
        last = Math.max(last, to);
      }
      if (state === true) return first <= last && bounds.raise(start, first) && bounds.lower(start, last);
      return first <= last || bounds.set(negated(state));
    },
  };
}

/** Where the start lies in `[from, to)` and the condition holds, the marker (0 or 1) is 1. */
export function markerRule(
  start: number,
  from: number,
  to: number,
  marker: Atom,
  when: readonly Atom[],
): Rule {
  return {
    reads: [start, marker.variable, ...when.map(({ variable }) => variable)],
    run(bounds) {
      const state = binding(bounds, when);
      if (state === false) return true;
      const [lo, hi] = [bounds.lo[start], bounds.hi[start]];
      const isInside = from <= lo && hi < to;
      const isShut = bounds.fails(marker);
      if (state !== true) return !isInside || !isShut || bounds.set(negated(state));
      if (isInside) return bounds.set(marker);
      if (!isShut) return true;
      if (from <= lo && lo < to && !bounds.raise(start, to)) return false;
      return !(from <= hi && hi < to) || bounds.lower(start, from - 1);
    },
  };
}

/** `weight * max(0, value - after)` of a variable, or of its negation. */
export interface Term {
  readonly variable: number;
  readonly isNegated: boolean;
  readonly after: number;
  readonly weight: number;
}

/** Totals from here on are all the same: very much. */
export const VERY_MUCH = 1_000_000_000;

/** `total >= the sum of the terms`. */
export function sumRule(total: number, terms: readonly Term[]): Rule {
  return {
    reads: [total, ...terms.map(({ variable }) => variable)],
    run(bounds) {
      const least = terms.map(({ variable, isNegated, after, weight }) => {
        const value = isNegated ? -bounds.hi[variable] : bounds.lo[variable];
        return weight * Math.max(0, value - after);
      });
      const sum = least.reduce((a, b) => a + b, 0);
      if (!bounds.raise(total, Math.min(sum, VERY_MUCH))) return false;
      const limit = bounds.hi[total];
      if (limit >= VERY_MUCH) return true;
      return terms.every(({ variable, isNegated, after, weight }, k) => {
        const most = after + Math.floor((limit - sum + least[k]) / weight);
        return isNegated ? bounds.raise(variable, -most) : bounds.lower(variable, most);
      });
    },
  };
}
