/** What is left of a shared thing over time: a step function that tasks are laid on and taken off again. */
import { firstReaching } from './maps.ts';
import { NEVER, type MonotoneMap, type Time } from './model.ts';
import { grown } from './trail.ts';

export class Channel {
  private time: Int32Array<ArrayBuffer>;
  private left: Int32Array<ArrayBuffer>;
  /** Number of steps; step k is `[time[k], time[k + 1])`, the last one ends at NEVER. */
  private count = 0;

  /** @param capacity `[time0, capacity0, time1, capacity1, ...]`; the first holds before its time too */
  constructor(private readonly capacity: ArrayLike<number>) {
    const steps = Math.max(1, capacity.length >> 1);
    this.time = new Int32Array(steps + 16);
    this.left = new Int32Array(steps + 16);
    this.clear();
  }

  /** Takes everything off again. */
  clear(): void {
    const { capacity } = this;
    this.count = Math.max(1, capacity.length >> 1);
    for (let k = 0; k < this.count; k++) {
      this.time[k] = k === 0 ? -NEVER : capacity[2 * k];
      this.left[k] = capacity[2 * k + 1];
    }
  }

  /** The step that holds a time. */
  private stepAt(t: Time): number {
    return firstReaching(this.time, t + 1, 0, this.count) - 1;
  }

  /** Makes a step begin at `t`; returns its index. */
  private cut(t: Time): number {
    const k = this.stepAt(t);
    if (this.time[k] === t) return k;
    if (this.count === this.time.length) {
      this.time = grown(this.time);
      this.left = grown(this.left);
    }
    this.time.copyWithin(k + 2, k + 1, this.count);
    this.left.copyWithin(k + 2, k + 1, this.count);
    this.time[k + 1] = t;
    this.left[k + 1] = this.left[k];
    this.count++;
    return k + 1;
  }

  private mergeAt(k: number): void {
    if (k <= 0 || k >= this.count || this.left[k] !== this.left[k - 1]) return;
    this.time.copyWithin(k, k + 1, this.count);
    this.left.copyWithin(k, k + 1, this.count);
    this.count--;
  }

  /** Takes `amount` from `[from, until)`; a negative amount gives it back. */
  take(from: Time, until: Time, amount: number): void {
    if (from >= until || amount === 0) return;
    const first = this.cut(from);
    const end = until >= NEVER ? this.count : this.cut(until);
    for (let k = first; k < end; k++) this.left[k] -= amount;
    this.mergeAt(end);
    this.mergeAt(first);
  }

  /**
   * The least `s' >= s` at which `[s', until(s'))` never has less than `amount` left; NEVER when there is none.
   * @param isNeverEmpty whether `until(s) > s` everywhere; a run that is empty fits
   * @param latest beyond it the answer is NEVER
   */
  nextFit(s: Time, until: MonotoneMap, amount: number, isNeverEmpty: boolean, latest: Time): Time {
    const { time, left, count } = this;
    let at = s;
    let end = until.at(at);
    for (let k = this.stepAt(at); k < count && time[k] < end;) {
      if (at >= end) return at;
      if (left[k] >= amount) {
        k++;
        continue;
      }
      const next = k + 1 < count ? time[k + 1] : NEVER;
      if (!isNeverEmpty) {
        // Not empty at s, a run is not empty anywhere in [s, until(s)), the map being monotone.
        for (at = Math.min(next, end); at < next && at <= latest; at = Math.min(next, end)) {
          end = until.at(at);
          if (end <= at) return at;
        }
      }
      if (next === NEVER || at > latest) return NEVER;
      at = next;
      end = until.at(at);
      k++;
    }
    return at;
  }

  /** For a run that ends at `until` and begins at `from` or later: the least beginning with `amount` left throughout; at `until` it is empty and fits. */
  nextBeginning(from: Time, until: Time, amount: number): Time {
    if (from >= until) return from;
    const { time, left } = this;
    for (let k = this.stepAt(until - 1); k >= 0; k--) {
      const end = k + 1 < this.count ? time[k + 1] : NEVER;
      if (end <= from) return from;
      if (left[k] < amount) return Math.min(end, until);
    }
    return from;
  }

  /**
   * The greatest `s' <= s` at which `[s', until(s'))` never has less than `amount` left; -NEVER or less when there is none. Where a run is empty it
   * may be one that is earlier.
   */
  lastFit(s: Time, until: MonotoneMap, amount: number): Time {
    const { time, left } = this;
    let at = s;
    for (let k = this.stepAt(until.at(at) - 1); k >= 0; k--) {
      const end = k + 1 < this.count ? time[k + 1] : NEVER;
      if (end <= at) return at;
      if (left[k] >= amount) continue;
      at = Math.min(at, until.leastReaching(time[k] + 1) - 1);
      if (at <= -NEVER) return -NEVER;
    }
    return at;
  }

  /** The latest end of a run from `from` on that never has less than `amount` left; `from` or earlier when there is none. */
  lastEnd(from: Time, amount: number): Time {
    const { time, left, count } = this;
    for (let k = this.stepAt(from); k < count; k++) if (left[k] < amount) return time[k];
    return NEVER;
  }

  /** What is left where there is least. */
  least(): number {
    let least = this.left[0];
    for (let k = 1; k < this.count; k++) least = Math.min(least, this.left[k]);
    return least;
  }

  /** What is left over `[from, until)` as `[time0, left0, time1, left1, ...]`; left0 holds before time0 too. */
  steps(from: Time = -NEVER, until: Time = NEVER): Int32Array {
    const first = this.stepAt(from);
    const end = Math.max(first + 1, firstReaching(this.time, until, first, this.count));
    const pairs = new Int32Array(2 * (end - first));
    for (let k = first; k < end; k++) {
      pairs[2 * (k - first)] = this.time[k];
      pairs[2 * (k - first) + 1] = this.left[k];
    }
    return pairs;
  }
}
