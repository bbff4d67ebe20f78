/**
 * Time-table propagation of one resource. A task that surely runs at `t` (its latest start is at or before t, its least end after) is in
 * the profile; a task that does not fit on top of the profile at t starts after t, or is over by t.
 *
 * Explanations are pointwise (Schutt, Feydy, Stuckey, Wallace 2013): at one moment t, `start <= t` and `end > t` of enough tasks. They are
 * made only when asked, from the bounds of that moment. An exclusion is the same rule with contributors on one side and filtered
 * tasks on the other.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { firstReaching, isConstant } from './maps.ts';
import { NEVER, type MonotoneMap } from './model.ts';
import { grown, type Because, type Explainer, type Trail } from './trail.ts';

export interface TimedTask {
  readonly from: number;
  readonly to: number;
  readonly until: MonotoneMap;
  readonly amount: number;
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
  readonly from: Int32Array;
  readonly to: Int32Array;
  private readonly gap: Int32Array;
  private readonly map: readonly (MonotoneMap | null)[];
  readonly amount: Int32Array;
  readonly condition: Int32Array;
  private readonly contributes: Uint8Array;
  private readonly filtered: Uint8Array;
  /** The surely running part as of the last `build`; empty parts lie at BEYOND. */
  readonly partFrom: Int32Array;
  readonly partTo: Int32Array;
  private readonly byFrom: Int32Array;
  private readonly byTo: Int32Array;
  readonly capFrom: Int32Array;
  readonly capacity: Int32Array;
  segFrom = new Int32Array(64);
  segUse = new Int32Array(64);
  segCap = new Int32Array(64);
  segments = 0;
  private leastFree = 0;
  private grownFrom = 0;
  private grownTo = 0;
  /** For each task the bounds and the state of its condition when it was last looked at. */
  private readonly seen: Int32Array;
  /** Must every task be looked at? */
  private all = true;

  /** `capacity`: `[time0, capacity0, time1, capacity1, ...]`; capacity0 also holds before time0. */
  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    tasks: readonly TimedTask[],
    capacity: Int32Array,
  ) {
    this.by = trail.register(this);
    const n = (this.n = tasks.length);
    this.from = new Int32Array(n);
    this.to = new Int32Array(n);
    this.gap = new Int32Array(n);
    this.amount = new Int32Array(n);
    this.condition = new Int32Array(n);
    this.contributes = new Uint8Array(n);
    this.filtered = new Uint8Array(n);
    for (let i = 0; i < n; i++) {
      const { from, to, until, amount, condition, contributes, filtered } = tasks[i];
      this.from[i] = from;
      this.to[i] = to;
      this.gap[i] = isConstant(until) ? until.gap : 0;
      this.amount[i] = amount;
      this.condition[i] = condition;
      this.contributes[i] = contributes ? 1 : 0;
      this.filtered[i] = filtered ? 1 : 0;
    }
    this.map = tasks.map(({ until }) => (isConstant(until) ? null : until));
    this.partFrom = new Int32Array(n).fill(BEYOND);
    this.partTo = new Int32Array(n).fill(BEYOND);
    this.seen = new Int32Array(5 * n);
    this.byFrom = Int32Array.from({ length: n }, (_, k) => k);
    this.byTo = Int32Array.from({ length: n }, (_, k) => k);
    this.capFrom = capacity.filter((_, k) => k % 2 === 0);
    this.capacity = capacity.filter((_, k) => k % 2 === 1);
    this.capFrom[0] = -NEVER;
  }

  /** The views whose change may matter. */
  *watched(): Iterable<number> {
    for (let i = 0; i < this.n; i++) {
      yield 2 * this.from[i];
      yield 2 * this.from[i] + 1;
      if (this.to[i] !== this.from[i]) {
        yield 2 * this.to[i];
        yield 2 * this.to[i] + 1;
      }
      if (this.condition[i] !== 0) for (const [view] of this.conditions.atoms(this.condition[i])) yield view;
    }
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

  private segment(at: number, use: number, cap: number): void {
    const k = this.segments++;
    if (k === this.segFrom.length) {
      this.segFrom = grown(this.segFrom);
      this.segUse = grown(this.segUse);
      this.segCap = grown(this.segCap);
    }
    this.segFrom[k] = at;
    this.segUse[k] = use;
    this.segCap[k] = cap;
    if (cap - use < this.leastFree) this.leastFree = cap - use;
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
    const { n, partFrom, partTo, byFrom, byTo, capFrom, capacity, amount } = this;
    sortBy(byFrom, partFrom);
    sortBy(byTo, partTo);
    this.segments = 0;
    this.leastFree = NEVER;
    let f = 0;
    let e = 0;
    let c = 1;
    let use = 0;
    let cap = capacity[0];
    this.segment(-NEVER, 0, cap);
    for (;;) {
      let at = e < n ? partTo[byTo[e]] : BEYOND;
      if (f < n && partFrom[byFrom[f]] < at) at = partFrom[byFrom[f]];
      if (c < capFrom.length && capFrom[c] < at) at = capFrom[c];
      if (at === BEYOND) break;
      while (e < n && partTo[byTo[e]] === at) use -= amount[byTo[e++]];
      while (f < n && partFrom[byFrom[f]] === at) use += amount[byFrom[f++]];
      while (c < capFrom.length && capFrom[c] === at) cap = capacity[c++];
      // Also where the use stays the same: within a segment the same tasks run.
      this.segment(at, use, cap);
    }
  }

  /** The segment that holds t. */
  private segmentAt(t: number): number {
    return firstReaching(this.segFrom, t + 1, 0, this.segments) - 1;
  }

  /** Is there no room for task i in segment k, itself apart? */
  private full(i: number, k: number): boolean {
    let free = this.segCap[k] - this.segUse[k];
    if (this.partFrom[i] <= this.segFrom[k] && this.segFrom[k] < this.partTo[i]) free += this.amount[i];
    return free < this.amount[i];
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
      if (this.filtered[i] === 0 || this.amount[i] <= this.leastFree) continue;
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
      if (!this.full(i, k)) continue;
      const segEnd = k + 1 < this.segments ? segFrom[k + 1] : NEVER;
      while (at < segEnd && segFrom[k] < end) {
        at = Math.min(segEnd, end);
        if (!trail.set(from, at, this.by, trail.note(i, at - 1))) return false;
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
      if (!this.full(i, k)) continue;
      while (end > segFrom[k] && segEnd > start) {
        const t = Math.max(segFrom[k], start);
        if (!trail.set(to + 1, 1 - this.endsAfter(i, t), this.by, trail.note(i, t))) return false;
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
    for (let k = this.segmentAt(start); k < this.segments && segFrom[k] < end; k++)
      if (this.full(i, k))
        return this.conditions.deny(trail, open, this.by, trail.note(i, Math.max(start, segFrom[k])));
    return true;
  }

  explain(view: number, _value: number, before: number, ref: number, because: Because): void {
    const { trail, conditions } = this;
    const i = trail.notes[ref];
    const t = trail.notes[ref + 1];
    const from = 2 * this.from[i];
    const to = 2 * this.to[i];
    if (view !== to + 1) because.push(to, this.endsAfter(i, t));
    if (view !== from) because.push(from + 1, -t);
    conditions.explain(this.condition[i], view, because);
    // Enough of the others that surely run at t.
    let spare = -1 - (this.capacity[firstReaching(this.capFrom, t + 1) - 1] - this.amount[i]);
    const running: number[] = [];
    for (let j = 0; j < this.n; j++) {
      if (j === i || this.contributes[j] === 0) continue;
      if (-trail.boundBefore(2 * this.from[j] + 1, before) > t) continue;
      if (trail.boundBefore(2 * this.to[j], before) < this.endsAfter(j, t)) continue;
      if (!conditions.heldBefore(trail, this.condition[j], before)) continue;
      running.push(j);
      spare += this.amount[j];
    }
    for (const j of running) {
      if (this.amount[j] <= spare) {
        spare -= this.amount[j];
        continue;
      }
      because.push(2 * this.from[j] + 1, -t);
      because.push(2 * this.to[j], this.endsAfter(j, t));
      conditions.explain(this.condition[j], -1, because);
    }
  }
}

/** Where tasks without a surely running part are kept while sorting: after everything. */
const BEYOND = 0x7fffffff;

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
