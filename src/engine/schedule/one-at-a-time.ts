/**
 * Activities of which only one runs at a time: overload and edge-finding (Carlier, Pinson 1989) in windows, explained as energy on larger resources is. In a
 * window [a, b) an activity of length p, kept inside [est, lct), needs at least `min(p, b - a, est + p - a, b - lct + p)`. When the needs of those inside leave too
 * little for activity i as early as it could start, it starts later.
 *
 * Both directions of time are one: in direction 0 an activity's time is its start, in direction 1 the negative of its end.
 */
import { Seldom } from './seldom.ts';
import { sortBy, upTo } from './sort-by.ts';
import type { Because, Explainer, Trail } from './trail.ts';

export class OneAtATime implements Explainer {
  private readonly by: number;
  private readonly n: number;
  /** For each direction the activities by earliest start and by latest end, sorted anew from how they last were. */
  private readonly byEst: readonly [Int32Array, Int32Array];
  private readonly byLct: readonly [Int32Array, Int32Array];
  private readonly est: Int32Array;
  private readonly lct: Int32Array;
  /** In the order of the earliest starts. */
  private readonly ests: Int32Array;
  private readonly lcts: Int32Array;
  private readonly lengths: Int32Array;
  private readonly longest: number;
  private readonly seldom: Seldom;

  /** `length[k]`: how long the activity runs that begins with `starts[k]`. */
  constructor(
    private readonly trail: Trail,
    private readonly starts: readonly number[],
    private readonly length: Int32Array,
  ) {
    this.by = trail.register(this);
    const n = (this.n = starts.length);
    this.seldom = new Seldom(n);
    const order = upTo(n);
    this.byEst = [order, order.slice()];
    this.byLct = [order.slice(), order.slice()];
    this.est = new Int32Array(n);
    this.lct = new Int32Array(n);
    this.ests = new Int32Array(n);
    this.lcts = new Int32Array(n);
    this.lengths = new Int32Array(n);
    this.longest = length.reduce((a, b) => Math.max(a, b), 0);
  }

  watched(): number[] {
    const views: number[] = [];
    for (const start of this.starts) views.push(2 * start, 2 * start + 1);
    return views;
  }

  propagate(): boolean {
    if (!this.seldom.isDue()) return true;
    const before = this.trail.size;
    this.trail.work += 1 + ((this.n * this.n) >> 5);
    const consistent = this.raise(0) && this.raise(1);
    this.seldom.found(!consistent || this.trail.size > before);
    return consistent;
  }

  private raise(direction: 0 | 1): boolean {
    const { n, starts, length, est, lct, ests, lcts, lengths, longest } = this;
    const { bound } = this.trail;
    const byEst = this.byEst[direction];
    const byLct = this.byLct[direction];
    for (let k = 0; k < n; k++) {
      const view = 2 * starts[k] + direction;
      const offset = direction === 0 ? 0 : length[k];
      est[k] = bound[view] - offset;
      lct[k] = length[k] - bound[view ^ 1] - offset;
    }
    sortBy(byEst, est);
    sortBy(byLct, lct);
    for (let x = 0; x < n; x++) {
      const k = byEst[x];
      ests[x] = est[k];
      lcts[x] = lct[k];
      lengths[x] = length[k];
    }
    let last = n - 1;
    /** How long all run that are over by b. */
    let over = 0;
    for (let k = 0; k < n; k++) over += length[k];
    for (let y = n - 1; y >= 0; over -= length[byLct[y--]]) {
      const b = lct[byLct[y]];
      if (y + 1 < n && lct[byLct[y + 1]] === b) continue;
      while (last >= 0 && ests[last] >= b) last--;
      let needed = 0;
      let late = -1;
      let lateNeed = 0;
      for (let x = last; x >= 0; x--) {
        const a = ests[x];
        // From here on there is always room for one more.
        if (b - a - over >= longest) break;
        if (lcts[x] <= b) needed += lengths[x];
        else {
          const need = lengths[x] < b - a ? lengths[x] : b - a;
          if (need > lateNeed) {
            late = x;
            lateNeed = need;
          }
        }
        const left = b - a - needed;
        if (lateNeed <= left && left >= 0) continue;
        if (left < 0) return this.overload(direction, a, b, left);
        if (!this.startAfter(byEst[late], direction, a, b, b - left)) return false;
        lateNeed = 0;
      }
    }
    return true;
  }

  /** Those inside [a, b) need more than there is: one of them then cannot be placed. */
  private overload(direction: number, a: number, b: number, left: number): boolean {
    const { est, lct, length } = this;
    for (let k = 0; k < this.n; k++) {
      if (est[k] < a || lct[k] > b) continue;
      if (!this.startAfter(k, direction, a, b, Math.min(b, b - left - length[k]))) return false;
    }
    return true;
  }

  private startAfter(k: number, direction: number, a: number, b: number, time: number): boolean {
    const view = 2 * this.starts[k] + direction;
    const value = time + (direction === 0 ? 0 : this.length[k]);
    if (value <= this.trail.bound[view]) return true;
    const ref = this.trail.note(k, direction);
    this.trail.note(a, b);
    return this.trail.set(view, value, this.by, ref);
  }

  /** The window `[a, b)` that a change noted under `ref` rests on: a proof names it. */
  windowOf(ref: number): readonly [number, number] {
    const { notes } = this.trail;
    const [a, b] = [notes[ref + 2], notes[ref + 3]];
    return notes[ref + 1] === 0 ? [a, b] : [-b, -a];
  }

  explain(view: number, value: number, before: number, ref: number, because: Because): void {
    const { trail, length, starts } = this;
    const { notes } = trail;
    const i = notes[ref];
    const direction = notes[ref + 1];
    const a = notes[ref + 2];
    const b = notes[ref + 3];
    const offsetOf = (k: number): number => (direction === 0 ? 0 : length[k]);
    // Begun anywhere before `value` it would take at least `own` of the window.
    const own = Math.min(b + 1 - (value - offsetOf(i)), length[i], b - a);
    because.push(view, a + own - length[i] + offsetOf(i));
    let spare = own - (b - a) - 1;
    const used: number[] = [];
    const overlaps: number[] = [];
    for (let k = 0; k < this.n; k++) {
      if (k === i) continue;
      const p = length[k];
      const w = 2 * starts[k] + direction;
      const est = trail.boundBefore(w, before) - offsetOf(k);
      const lct = p - trail.boundBefore(w ^ 1, before) - offsetOf(k);
      const overlap = Math.min(p, b - a, est + p - a, b - lct + p);
      if (overlap <= 0) continue;
      used.push(k);
      overlaps.push(overlap);
      spare += overlap;
    }
    for (let u = 0; u < used.length; u++) {
      const less = Math.min(spare, overlaps[u]);
      spare -= less;
      if (less === overlaps[u]) continue;
      const k = used[u];
      const w = 2 * starts[k] + direction;
      const overlap = overlaps[u] - less;
      because.push(w, a + overlap - length[k] + offsetOf(k));
      because.push(w ^ 1, overlap - b - offsetOf(k));
    }
  }
}
