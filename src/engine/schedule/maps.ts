/**
 * Monotone maps and their exact inverses: constants, dense tables, breakpoints, calendars, and compositions.
 *
 * The contract of every map is the Galois connection `at(s) >= v  <=>  s >= leastReaching(v)` for `-NEVER < s < NEVER`:
 * the propagators rest on it and nothing else. Values are clamped to `[-NEVER, NEVER]`; `NEVER` absorbs.
 */
import { NEVER, type ConstantLag, type MonotoneMap, type Time } from './model.ts';

/** A map that knows the least of `at(s) - s`, which lets precedences be derived before the search. */
export interface GainMap extends MonotoneMap {
  readonly leastGain: Time;
}

const clamp = (v: number): Time => (v >= NEVER ? NEVER : v <= -NEVER ? -NEVER : v);

/** `s -> s + gap`. */
export function constantLag(gap: Time): ConstantLag {
  if (!Number.isInteger(gap))
    throw new RangeError(`constantLag: a gap is a whole number of time units, not ${gap}`);
  return new Constant(gap);
}

class Constant implements ConstantLag {
  constructor(readonly gap: Time) {}

  at(s: Time): Time {
    return clamp(s + this.gap);
  }

  leastReaching(v: Time): Time {
    return clamp(Math.min(v, NEVER) - this.gap);
  }
}

/** True when the map is `s -> s + gap`. */
export const isConstant = (map: MonotoneMap): map is ConstantLag => 'gap' in map;

/** The least of `at(s) - s`, or `-NEVER` where the map does not tell. */
export const leastGain = (map: MonotoneMap): Time =>
  isConstant(map) ? map.gap : 'leastGain' in map ? (map as GainMap).leastGain : -NEVER;

/** The least index in `[lo, hi)` whose value reaches `v`, or `hi`. `values` is non-decreasing. */
export function firstReaching(values: Int32Array, v: number, lo = 0, hi = values.length): number {
  while (lo < hi) {
    const mid = (lo + hi) >>> 1;
    if (values[mid] >= v) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

/**
 * A dense table: `at(origin + k) = values[k]`. Before the table the map takes its first value (a flat, earliest answer);
 * after it, `after`: `'never'` (the default: nothing is known there, so nothing happens) or `'last'` gain carried on,
 * `at(s) = s + (last value - last index)`. The array is kept, not copied, so several lags can share one table.
 * @throws RangeError when the table is empty or decreases.
 */
export function tableMap(values: Int32Array, origin: Time = 0, after: 'never' | 'last' = 'never'): GainMap {
  const n = values.length;
  if (n === 0) throw new RangeError('tableMap: a table needs at least one value');
  let gain = NEVER;
  for (let k = 0; k < n; k++) {
    if (k > 0 && values[k] < values[k - 1])
      throw new RangeError(
        `tableMap: values must not decrease, but values[${k}] = ${values[k]} < ${values[k - 1]}`,
      );
    gain = Math.min(gain, clamp(values[k]) - (origin + k));
  }
  const first = clamp(values[0]);
  const last = clamp(values[n - 1]);
  const end = origin + n;
  const carried = last >= NEVER ? NEVER : last - (end - 1);
  return {
    leastGain: gain,
    at: (s) =>
      s < origin
        ? first
        : s < end
          ? clamp(values[s - origin])
          : after === 'never' || carried >= NEVER
            ? NEVER
            : clamp(s + carried),
    leastReaching: (v) => {
      if (v <= first) return -NEVER;
      if (v > NEVER) return NEVER;
      if (v <= last) return origin + firstReaching(values, v, 0, n);
      if (after === 'never' || carried >= NEVER) return end;
      return Math.max(end, clamp(v - carried));
    },
  };
}

/** `s -> second(first(s))`. */
export function composeMaps(first: MonotoneMap, second: MonotoneMap): MonotoneMap {
  if (isConstant(first) && isConstant(second)) return constantLag(first.gap + second.gap);
  const at = (s: Time): Time => {
    const middle = first.at(s);
    return middle >= NEVER ? NEVER : clamp(second.at(middle));
  };
  const leastReaching = (v: Time): Time => {
    const middle = second.leastReaching(v);
    return middle <= -NEVER ? -NEVER : first.leastReaching(Math.min(middle, NEVER));
  };
  const a = leastGain(first);
  const b = leastGain(second);
  return a > -NEVER && b > -NEVER
    ? ({ at, leastReaching, leastGain: a + b } as GainMap)
    : { at, leastReaching };
}

/** The later of two maps, point by point: `s -> max(a(s), b(s))`. */
export function laterOf(a: MonotoneMap, b: MonotoneMap): GainMap {
  return {
    leastGain: Math.max(leastGain(a), leastGain(b)),
    at: (s) => clamp(Math.max(a.at(s), b.at(s))),
    leastReaching: (v) => Math.min(a.leastReaching(v), b.leastReaching(v)),
  };
}

/** The earlier of two maps, point by point: `s -> min(a(s), b(s))`. */
export function earlierOf(a: MonotoneMap, b: MonotoneMap): GainMap {
  return {
    leastGain: Math.max(-NEVER, Math.min(leastGain(a), leastGain(b))),
    at: (s) => clamp(Math.min(a.at(s), b.at(s))),
    leastReaching: (v) => Math.max(a.leastReaching(v), b.leastReaching(v)),
  };
}

/**
 * The calendar as a map: the next moment `>= s` inside `open` (`[from0, to0, from1, to1, ...]`, half-open, ascending and
 * disjoint); `NEVER` after the last.
 * @throws RangeError when the intervals are not such
 */
export function nextOpen(open: Int32Array): GainMap {
  const [starts, ends] = intervalsOf('nextOpen', open);
  const count = starts.length;
  return {
    leastGain: 0,
    at: (s) => {
      const k = firstReaching(ends, s + 1);
      return k === count ? NEVER : Math.max(s, starts[k]);
    },
    leastReaching: (v) => {
      // Up to the end of the last interval that starts before v the answer is s itself, after it a later start.
      const before = firstReaching(starts, v) - 1;
      return before < 0 ? -NEVER : Math.min(v, ends[before]);
    },
  };
}

/**
 * Splittable work: the minute by which `amount` (> 0) open minutes have passed since `s`, counting only time inside
 * `open`; half-open as the end of a task, so work done up to the end of an interval ends there. `NEVER` when it does not fit.
 * @throws RangeError when the intervals are not as in `nextOpen`, or the amount is not a whole number from 1 on
 */
export function workedBy(open: Int32Array, amount: Time): GainMap {
  if (!Number.isInteger(amount) || amount <= 0)
    throw new RangeError(`workedBy: an amount of work is a whole number from 1 on, not ${amount}`);
  const [starts, ends] = intervalsOf('workedBy', open);
  const count = starts.length;
  const done = new Int32Array(count + 1);
  for (let k = 0; k < count; k++) done[k + 1] = done[k] + ends[k] - starts[k];
  /** Open time in (-inf, t). */
  const openBefore = (t: Time): number => {
    const k = firstReaching(ends, t);
    return k === count ? done[count] : done[k] + Math.max(0, t - starts[k]);
  };
  /** The least t with openBefore(t) >= worked, for 0 < worked <= total. */
  const reached = (worked: number): Time => {
    const k = firstReaching(done, worked) - 1;
    return starts[k] + (worked - done[k]);
  };
  const at = (s: Time): Time => {
    const goal = openBefore(s) + amount;
    return goal > done[count] ? NEVER : reached(goal);
  };
  return {
    leastGain: amount,
    at,
    leastReaching: (v) => {
      // at(s) >= v  <=>  openBefore(s) + amount > openBefore(v - 1)
      const need = openBefore(Math.min(v, NEVER) - 1) + 1 - amount;
      return need <= 0 ? -NEVER : need > done[count] ? NEVER : reached(need);
    },
  };
}

/** The beginnings and ends of a calendar's intervals. */
function intervalsOf(map: string, open: Int32Array): readonly [starts: Int32Array, ends: Int32Array] {
  if (open.length % 2 !== 0)
    throw new RangeError(
      `${map}: intervals come as pairs of a beginning and an end, not as ${open.length} times`,
    );
  const starts = new Int32Array(open.length >> 1);
  const ends = new Int32Array(open.length >> 1);
  for (let k = 0; k < starts.length; k++) {
    starts[k] = open[2 * k];
    ends[k] = open[2 * k + 1];
    if (starts[k] >= ends[k] || (k > 0 && starts[k] < ends[k - 1]))
      throw new RangeError(
        `${map}: interval ${k} [${starts[k]}, ${ends[k]}) is empty or overlaps the one before`,
      );
  }
  return [starts, ends];
}
