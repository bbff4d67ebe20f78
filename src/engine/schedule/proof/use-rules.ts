/**
 * Shared things for the checker of proofs. A task surely runs at `t` when it has begun by then at the latest and is not yet over at the
 * earliest; where the others that surely run leave too little, a task does not run. And energy: in a window of time a task needs at least the
 * part of it that no start within its bounds takes out of the window.
 */
import { NEVER, type MonotoneMap } from '../model.ts';
import { binding, negated, type Atom, type Bounds } from './bounds.ts';
import { leastReaching, type Rule } from './rules.ts';

/** A task in the checker's variables. */
export interface Use {
  readonly from: number;
  readonly to: number;
  readonly until: MonotoneMap;
  readonly amount: number;
  readonly when: readonly Atom[];
  /** The least time it runs in any schedule in which its condition holds; 0 where that is not known. */
  readonly length: number;
}

/** `[time0, capacity0, time1, capacity1, ...]`, as in the model. */
export type Capacity = Int32Array;

interface Span {
  readonly from: number;
  readonly to: number;
}

const variablesOf = (uses: readonly Use[]): number[] =>
  uses.flatMap(({ from, to, when }) => [from, to, ...when.map(({ variable }) => variable)]);

/** The stretch in which the task surely runs; null when there is none. */
function sureRun(bounds: Bounds, { from, to, until, when }: Use): Span | null {
  const begin = bounds.hi[from];
  const end = until.at(bounds.lo[to]);
  return begin < end && binding(bounds, when) === true ? { from: begin, to: end } : null;
}

/** Keeps a task off stretches in which it may not run; these ascend and are disjoint. */
function keepOff(bounds: Bounds, use: Use, blocked: readonly Span[]): boolean {
  const { from, to, until, when } = use;
  const state = binding(bounds, when);
  if (state === false || blocked.length === 0) return true;
  if (state !== true) {
    const begin = bounds.hi[from];
    const end = until.at(bounds.lo[to]);
    const meets = begin < end && blocked.some((span) => span.from < end && begin < span.to);
    return !meets || bounds.set(negated(state));
  }
  for (const span of blocked) {
    // Whatever t of the span is before its least end: if it has begun by t, it runs at t. So it begins after t.
    for (;;) {
      const begin = bounds.lo[from];
      const end = until.at(bounds.lo[to]);
      if (begin >= end || begin >= span.to || end <= span.from) break;
      if (!bounds.raise(from, Math.min(end, span.to))) return false;
      if (from !== to) break;
    }
  }
  for (let k = blocked.length - 1; k >= 0; k--) {
    const span = blocked[k];
    // Whatever t of the span is at or after its latest beginning: if it is not over by t, it runs at t. So it is over by t.
    for (;;) {
      const begin = bounds.hi[from];
      const end = until.at(bounds.hi[to]);
      if (begin >= end || begin >= span.to || end <= span.from) break;
      const t = Math.max(begin, span.from);
      if (!bounds.lower(to, leastReaching(until, t + 1) - 1)) return false;
      if (from !== to) break;
    }
  }
  return true;
}

/** At no moment more than the capacity. */
export function resourceRule(uses: readonly Use[], capacity: Capacity): Rule {
  return {
    reads: variablesOf(uses),
    run(bounds) {
      const runs = uses.map((use) => sureRun(bounds, use));
      const times = new Set<number>([-NEVER]);
      for (let k = 2; k < capacity.length; k += 2) times.add(capacity[k]);
      for (const run of runs) if (run !== null) times.add(run.from).add(run.to);
      const begins = [...times].sort((a, b) => a - b);
      const left = begins.map((t) => {
        let there = capacity[1];
        for (let k = 2; k < capacity.length; k += 2) if (capacity[k] <= t) there = capacity[k + 1];
        return there;
      });
      const place = new Map(begins.map((t, k) => [t, k]));
      runs.forEach((run, i) => {
        if (run === null) return;
        for (let k = place.get(run.from)!; begins[k] < run.to; k++) left[k] -= uses[i].amount;
      });
      return uses.every((use, i) => {
        const own = runs[i];
        const blocked: Span[] = [];
        begins.forEach((t, k) => {
          const isOwn = own !== null && own.from <= t && t < own.to;
          if (left[k] + (isOwn ? use.amount : 0) >= use.amount) return;
          const to = k + 1 < begins.length ? begins[k + 1] : NEVER;
          const last = blocked.at(-1);
          if (last !== undefined && last.to === t) blocked[blocked.length - 1] = { from: last.from, to };
          else blocked.push({ from: t, to });
        });
        return keepOff(bounds, use, blocked);
      });
    },
  };
}

/** Tasks of one side do not run while a task of the other does. */
export function exclusionRule(one: readonly Use[], other: readonly Use[]): Rule {
  const apart = (bounds: Bounds, kept: readonly Use[], from: readonly Use[]): boolean =>
    from.every((use) => {
      const run = sureRun(bounds, use);
      return run === null || kept.every((each) => keepOff(bounds, each, [run]));
    });
  return {
    reads: variablesOf([...one, ...other]),
    run: (bounds) => apart(bounds, one, other) && apart(bounds, other, one),
  };
}

/** The capacity's area over `[a, b)`. */
function area(capacity: Capacity, a: number, b: number): number {
  let sum = 0;
  for (let k = 0; k < capacity.length; k += 2) {
    const from = k === 0 ? a : Math.max(a, capacity[k]);
    const to = k + 2 < capacity.length ? Math.min(b, capacity[k + 2]) : b;
    if (to > from) sum += (to - from) * capacity[k + 1];
  }
  return sum;
}

/** The least time of `[a, b)` in which the task runs, wherever it lies within its bounds. */
function overlap(bounds: Bounds, { from, to, until, when, length }: Use, a: number, b: number): number {
  if (binding(bounds, when) !== true) return 0;
  const sure = Math.min(b, until.at(bounds.lo[to])) - Math.max(a, bounds.hi[from]);
  const early = Math.max(bounds.lo[from] + length, until.at(bounds.lo[to])) - a;
  const late = b - Math.min(bounds.hi[from], until.at(bounds.hi[to]) - length);
  return Math.max(0, sure, length > 0 ? Math.min(length, b - a, early, late) : 0);
}

/** Do the tasks need more of `[a, b)` than there is? */
export function isOverfull(
  bounds: Bounds,
  uses: readonly Use[],
  capacity: Capacity,
  a: number,
  b: number,
): boolean {
  const needed = uses.reduce((sum, use) => sum + use.amount * overlap(bounds, use, a, b), 0);
  return needed > area(capacity, a, b);
}

/**
 * Energy in all windows from an earliest start to a latest end: a task that would need more than the others leave begins later, or is over
 * earlier. Slow; for the root, and where bounds of the objective are assumed.
 */
export function energyRule(uses: readonly Use[], capacity: Capacity): Rule {
  const solid = uses.filter(({ length }) => length > 0);
  return {
    reads: variablesOf(uses),
    run(bounds) {
      const there = solid.filter(({ when }) => binding(bounds, when) === true);
      const begins = [...new Set(there.map(({ from }) => bounds.lo[from]))];
      const ends = [...new Set(there.map(({ to, until }) => until.at(bounds.hi[to])))].filter(
        (b) => b < NEVER,
      );
      for (const a of begins)
        for (const b of ends) {
          if (a >= b) continue;
          const needs = uses.map((use) => use.amount * overlap(bounds, use, a, b));
          const left = area(capacity, a, b) - needs.reduce((x, y) => x + y, 0);
          if (left < 0) return false;
          for (const [i, use] of uses.entries()) {
            if (use.length === 0 || binding(bounds, use.when) !== true) continue;
            const most = Math.floor((left + needs[i]) / use.amount);
            const whole = Math.min(use.length, b - a);
            if (whole <= most) continue;
            if (bounds.lo[use.from] + use.length - a > most && !bounds.raise(use.from, b - most))
              return false;
            if (b - until(bounds, use) + use.length > most) {
              if (!bounds.lower(use.to, leastReaching(use.until, a + most + 1) - 1)) return false;
            }
          }
        }
      return true;
    },
  };
}

const until = (bounds: Bounds, use: Use): number => use.until.at(bounds.hi[use.to]);
