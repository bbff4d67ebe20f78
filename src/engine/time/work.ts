/**
 * Calendars as monotone maps with exact inverses.
 *
 * Two tables per calendar answer everything, each in one or two reads, for the solver asks millions of times: how
 * many open minutes lie before a minute, and after which minute that many have passed.
 */
import type { MonotoneMap } from '../schedule/model.ts';
import { NEVER } from '../schedule/model.ts';
import type { Intervals } from './intervals.ts';

class Tables {
  /** The first open minute; 0 for a calendar that never opens. */
  readonly first: number;
  /** Open minutes before minute `first + i`; the last entry is the total. */
  readonly before: Int32Array;
  /** The least minute with `k` open minutes before it, for k = 1..total; entry 0 is not used. */
  readonly after: Int32Array;
  readonly total: number;

  constructor(open: Intervals) {
    this.first = open.length > 0 ? open[0] : 0;
    const span = open.length > 0 ? open[open.length - 1] - this.first : 0;
    this.before = new Int32Array(span + 1);
    const after: number[] = [0];
    for (let i = 0, minute = this.first; i < open.length; i += 2) {
      for (; minute < open[i]; minute++) this.before[minute - this.first + 1] = after.length - 1;
      for (; minute < open[i + 1]; minute++) {
        after.push(minute + 1);
        this.before[minute - this.first + 1] = after.length - 1;
      }
    }
    this.after = Int32Array.from(after);
    this.total = after.length - 1;
  }

  openBefore(minute: number): number {
    const i = minute - this.first;
    return i <= 0 ? 0 : i < this.before.length ? this.before[i] : this.total;
  }

  /** The least minute with at least `k` open minutes before it. */
  minuteAfter(k: number): number {
    return k <= 0 ? -NEVER : k <= this.total ? this.after[k] : NEVER;
  }
}

const tablesOf = new WeakMap<Intervals, Tables>();

/** One pair of tables a calendar, however many maps are made of it; so its array must not be changed afterwards. */
function tables(open: Intervals): Tables {
  let found = tablesOf.get(open);
  if (!found) {
    found = new Tables(open);
    tablesOf.set(open, found);
  }
  return found;
}

class WorkEnd implements MonotoneMap {
  /** The end is at least this long after the start: see `GainMap` of the scheduler. */
  readonly leastGain: number;

  constructor(
    private readonly calendar: Tables,
    private readonly minutes: number,
  ) {
    this.leastGain = minutes;
  }

  at(s: number): number {
    return this.calendar.minuteAfter(this.calendar.openBefore(s) + this.minutes);
  }

  // at(s) >= v exactly when the work is not done by v - 1: openBefore(v - 1) < openBefore(s) + minutes.
  leastReaching(v: number): number {
    if (v > NEVER) return NEVER;
    return this.calendar.minuteAfter(this.calendar.openBefore(v - 1) - this.minutes + 1);
  }
}

class NextOpen implements MonotoneMap {
  constructor(private readonly calendar: Tables) {}

  at(s: number): number {
    const after = this.calendar.minuteAfter(this.calendar.openBefore(s) + 1);
    return after === NEVER ? NEVER : after - 1;
  }

  // The minute after the last open minute before v.
  leastReaching(v: number): number {
    return v > NEVER ? NEVER : this.calendar.minuteAfter(this.calendar.openBefore(v));
  }
}

const SAME: MonotoneMap = { at: (s) => s, leastReaching: (v) => v };

/**
 * `s -> the minute at which this much work, begun at s, is done`, counting only open minutes: work that may be
 * split over sessions. Begun in closed time it starts at the next opening. `NEVER` when the calendar ends first;
 * no work at all is done at once.
 * @param open intervals (see `intervals.ts`); must not be changed afterwards
 * @param minutes whole minutes of work, from 0 on
 */
export function workEnd(open: Intervals, minutes: number): MonotoneMap {
  if (!Number.isInteger(minutes) || minutes < 0) {
    throw new RangeError(`work: ${minutes} minutes; right would be a whole number from 0 on`);
  }
  return minutes === 0 ? SAME : new WorkEnd(tables(open), minutes);
}

/** `s -> the first open minute at or after s`; `NEVER` when there is none. */
export function nextOpen(open: Intervals): MonotoneMap {
  return new NextOpen(tables(open));
}

/** The starts at which unsplit work of this length fits: `[s, s + minutes)` lies within one open interval. */
export function startsThatFit(open: Intervals, minutes: number): Intervals {
  const length = Math.max(1, minutes);
  let fitting = fittingOf.get(open);
  if (!fitting) fittingOf.set(open, (fitting = new Map()));
  let found = fitting.get(length);
  if (!found) fitting.set(length, (found = fittingStarts(open, length)));
  return found;
}

/** Asked for again and again by pieces alike: kept with the calendar, which must not be changed afterwards. */
const fittingOf = new WeakMap<Intervals, Map<number, Intervals>>();

function fittingStarts(open: Intervals, length: number): Intervals {
  const out: number[] = [];
  for (let i = 0; i < open.length; i += 2) {
    if (open[i + 1] - open[i] >= length) out.push(open[i], open[i + 1] - length + 1);
  }
  return Int32Array.from(out);
}
