/**
 * A schedule from a list of priorities, for projects with minimum and maximum lags. Each activity in turn is placed at the earliest time that its
 * least value and the profiles allow; what that moves along the lags is taken out and placed again. Values only rise, so it ends: with a
 * schedule, or where a value passes its greatest. (Serial schedule generation with unscheduling, Franck, Neumann, Schwindt 2001, here as a climb to a
 * least fixpoint.)
 */
import { grown } from './trail.ts';
import { NEVER } from './model.ts';
import type { Arcs, Project } from './project.ts';

/** An activity may be placed so many times on average before the list is given up. */
const PATIENCE = 12;

export class ListSchedule {
  private readonly profiles: Profile[];
  /** Where each placed activity lies; -1 when it waits. */
  private readonly at: Int32Array;
  private readonly stack: Int32Array;
  private readonly heap: Int32Array;
  private waiting = 0;
  private key: Float64Array = new Float64Array(0);
  /** Steps taken, for counting work. */
  work = 0;

  constructor(
    private readonly project: Project,
    private readonly arcs: Arcs,
  ) {
    this.profiles = project.capacity.map((capacity) => new Profile(capacity));
    this.at = new Int32Array(project.n);
    this.stack = new Int32Array(project.n);
    this.heap = new Int32Array(project.n);
  }

  /**
   * @param key the least goes first
   * @param start the least values, closed under the arcs; raised to the schedule
   * @param greatest no start may pass this
   */
  place(key: Float64Array, start: Int32Array, greatest: Int32Array): boolean {
    const { n } = this.project;
    this.work += n;
    for (const profile of this.profiles) profile.clear();
    this.at.fill(-1);
    this.key = key;
    this.waiting = 0;
    for (let i = 0; i < n; i++) {
      if (start[i] > greatest[i]) return false;
      this.push(i);
    }
    for (let left = PATIENCE * n; this.waiting > 0; left--) {
      if (left === 0) return false;
      const i = this.pop();
      const time = this.fit(i, start[i], greatest[i]);
      if (time > greatest[i]) return false;
      if (time > start[i]) {
        start[i] = time;
        if (!this.raise(i, start, greatest)) return false;
        if (start[i] > time) {
          this.push(i);
          continue;
        }
      }
      this.at[i] = time;
      this.use(i, time, 1);
    }
    return true;
  }

  private use(i: number, time: number, sign: number): void {
    const { useStart, useOf, useAmount, length } = this.project;
    for (let u = useStart[i]; u < useStart[i + 1]; u++)
      this.profiles[useOf[u]].add(time, time + length[i], sign * useAmount[u]);
  }

  private fit(i: number, from: number, greatest: number): number {
    const { useStart, useOf, useAmount, length } = this.project;
    let time = from;
    let agreed = 0;
    const first = useStart[i];
    const count = useStart[i + 1] - first;
    for (let u = 0; agreed < count; u = u + 1 === count ? 0 : u + 1) {
      this.work++;
      const later = this.profiles[useOf[first + u]].fit(time, length[i], useAmount[first + u]);
      if (later > time) {
        if (later > greatest) return later;
        time = later;
        agreed = 1;
      } else agreed++;
    }
    return time;
  }

  private raise(i: number, start: Int32Array, greatest: Int32Array): boolean {
    const { arcs, stack, at } = this;
    let top = 0;
    stack[top++] = i;
    while (top > 0) {
      const j = stack[--top];
      const base = start[j];
      for (let k = arcs.start[j], end = arcs.start[j + 1]; k < end; k++) {
        const h = arcs.to[k];
        const value = base + arcs.gap[k];
        if (value <= start[h]) continue;
        if (value > greatest[h]) return false;
        start[h] = value;
        if (at[h] >= 0) {
          this.use(h, at[h], -1);
          at[h] = -1;
          this.push(h);
        }
        // Once is enough: it is read when its turn comes.
        let known = false;
        for (let s = 0; s < top && !known; s++) known = stack[s] === h;
        if (!known) stack[top++] = h;
      }
      this.work++;
    }
    return true;
  }

  private push(i: number): void {
    const { heap, key } = this;
    let k = this.waiting++;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (key[heap[parent]] <= key[i]) break;
      heap[k] = heap[parent];
      k = parent;
    }
    heap[k] = i;
  }

  private pop(): number {
    const { heap, key } = this;
    const first = heap[0];
    const last = heap[--this.waiting];
    let k = 0;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= this.waiting) break;
      if (child + 1 < this.waiting && key[heap[child + 1]] < key[heap[child]]) child++;
      if (key[heap[child]] >= key[last]) break;
      heap[k] = heap[child];
      k = child;
    }
    heap[k] = last;
    return first;
  }
}

/** How much of a resource is in use over time; what the capacity lacks of its most counts as used. */
class Profile {
  private readonly most: number;
  private time = new Int32Array(64);
  private used = new Int32Array(64);
  private size = 0;

  constructor(private readonly capacity: Int32Array) {
    this.most = Math.max(...capacity.filter((_, k) => k % 2 === 1));
    this.clear();
  }

  clear(): void {
    const { capacity } = this;
    this.size = capacity.length >> 1;
    for (let k = 0; k < this.size; k++) {
      this.time[k] = capacity[2 * k];
      this.used[k] = this.most - capacity[2 * k + 1];
    }
    this.time[0] = -NEVER;
  }

  /** The first time from `from` on at which `amount` is free for `length`; NEVER when there is none. */
  fit(from: number, length: number, amount: number): number {
    const { time, used, size } = this;
    const limit = this.most - amount;
    let at = from;
    for (let k = this.segmentAt(at); k < size && time[k] < at + length; k++)
      if (used[k] > limit) at = k + 1 < size ? time[k + 1] : NEVER;
    return at;
  }

  add(from: number, to: number, amount: number): void {
    const first = this.split(from);
    const end = this.split(to);
    for (let k = first; k < end; k++) this.used[k] += amount;
  }

  private segmentAt(at: number): number {
    let lo = 0;
    let hi = this.size;
    while (hi - lo > 1) {
      const mid = (lo + hi) >>> 1;
      if (this.time[mid] <= at) lo = mid;
      else hi = mid;
    }
    return lo;
  }

  /** Makes a segment begin at a time; returns it. */
  private split(at: number): number {
    const k = this.segmentAt(at);
    if (this.time[k] === at) return k;
    if (this.size === this.time.length) {
      this.time = grown(this.time);
      this.used = grown(this.used);
    }
    this.time.copyWithin(k + 2, k + 1, this.size);
    this.used.copyWithin(k + 2, k + 1, this.size);
    this.size++;
    this.time[k + 1] = at;
    this.used[k + 1] = this.used[k];
    return k + 1;
  }
}
