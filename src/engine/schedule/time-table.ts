/**
 * Time-table propagation of resources whose tasks are the same, or of one. A task that surely runs at `t` (its latest start is at or before t, its
 * least end after) is in the profile; a task that does not fit on top of the profile at t starts after t, or is over by t. What surely runs when is
 * read and sorted once for all of the resources.
 *
 * Explanations are pointwise (Schutt, Feydy, Stuckey, Wallace 2013): at one moment t, `start <= t` and `end > t` of enough tasks. They are
 * made only when asked, from the bounds of that moment. An exclusion is the same rule with contributors on one side and filtered
 * tasks on the other.
 */
import { changesOf, type Capacity, type Changes } from './capacity.ts';
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { listsBy } from './lists-by.ts';
import { firstReaching, isConstant } from './maps.ts';
import { NEVER, type MonotoneMap } from './model.ts';
import type { Because, Explainer, Trail } from './trail.ts';

/** So much of the table's resource `of`. */
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

export class TimeTable implements Explainer {
  private readonly by: number;
  private readonly n: number;
  /** How many resources. */
  readonly width: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  private readonly gap: Int32Array;
  private readonly map: readonly (MonotoneMap | null)[];
  readonly condition: Int32Array;
  /** The uses of task i: from `useStart[i]` until `useStart[i + 1]`, and the task of each. */
  private readonly useStart: Int32Array;
  private readonly useOf: Int32Array;
  private readonly amount: Int32Array;
  private readonly taskOf: Int32Array;
  /** The uses of resource r: from `ofStart[r]` until `ofStart[r + 1]`. */
  private readonly byResource: Int32Array;
  private readonly ofStart: Int32Array;
  /** Scratch: uses. */
  private readonly running: Int32Array;
  private readonly contributes: Uint8Array;
  private readonly filtered: Uint8Array;
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
  private grownFrom = 0;
  private grownTo = 0;
  /** For each task the bounds and the state of its condition when it was last looked at. */
  private readonly seen: Int32Array;
  /** Must every task be looked at? */
  private all = true;

  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    tasks: readonly TimedTask[],
    private readonly capacities: readonly Capacity[],
  ) {
    this.width = capacities.length;
    this.by = trail.register(this);
    const n = (this.n = tasks.length);
    this.from = new Int32Array(n);
    this.to = new Int32Array(n);
    this.gap = new Int32Array(n);
    this.condition = new Int32Array(n);
    this.contributes = new Uint8Array(n);
    this.filtered = new Uint8Array(n);
    for (let i = 0; i < n; i++) {
      const { from, to, until, condition, contributes, filtered } = tasks[i];
      this.from[i] = from;
      this.to[i] = to;
      this.gap[i] = isConstant(until) ? until.gap : 0;
      this.condition[i] = condition;
      this.contributes[i] = contributes ? 1 : 0;
      this.filtered[i] = filtered ? 1 : 0;
    }
    this.map = tasks.map(({ until }) => (isConstant(until) ? null : until));
    this.partFrom = new Int32Array(n).fill(BEYOND);
    this.partTo = new Int32Array(n).fill(BEYOND);
    this.seen = new Int32Array(5 * n);
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
    this.running = new Int32Array(n);
    this.changes = changesOf(capacities);
    this.mostSegments = 1 + 2 * n + this.changes.at.length;
    this.segFrom = new Int32Array(this.mostSegments);
    this.segFree = new Int32Array(this.mostSegments * capacities.length);
    this.leastFree = new Int32Array(capacities.length);
  }

  /** The views whose change may matter. */
  watched(): number[] {
    const views: number[] = [];
    for (let i = 0; i < this.n; i++) this.watch(i, views);
    return views;
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

  /**
   * Reads the surely running parts. False when none has changed. `[grownFrom, grownTo)` then spans all that is new: a task at rest under
   * the old profile can only be moved by what lies there.
   */
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
  private segmentAt(t: number): number {
    return firstReaching(this.segFrom, t + 1, 0, this.segments) - 1;
  }

  /** The use for which there is no room in segment k, task i itself apart; -1 when there is room for all. */
  private full(i: number, k: number): number {
    const { segFrom, segFree, useStart, useOf, amount } = this;
    const isInside = this.partFrom[i] <= segFrom[k] && segFrom[k] < this.partTo[i];
    const free = k * this.width;
    for (let u = useStart[i], end = useStart[i + 1]; u < end; u++)
      if (segFree[free + useOf[u]] < (isInside ? 0 : amount[u])) return u;
    return -1;
  }

  /** Is there room for the task everywhere? */
  private fits(i: number): boolean {
    const { useStart, useOf, amount, leastFree } = this;
    for (let u = useStart[i], end = useStart[i + 1]; u < end; u++)
      if (amount[u] > leastFree[useOf[u]]) return false;
    return true;
  }

  /** Brings the profile up to date, for those who read it. */
  refresh(): void {
    if (!this.read() && !this.all) return;
    this.build();
    this.all = false;
  }

  propagate(): boolean {
    const { n, trail, conditions, from, to, seen } = this;
    const { bound } = trail;
    trail.work += 1 + (n >> 4);
    if (this.read() || this.all) {
      this.build();
      trail.work += n >> 4;
    }
    const { grownFrom, grownTo, all } = this;
    // A run that is cut short by a conflict leaves tasks unlooked at: then the next one looks at all.
    this.all = true;
    for (let i = 0; i < n; i++) {
      if (this.filtered[i] === 0) continue;
      const least = bound[2 * from[i]];
      const first = bound[2 * from[i] + 1];
      const last = bound[2 * to[i]];
      const most = bound[2 * to[i] + 1];
      const state = conditions.state(trail, this.condition[i]);
      const at = 5 * i;
      if (
        !all &&
        seen[at] === least &&
        seen[at + 1] === first &&
        seen[at + 2] === last &&
        seen[at + 3] === most &&
        seen[at + 4] === state &&
        (grownTo <= least || grownFrom >= this.end(i, -most))
      )
        continue;
      if (this.fits(i)) continue;
      trail.work++;
      if (state === DEAD) {
        // Nothing to do until the condition is open again.
      } else if (state !== TRUE) {
        if (!this.tryDeny(i, state)) return false;
      } else if (!this.raise(i) || !this.lower(i)) return false;
      seen[at] = bound[2 * from[i]];
      seen[at + 1] = bound[2 * from[i] + 1];
      seen[at + 2] = bound[2 * to[i]];
      seen[at + 3] = bound[2 * to[i] + 1];
      seen[at + 4] = state;
    }
    this.all = false;
    return true;
  }

  /** Moves the lower bound of the task's first start past the places where it does not fit. */
  private raise(i: number): boolean {
    const { trail, segFrom } = this;
    const from = 2 * this.from[i];
    const same = this.from[i] === this.to[i];
    let end = this.end(i, trail.bound[2 * this.to[i]]);
    let at = trail.bound[from];
    if (at >= end) return true;
    for (let k = this.segmentAt(at); k < this.segments && segFrom[k] < end; k++) {
      const use = this.full(i, k);
      if (use < 0) continue;
      const segEnd = k + 1 < this.segments ? segFrom[k + 1] : NEVER;
      while (at < segEnd && segFrom[k] < end) {
        at = Math.min(segEnd, end);
        if (!trail.set(from, at, this.by, trail.note(use, at - 1))) return false;
        if (!same) break;
        end = this.end(i, trail.bound[from]);
        if (at >= end) return true;
      }
    }
    return true;
  }

  /** Moves the upper bound of the task's last start before the places where it does not fit. */
  private lower(i: number): boolean {
    const { trail, segFrom } = this;
    const to = 2 * this.to[i];
    const same = this.from[i] === this.to[i];
    let start = -trail.bound[2 * this.from[i] + 1];
    let end = this.end(i, -trail.bound[to + 1]);
    if (start >= end) return true;
    for (let k = this.segmentAt(end - 1); k >= 0; k--) {
      const segEnd = k + 1 < this.segments ? segFrom[k + 1] : NEVER;
      if (segEnd <= start) break;
      const use = this.full(i, k);
      if (use < 0) continue;
      while (end > segFrom[k] && segEnd > start) {
        const t = Math.max(segFrom[k], start);
        if (!trail.set(to + 1, 1 - this.endsAfter(i, t), this.by, trail.note(use, t))) return false;
        end = this.end(i, -trail.bound[to + 1]);
        if (!same) break;
        start = -trail.bound[to + 1];
        if (start >= end) return true;
      }
    }
    return true;
  }

  /** Denies the open condition of a task that would surely run where it does not fit. */
  private tryDeny(i: number, open: number): boolean {
    const { trail, segFrom } = this;
    const start = -trail.bound[2 * this.from[i] + 1];
    const end = this.end(i, trail.bound[2 * this.to[i]]);
    if (start >= end) return true;
    for (let k = this.segmentAt(start); k < this.segments && segFrom[k] < end; k++) {
      const use = this.full(i, k);
      if (use >= 0)
        return this.conditions.deny(trail, open, this.by, trail.note(use, Math.max(start, segFrom[k])));
    }
    return true;
  }

  explain(view: number, _value: number, before: number, ref: number, because: Because): void {
    const { trail, conditions } = this;
    const { useOf, amount } = this;
    const use = trail.notes[ref];
    const t = trail.notes[ref + 1];
    const i = this.taskOf[use];
    const of = useOf[use];
    const from = 2 * this.from[i];
    const to = 2 * this.to[i];
    if (view !== to + 1) because.push(to, this.endsAfter(i, t));
    if (view !== from) because.push(from + 1, -t);
    conditions.explain(this.condition[i], view, because);
    // Enough of the others that surely run at t.
    let spare = -1 - (this.capacities[of].at(t) - amount[use]);
    const { bound } = trail;
    let running = 0;
    for (let k = this.ofStart[of], end = this.ofStart[of + 1]; k < end; k++) {
      const u = this.byResource[k];
      const j = this.taskOf[u];
      // What is not so now was not so before.
      if (j === i || this.contributes[j] === 0 || -bound[2 * this.from[j] + 1] > t) continue;
      if (-trail.boundBefore(2 * this.from[j] + 1, before) > t) continue;
      if (trail.boundBefore(2 * this.to[j], before) < this.endsAfter(j, t)) continue;
      if (!conditions.heldBefore(trail, this.condition[j], before)) continue;
      this.running[running++] = u;
      spare += amount[u];
    }
    for (let k = 0; k < running; k++) {
      const u = this.running[k];
      if (amount[u] <= spare) {
        spare -= amount[u];
        continue;
      }
      const j = this.taskOf[u];
      because.push(2 * this.from[j] + 1, -t);
      because.push(2 * this.to[j], this.endsAfter(j, t));
      conditions.explain(this.condition[j], -1, because);
    }
  }
}

/** Where tasks without a surely running part are kept while sorting: after everything. */
const BEYOND = 0x7fffffff;

/** 0, 1, ..., n - 1: an order to begin with. */
export function upTo(n: number): Int32Array {
  const order = new Int32Array(n);
  for (let k = 1; k < n; k++) order[k] = k;
  return order;
}

/** Insertion sort of a permutation that was sorted a short while ago. */
export function sortBy(order: Int32Array, key: Int32Array): void {
  for (let k = 1; k < order.length; k++) {
    const item = order[k];
    const value = key[item];
    let j = k - 1;
    while (j >= 0 && key[order[j]] > value) {
      order[j + 1] = order[j];
      j--;
    }
    order[j + 1] = item;
  }
}
