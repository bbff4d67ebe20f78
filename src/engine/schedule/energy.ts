/**
 * Energy reasoning on one resource: overload and edge-finding over the profile of what surely runs (Vilim 2011; explained as in Schutt, Feydy, Stuckey
 * 2013, and with energetic overlaps as in Baptiste, Le Pape, Nuijten 2001). For one machine this is the classical edge-finding.
 *
 * In a window [a, b) a task of least length p, amount c, kept inside [est, lct) needs at least
 * `c * min(p, b - a, est + p - a, b - lct + p)`. When the needs of the others leave too little for task i as early as it could
 * start, it starts later. Explanation: for each task the weakest window that still forces its overlap, the surplus used to weaken further. The
 * capacity may vary: the room in a window is an area.
 */
import type { Capacity } from './capacity.ts';
import { TRUE, type Conditions } from './conditions.ts';
import { NEVER } from './model.ts';
import { Seldom } from './seldom.ts';
import { sortBy, upTo } from './sort-by.ts';
import type { SureProfile } from './sure-profile.ts';
import type { Because, Explainer, Trail } from './trail.ts';

/** A task as the profile numbers it, what it uses, and the least time that it runs when it is there; 0 keeps it out. */
export interface EnergyTask {
  readonly inProfile: number;
  readonly amount: number;
  readonly length: number;
}

export class Energy implements Explainer {
  private readonly by: number;
  private readonly n: number;
  private readonly inProfile: Int32Array;
  private readonly amount: Int32Array;
  private readonly length: Int32Array;
  private readonly est: Int32Array;
  private readonly lct: Int32Array;
  /** The part that is in the profile. */
  private readonly partFrom: Int32Array;
  private readonly partTo: Int32Array;
  /** Energy beyond the part that is in the profile already. */
  private readonly free: Float64Array;
  private readonly roomAtEst: Float64Array;
  private readonly roomAtLct: Float64Array;
  private readonly byEst: Int32Array;
  private readonly byLct: Int32Array;
  /** No task needs more. */
  private readonly largest: number;
  private readonly area: Float64Array;
  private readonly seldom: Seldom;

  /**
   * `resource`: its number in the profile. `isAlone`: no time-table reads it, and it is brought up to date here.
   */
  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    private readonly profile: SureProfile,
    private readonly resource: number,
    private readonly capacity: Capacity,
    tasks: readonly EnergyTask[],
    private readonly isAlone: boolean,
  ) {
    this.by = trail.register(this);
    const n = (this.n = tasks.length);
    this.inProfile = new Int32Array(n);
    this.amount = new Int32Array(n);
    this.length = new Int32Array(n);
    tasks.forEach((task, i) => {
      this.inProfile[i] = task.inProfile;
      this.amount[i] = task.amount;
      this.length[i] = task.length;
    });
    this.seldom = new Seldom(n);
    this.est = new Int32Array(n);
    this.lct = new Int32Array(n);
    this.partFrom = new Int32Array(n);
    this.partTo = new Int32Array(n);
    this.free = new Float64Array(n);
    this.roomAtEst = new Float64Array(n);
    this.roomAtLct = new Float64Array(n);
    this.largest = tasks.reduce((most, { length, amount }) => Math.max(most, length * amount), 0);
    this.byEst = upTo(n);
    this.byLct = upTo(n);
    this.area = new Float64Array(profile.mostSegments);
  }

  watched(): number[] {
    const views: number[] = [];
    for (const t of this.inProfile) this.profile.watch(t, views);
    return views;
  }

  /** Runs after the time-table, whose profile it reads. */
  propagate(): boolean {
    if (!this.seldom.isDue()) return true;
    const before = this.trail.size;
    this.trail.work += 1 + ((this.n * this.n) >> 4);
    const consistent = this.look();
    this.seldom.found(!consistent || this.trail.size > before);
    return consistent;
  }

  private look(): boolean {
    if (this.isAlone) this.profile.refresh();
    const count = this.prepare();
    return count < 2 || (this.raise(count) && this.lower(count));
  }

  /** Reads the windows; returns how many tasks take part (they come first in both orders). */
  private prepare(): number {
    const { n, trail, profile, inProfile, amount, est, lct, partFrom, partTo, free, length } = this;
    let count = 0;
    for (let i = 0; i < n; i++) {
      est[i] = lct[i] = NEVER;
      if (length[i] === 0) continue;
      const t = inProfile[i];
      const condition = profile.condition[t];
      if (condition !== 0 && this.conditions.state(trail, condition) !== TRUE) continue;
      count++;
      est[i] = trail.bound[2 * profile.from[t]];
      lct[i] = Math.min(NEVER - 1, profile.end(t, -trail.bound[2 * profile.to[t] + 1]));
      partFrom[i] = profile.partFrom[t];
      partTo[i] = profile.partTo[t];
      free[i] = amount[i] * Math.max(0, length[i] - (partTo[i] - partFrom[i]));
    }
    if (count < 2) return count;
    sortBy(this.byEst, est);
    sortBy(this.byLct, lct);
    const { resource } = this;
    const { segments, segFrom, segFree, width } = profile;
    const { area } = this;
    area[0] = 0;
    if (segments > 1) area[1] = 0;
    for (let k = 2; k < segments; k++)
      area[k] = area[k - 1] + (segFrom[k] - segFrom[k - 1]) * segFree[(k - 1) * width + resource];
    this.fillRoom(this.byEst, est, this.roomAtEst, count);
    this.fillRoom(this.byLct, lct, this.roomAtLct, count);
    return count;
  }

  /** Free area up to each time, measured from the second segment's begin. */
  private fillRoom(order: Int32Array, at: Int32Array, room: Float64Array, count: number): void {
    const { resource } = this;
    const { segments, segFrom, segFree, width } = this.profile;
    const base = segments > 1 ? segFrom[1] : 0;
    let k = 0;
    for (let x = 0; x < count; x++) {
      const i = order[x];
      while (k + 1 < segments && segFrom[k + 1] <= at[i]) k++;
      room[i] =
        k === 0
          ? (at[i] - base) * segFree[resource]
          : this.area[k] + (at[i] - segFrom[k]) * segFree[k * width + resource];
    }
  }

  private raise(count: number): boolean {
    const { profile, est, lct, free, roomAtEst, roomAtLct, byEst, byLct, length, trail } = this;
    const { amount, partFrom, partTo, inProfile } = this;
    /** The energy of all that is over by b. */
    let over = 0;
    for (let y = 0; y < count; y++) {
      const b = lct[byLct[y]];
      over += free[byLct[y]];
      if (y + 1 < count && lct[byLct[y + 1]] === b) continue;
      const room = roomAtLct[byLct[y]];
      let needed = 0;
      let late = -1;
      let lateNeed = 0;
      for (let x = count - 1; x >= 0; x--) {
        const j = byEst[x];
        const a = est[j];
        if (a >= b) continue;
        // From here on there is always room for one more.
        if (room - roomAtEst[j] - over >= this.largest) break;
        if (lct[j] <= b) needed += free[j];
        else {
          const inside = partFrom[j] < b ? Math.min(b, partTo[j]) - partFrom[j] : 0;
          const need = amount[j] * (Math.min(length[j], b - a) - inside);
          if (need > lateNeed) {
            late = j;
            lateNeed = need;
          }
        }
        const left = room - roomAtEst[j] - needed;
        if (left < 0) return this.overload(a, b, left);
        if (late < 0 || lateNeed <= left) continue;
        const inside = partFrom[late] < b ? Math.min(b, partTo[late]) - partFrom[late] : 0;
        const most = Math.floor((left + amount[late] * inside) / amount[late]);
        if (!this.startAfter(late, a, b, b - most)) return false;
        if (trail.bound[2 * profile.from[inProfile[late]]] > est[late]) lateNeed = 0;
      }
    }
    return true;
  }

  private lower(count: number): boolean {
    const { est, lct, free, roomAtEst, roomAtLct, byEst, byLct, length } = this;
    const { amount, partFrom, partTo } = this;
    /** The energy of all that begins at a or later. */
    let later = 0;
    for (let x = count - 1; x >= 0; x--) {
      const a = est[byEst[x]];
      later += free[byEst[x]];
      if (x > 0 && est[byEst[x - 1]] === a) continue;
      const room = roomAtEst[byEst[x]];
      let needed = 0;
      let early = -1;
      let earlyNeed = 0;
      for (let y = 0; y < count; y++) {
        const j = byLct[y];
        const b = lct[j];
        if (b <= a) continue;
        if (roomAtLct[j] - room - later >= this.largest) break;
        if (est[j] >= a) needed += free[j];
        else {
          const inside = partFrom[j] < partTo[j] && partTo[j] > a ? partTo[j] - Math.max(a, partFrom[j]) : 0;
          const need = amount[j] * (Math.min(length[j], b - a) - inside);
          if (need > earlyNeed) {
            early = j;
            earlyNeed = need;
          }
        }
        const left = roomAtLct[j] - room - needed;
        if (left < 0) return this.overload(a, b, left);
        if (early < 0 || earlyNeed <= left) continue;
        const inside =
          partTo[early] > a && partFrom[early] < partTo[early]
            ? partTo[early] - Math.max(a, partFrom[early])
            : 0;
        const most = Math.floor((left + amount[early] * inside) / amount[early]);
        if (!this.endBefore(early, a, b, a + most)) return false;
        earlyNeed = 0;
        early = -1;
      }
    }
    return true;
  }

  /** The tasks inside [a, b) need more than there is: one of them then cannot be placed. */
  private overload(a: number, b: number, left: number): boolean {
    const { est, lct, amount, partFrom, partTo, length } = this;
    for (let i = 0; i < this.n; i++) {
      if (est[i] < a || lct[i] > b || length[i] === 0 || this.free[i] === 0) continue;
      const own = this.free[i] + amount[i] * Math.max(0, partTo[i] - partFrom[i]);
      const most = Math.floor((left + own) / amount[i]);
      if (!this.startAfter(i, a, b, Math.min(b, b - most))) return false;
    }
    return true;
  }

  private startAfter(i: number, a: number, b: number, value: number): boolean {
    const view = 2 * this.profile.from[this.inProfile[i]];
    if (value <= this.trail.bound[view]) return true;
    const ref = this.trail.note(i, a);
    this.trail.note(b, 0);
    return this.trail.set(view, value, this.by, ref);
  }

  private endBefore(i: number, a: number, b: number, end: number): boolean {
    const t = this.inProfile[i];
    const view = 2 * this.profile.to[t] + 1;
    const value = 1 - this.profile.endsAfter(t, end);
    if (value <= this.trail.bound[view]) return true;
    const ref = this.trail.note(i, a);
    this.trail.note(b, 1);
    return this.trail.set(view, value, this.by, ref);
  }

  /** The window `[a, b)` that a change noted under `ref` rests on: a proof names it. */
  windowOf(ref: number): readonly [number, number] {
    return [this.trail.notes[ref + 1], this.trail.notes[ref + 2]];
  }

  explain(view: number, value: number, before: number, ref: number, because: Because): void {
    const { trail, profile, conditions, length, inProfile, amount } = this;
    const i = trail.notes[ref];
    const a = trail.notes[ref + 1];
    const b = trail.notes[ref + 2];
    const task = inProfile[i];
    let own: number;
    if (trail.notes[ref + 3] === 0) {
      // Begun anywhere up to value - 1, the task would take at least `own` of the window.
      own = Math.min(b - (value - 1), length[i], b - a);
      because.push(view, a + own - length[i]);
    } else {
      own = Math.min(profile.end(task, 1 - value) - a, length[i], b - a);
      because.push(view, 1 - profile.endsAfter(task, b + length[i] - own));
    }
    conditions.explain(profile.condition[task], -1, because);
    let spare = own * amount[i] - this.capacity.areaIn(a, b) - 1;
    const used: number[] = [];
    const overlaps: number[] = [];
    for (let j = 0; j < this.n; j++) {
      const t = inProfile[j];
      if (j === i || length[j] === 0 || !conditions.heldBefore(trail, profile.condition[t], before)) continue;
      const est = trail.boundBefore(2 * profile.from[t], before);
      const lct = profile.end(t, -trail.boundBefore(2 * profile.to[t] + 1, before));
      const p = length[j];
      let overlap = Math.min(p, b - a, est + p - a, b - lct + p);
      const part =
        Math.min(b, profile.end(t, trail.boundBefore(2 * profile.to[t], before))) -
        Math.max(a, -trail.boundBefore(2 * profile.from[t] + 1, before));
      if (part > overlap) overlap = part;
      if (overlap <= 0) continue;
      used.push(j);
      overlaps.push(overlap);
      spare += overlap * amount[j];
    }
    for (let k = 0; k < used.length; k++) {
      const j = used[k];
      const t = inProfile[j];
      const c = amount[j];
      if (c * overlaps[k] <= spare) {
        spare -= c * overlaps[k];
        continue;
      }
      const p = length[j];
      const less = Math.floor(spare / c);
      const est = trail.boundBefore(2 * profile.from[t], before);
      const lct = profile.end(t, -trail.boundBefore(2 * profile.to[t] + 1, before));
      const overlap = overlaps[k] - less;
      if (overlap <= Math.min(p, b - a, est + p - a, b - lct + p)) {
        spare -= less * c;
        because.push(2 * profile.from[t], a + overlap - p);
        because.push(2 * profile.to[t] + 1, 1 - profile.endsAfter(t, b + p - overlap));
      } else {
        // The part that surely runs is more than the length alone forces: a thing held for long.
        because.push(2 * profile.from[t] + 1, trail.boundBefore(2 * profile.from[t] + 1, before));
        because.push(2 * profile.to[t], trail.boundBefore(2 * profile.to[t], before));
      }
      conditions.explain(profile.condition[t], -1, because);
    }
  }
}
