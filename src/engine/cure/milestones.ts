/** Milestones of a cure as monotone maps of the minute of the pour. */
import type { MonotoneMap } from '../schedule/model.ts';
import { NEVER } from '../schedule/model.ts';
import type { EquivalentAge } from './equivalent-age.ts';
import { AGE_TOLERANCE_MINUTES, unstalled } from './equivalent-age.ts';
import { TableMap } from './table-map.ts';

/**
 * For every start in the span, the first minute at which this much age has been gathered since, less `back`;
 * `NEVER` when the span ends first. Two pointers: the later the start, the later the minute.
 */
function sweep(age: EquivalentAge, needed: number, back: number): Int32Array {
  const { minutes, from } = age;
  const table = new Int32Array(minutes.length);
  let end = 0;
  for (let start = 0; start < minutes.length; start++) {
    if (end < start) end = start;
    while (end < minutes.length && minutes[end] - minutes[start] < needed) end++;
    table[start] = end < minutes.length ? from + end - back : NEVER;
  }
  return table;
}

/** Questions that are answered one by one before a table is made for all that follow. */
const FEW = 4000;

/** The map of `sweep`: a plan asks most of its maps little, so only one that is asked much becomes a table. */
class AgeMap implements MonotoneMap {
  private asked = 0;
  private table: TableMap | null = null;

  constructor(
    private readonly age: EquivalentAge,
    private readonly needed: number,
    private readonly back: number,
  ) {}

  at(s: number): number {
    if (this.asked > FEW) return this.whole().at(s);
    this.asked++;
    return this.find(s - this.age.from);
  }

  leastReaching(v: number): number {
    if (v > NEVER) return NEVER;
    if (this.asked > FEW) return this.whole().leastReaching(v);
    this.asked++;
    const { from, minutes } = this.age;
    const start = this.firstWithin(Math.min(v - from + this.back, minutes.length) - 1);
    return start === 0 ? -NEVER : from + start;
  }

  private whole(): TableMap {
    return (this.table ??= new TableMap(this.age.from, () => sweep(this.age, this.needed, this.back)));
  }

  private find(start: number): number {
    const { minutes, from } = this.age;
    if (start >= minutes.length) return NEVER;
    const first = Math.max(0, start);
    let lo = first;
    let hi = minutes.length;
    while (lo < hi) {
      const mid = (lo + hi) >>> 1;
      if (minutes[mid] - minutes[first] < this.needed) lo = mid + 1;
      else hi = mid;
    }
    return lo < minutes.length ? from + lo - this.back : NEVER;
  }

  /** The first start that has not gathered the age by `end`, or comes after it: `find`, seen from the other side. */
  private firstWithin(end: number): number {
    const { minutes } = this.age;
    let lo = 0;
    let hi = end + 1;
    while (lo < hi) {
      const mid = (lo + hi) >>> 1;
      if (minutes[end] - minutes[mid] < this.needed) hi = mid;
      else lo = mid + 1;
    }
    return lo;
  }
}

function checkNeeded(needed: number): void {
  if (!(needed >= 0))
    throw new RangeError(`milestone: ${needed} equivalent minutes; right would be 0 or more`);
}

/**
 * A milestone that must have been reached: `s -> the first minute m >= s` with `A(m) - A(s) >= needed`, to within
 * `AGE_TOLERANCE_MINUTES`; `NEVER` when it is not reached inside the age's span. Starts before the span count
 * as its first minute, starts after it never reach anything.
 * @param needed equivalent minutes at the reference temperature
 */
export function reachMap(age: EquivalentAge, needed: number): MonotoneMap {
  checkNeeded(needed);
  return new AgeMap(age, needed - AGE_TOLERANCE_MINUTES, 0);
}

/**
 * A milestone that must not be passed: `s -> the last minute m >= s` with `A(m) - A(s) <= needed`, to within
 * `AGE_TOLERANCE_MINUTES`; `NEVER` when it is not passed inside the age's span. While a cure stalls the milestone
 * stalls too; give `unstalled(age)` where that is not to be relied on.
 */
export function lastWithinMap(age: EquivalentAge, needed: number): MonotoneMap {
  checkNeeded(needed);
  return new AgeMap(age, needed + AGE_TOLERANCE_MINUTES, 1);
}

export interface WorkingTime {
  /** Minutes at the reference temperature, from first contact of A and B, in a cup of the reference batch. */
  readonly minutes: number;
  readonly referenceBatchMl: number;
}

/**
 * Working time at the reference temperature in a cup of `batchMl`, minutes: the stated one, times the cube root of
 * reference batch over batch for a larger cup; never longer than stated. A larger mass sheds its own heat more slowly
 * (surface over volume goes with the cube root), so it thickens sooner. Common practice, no source: it is a caution,
 * not a law, and the maker's largest batch binds besides.
 * @throws RangeError when a batch is not above 0
 */
export function workingMinutes(stated: WorkingTime, batchMl: number): number {
  if (!(batchMl > 0) || !(stated.referenceBatchMl > 0)) {
    throw new RangeError(`batch: ${batchMl} mL against ${stated.referenceBatchMl} mL; both must be above 0`);
  }
  return stated.minutes * Math.min(1, Math.cbrt(stated.referenceBatchMl / batchMl));
}

/**
 * `s -> the last minute at which a batch, its mixing begun at s, may still be poured`. A cold room that stalls the
 * cure is not taken to stop this clock.
 */
export function workingTimeMap(age: EquivalentAge, stated: WorkingTime, batchMl: number): MonotoneMap {
  return lastWithinMap(unstalled(age), workingMinutes(stated, batchMl));
}
