/**
 * A schedule from a list of priorities, for projects with minimum and maximum lags. Each activity in turn is placed at the earliest time that its
 * least value and the profiles allow; what that moves along the lags is taken out and placed again. Values only rise, so it ends: with a
 * schedule, or where a value passes its greatest. (Serial schedule generation with unscheduling, Franck, Neumann, Schwindt 2001, here as a climb to a
 * least fixpoint.)
 */
import { Channel } from './channel.ts';
import { Heap } from './heap.ts';
import { constantLag } from './maps.ts';
import { NEVER, type ConstantLag } from './model.ts';
import type { Arcs, Project } from './project.ts';

/** An activity may be placed so many times on average before the list is given up. */
const PATIENCE = 12;
/** In place of a time: it waits. */
const WAITS = -NEVER;

export class ListSchedule {
  private readonly channels: readonly Channel[];
  /** How long each activity runs, as a map. */
  private readonly until: readonly ConstantLag[];
  /** Where each activity lies, or WAITS. */
  private readonly at: Int32Array;
  private readonly stack: Int32Array;
  private readonly priority: Float64Array;
  private readonly waiting: Heap;
  /** Steps taken, for counting work. */
  work = 0;

  constructor(
    private readonly project: Project,
    private readonly arcs: Arcs,
  ) {
    const { n, capacity, length } = project;
    this.channels = capacity.map((each) => new Channel(each));
    this.until = Array.from(length, constantLag);
    this.at = new Int32Array(n);
    this.stack = new Int32Array(n);
    this.priority = new Float64Array(n);
    this.waiting = new Heap(this.priority, n);
  }

  /**
   * @param key the least goes first
   * @param start the least values, closed under the arcs; raised to the schedule
   * @param greatest no start may pass this
   */
  place(key: Float64Array, start: Int32Array, greatest: Int32Array): boolean {
    const { n } = this.project;
    const { waiting, priority } = this;
    this.work += n;
    for (const channel of this.channels) channel.clear();
    this.at.fill(WAITS);
    waiting.clear();
    for (let i = 0; i < n; i++) {
      if (start[i] > greatest[i]) return false;
      priority[i] = -key[i];
      waiting.insert(i);
    }
    for (let left = PATIENCE * n; !waiting.isEmpty; left--) {
      if (left === 0) return false;
      const i = waiting.pop();
      const time = this.fit(i, start[i], greatest[i]);
      if (time > greatest[i]) return false;
      if (time > start[i]) {
        start[i] = time;
        if (!this.raise(i, start, greatest)) return false;
        if (start[i] > time) {
          waiting.insert(i);
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
      this.channels[useOf[u]].take(time, time + length[i], sign * useAmount[u]);
  }

  private fit(i: number, from: number, greatest: number): number {
    const { useStart, useOf, useAmount } = this.project;
    const until = this.until[i];
    let time = from;
    let agreed = 0;
    const first = useStart[i];
    const count = useStart[i + 1] - first;
    for (let u = 0; agreed < count; u = u + 1 === count ? 0 : u + 1) {
      this.work++;
      const channel = this.channels[useOf[first + u]];
      const later = channel.nextFit(time, until, useAmount[first + u], true, greatest);
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
        if (at[h] !== WAITS) {
          this.use(h, at[h], -1);
          at[h] = WAITS;
          this.waiting.insert(h);
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
}
