/**
 * What surely runs when on resources whose tasks are the same, or on one: a task whose latest start is at or before `t` and whose least end is after
 * it takes its room there. It is read and sorted once for all of the resources, and kept as segments in each of which the same tasks run.
 */
import { changesOf, type Capacity, type Changes } from './capacity.ts';
import { TRUE, type Conditions } from './conditions.ts';
import { listsBy } from './lists-by.ts';
import { firstReaching, isConstant } from './maps.ts';
import { NEVER, type MonotoneMap } from './model.ts';
import { sortBy, upTo } from './sort-by.ts';
import type { Trail } from './trail.ts';

/** So much of the profile's resource `of`. */
export interface Use {
  readonly of: number;
  readonly amount: number;
}

export interface TimedTask {
  readonly from: number;
  readonly to: number;
  readonly until: MonotoneMap;
  readonly uses: readonly Use[];
  readonly condition: number;
  /** Its surely running part is in the profile. */
  readonly contributes: boolean;
  /** It is kept off the places where it does not fit. */
  readonly filtered: boolean;
}

const clamp = (v: number): number => (v >= NEVER ? NEVER : v <= -NEVER ? -NEVER : v);

export class SureProfile {
  /** How many tasks. */
  readonly n: number;
  /** How many resources. */
  readonly width: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  private readonly gap: Int32Array;
  private readonly map: readonly (MonotoneMap | null)[];
  readonly condition: Int32Array;
  /** The uses of task i: from `useStart[i]` until `useStart[i + 1]`, and the task of each. */
  private readonly useStart: Int32Array;
  readonly useOf: Int32Array;
  readonly amount: Int32Array;
  readonly taskOf: Int32Array;
  /** The uses of resource r: from `ofStart[r]` until `ofStart[r + 1]`. */
  readonly byResource: Int32Array;
  readonly ofStart: Int32Array;
  readonly contributes: Uint8Array;
  /** The surely running part as of the last `build`; empty parts lie at BEYOND. */
  readonly partFrom: Int32Array;
  readonly partTo: Int32Array;
  private readonly byFrom: Int32Array;
  private readonly byTo: Int32Array;
  private readonly changes: Changes;
  readonly mostSegments: number;
  readonly segFrom: Int32Array;
  /** What is left of resource r in segment k: at `k * R + r`. */
  readonly segFree: Int32Array;
  segments = 0;
  /** Of each resource, over all segments. */
  private readonly leastFree: Int32Array;
  /** `[grownFrom, grownTo)` spans all that the last reading found new: a task at rest under the profile before can only be moved by what lies there. */
  grownFrom = 0;
  grownTo = 0;

  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    tasks: readonly TimedTask[],
    readonly capacities: readonly Capacity[],
  ) {
    this.width = capacities.length;
    const n = (this.n = tasks.length);
    this.from = new Int32Array(n);
    this.to = new Int32Array(n);
    this.gap = new Int32Array(n);
    this.condition = new Int32Array(n);
    this.contributes = new Uint8Array(n);
    for (let i = 0; i < n; i++) {
      const { from, to, until, condition, contributes } = tasks[i];
      this.from[i] = from;
      this.to[i] = to;
      this.gap[i] = isConstant(until) ? until.gap : 0;
      this.condition[i] = condition;
      this.contributes[i] = contributes ? 1 : 0;
    }
    this.map = tasks.map(({ until }) => (isConstant(until) ? null : until));
    this.partFrom = new Int32Array(n).fill(BEYOND);
    this.partTo = new Int32Array(n).fill(BEYOND);
    this.byFrom = upTo(n);
    this.byTo = upTo(n);
    const uses = tasks.reduce((sum, task) => sum + task.uses.length, 0);
    this.useStart = new Int32Array(n + 1);
    this.useOf = new Int32Array(uses);
    this.amount = new Int32Array(uses);
    this.taskOf = new Int32Array(uses);
    let u = 0;
    for (let i = 0; i < n; i++) {
      this.useStart[i] = u;
      for (const { of, amount } of tasks[i].uses) {
        this.useOf[u] = of;
        this.amount[u] = amount;
        this.taskOf[u++] = i;
      }
    }
    this.useStart[n] = u;
    [this.byResource, this.ofStart] = listsBy(this.useOf, this.width);
    this.changes = changesOf(capacities);
    this.mostSegments = 1 + 2 * n + this.changes.at.length;
    this.segFrom = new Int32Array(this.mostSegments);
    this.segFree = new Int32Array(this.mostSegments * capacities.length);
    this.leastFree = new Int32Array(capacities.length);
  }

  /** Adds the views whose change may matter to a task. */
  watch(i: number, views: number[]): void {
    const { from, to, condition } = this;
    views.push(2 * from[i], 2 * from[i] + 1);
    if (to[i] !== from[i]) views.push(2 * to[i], 2 * to[i] + 1);
    if (condition[i] !== 0) for (const [view] of this.conditions.atoms(condition[i])) views.push(view);
  }

  end(i: number, s: number): number {
    const map = this.map[i];
    return map === null ? s + this.gap[i] : clamp(map.at(s));
  }

  /** The least start of `to` whose end is after t. */
  endsAfter(i: number, t: number): number {
    const map = this.map[i];
    return map === null ? t + 1 - this.gap[i] : clamp(map.leastReaching(t + 1));
  }

  /** A new segment, in which as much is free as in the last. */
  private segment(at: number): void {
    const { width } = this;
    const k = this.segments++;
    this.segFrom[k] = at;
    const { segFree } = this;
    for (let x = k * width, end = x + width; x < end; x++) segFree[x] = segFree[x - width];
  }

  /** Reads the surely running parts. False when none has changed. */
  private read(): boolean {
    const { n, trail, conditions, partFrom, partTo } = this;
    const { bound } = trail;
    let changed = false;
    let grownFrom = BEYOND;
    let grownTo = -BEYOND;
    for (let i = 0; i < n; i++) {
      if (this.contributes[i] === 0) continue;
      let a = -bound[2 * this.from[i] + 1];
      let b = this.end(i, bound[2 * this.to[i]]);
      if (a >= b || (this.condition[i] !== 0 && conditions.state(trail, this.condition[i]) !== TRUE))
        a = b = BEYOND;
      const a0 = partFrom[i];
      const b0 = partTo[i];
      if (a === a0 && b === b0) continue;
      changed = true;
      partFrom[i] = a;
      partTo[i] = b;
      if (a === BEYOND) continue;
      const apart = a0 === BEYOND || b <= a0 || a >= b0;
      if ((apart || a < a0) && a < grownFrom) grownFrom = a;
      if ((apart || b > b0) && b > grownTo) grownTo = b;
      if (!apart && a < a0 && a0 > grownTo) grownTo = a0;
      if (!apart && b > b0 && b0 < grownFrom) grownFrom = b0;
    }
    this.grownFrom = grownFrom;
    this.grownTo = grownTo;
    return changed;
  }

  private build(): void {
    const { n, width, partFrom, partTo, byFrom, byTo, leastFree, capacities } = this;
    const { at: changeAt, of: changeOf, by: change } = this.changes;
    sortBy(byFrom, partFrom);
    sortBy(byTo, partTo);
    this.segments = 1;
    this.segFrom[0] = -NEVER;
    for (let r = 0; r < width; r++) leastFree[r] = this.segFree[r] = capacities[r].first;
    let f = 0;
    let e = 0;
    let c = 0;
    for (;;) {
      let at = e < n ? partTo[byTo[e]] : BEYOND;
      if (f < n && partFrom[byFrom[f]] < at) at = partFrom[byFrom[f]];
      if (c < changeAt.length && changeAt[c] < at) at = changeAt[c];
      if (at === BEYOND) break;
      // Also where the use stays the same: within a segment the same tasks run.
      this.segment(at);
      const { segFree } = this;
      const free = (this.segments - 1) * width;
      while (e < n && partTo[byTo[e]] === at) this.add(free, byTo[e++], 1);
      while (f < n && partFrom[byFrom[f]] === at) this.add(free, byFrom[f++], -1);
      for (; c < changeAt.length && changeAt[c] === at; c++) segFree[free + changeOf[c]] += change[c];
      for (let r = 0; r < width; r++) if (segFree[free + r] < leastFree[r]) leastFree[r] = segFree[free + r];
    }
  }

  private add(free: number, i: number, sign: number): void {
    const { segFree, useStart, useOf, amount } = this;
    for (let u = useStart[i], end = useStart[i + 1]; u < end; u++)
      segFree[free + useOf[u]] += sign * amount[u];
  }

  /** The segment that holds t. */
  segmentAt(t: number): number {
    return firstReaching(this.segFrom, t + 1, 0, this.segments) - 1;
  }

  /** The use for which there is no room in segment k, task i itself apart; -1 when there is room for all. */
  full(i: number, k: number): number {
    const { segFrom, segFree, useStart, useOf, amount } = this;
    const isInside = this.partFrom[i] <= segFrom[k] && segFrom[k] < this.partTo[i];
    const free = k * this.width;
    for (let u = useStart[i], end = useStart[i + 1]; u < end; u++)
      if (segFree[free + useOf[u]] < (isInside ? 0 : amount[u])) return u;
    return -1;
  }

  /** Is there room for the task everywhere? */
  fits(i: number): boolean {
    const { useStart, useOf, amount, leastFree } = this;
    for (let u = useStart[i], end = useStart[i + 1]; u < end; u++)
      if (amount[u] > leastFree[useOf[u]]) return false;
    return true;
  }

  /** Brings the profile up to date. False when there was nothing to do; `anyway`: it is built anew even then. */
  refresh(anyway = false): boolean {
    if (!this.read() && this.segments > 0 && !anyway) return false;
    this.build();
    return true;
  }
}

/** Where tasks without a surely running part are kept while sorting: after everything. */
const BEYOND = 0x7fffffff;
