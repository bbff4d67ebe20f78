/**
 * The lags of orders: `to >= from + gap` while an order holds. There are thousands of them at every start, so each view keeps its own in three zones: those
 * that bind, those whose order is open, and those denied, which nobody looks at. What an order's decision moves from zone to zone goes back with the trail (a
 * reversible sparse set: Briggs, Torczon 1993; le Clement de Saint-Marcq and others 2013).
 */
import type { Because, Explainer, Trail } from './trail.ts';

export class OrderLags implements Explainer {
  private readonly by: number;
  /** Of each literal `first + k` of an order, two edges, 2k and 2k + 1: the lag and its contrapositive. */
  private readonly src: Int32Array;
  private readonly dst: Int32Array;
  private readonly gap: Int32Array;
  /** The edges by source, in zones: `[start, binding)` bind, `[binding, open)` are open, the rest denied. */
  private list = new Int32Array(0);
  private listDst = new Int32Array(0);
  private listGap = new Int32Array(0);
  private readonly place: Int32Array;
  private readonly start: Int32Array;
  private readonly binding: Int32Array;
  private readonly open: Int32Array;
  /** The literals decided, in the order of the trail, and their positions there. */
  private readonly decided: Int32Array;
  private readonly decidedAt: Int32Array;
  private decidedCount = 0;

  /** `first`: the first view of an order; `count` orders. */
  constructor(
    private readonly trail: Trail,
    private readonly first: number,
    count: number,
  ) {
    this.by = trail.register(this);
    this.src = new Int32Array(4 * count).fill(-1);
    this.dst = new Int32Array(4 * count);
    this.gap = new Int32Array(4 * count);
    this.place = new Int32Array(4 * count);
    this.start = new Int32Array(first + 1);
    this.binding = new Int32Array(first);
    this.open = new Int32Array(first);
    this.decided = new Int32Array(count);
    this.decidedAt = new Int32Array(count);
  }

  /** `to >= from + gap`, for starts, while the view `order` has the greater of its two values. */
  add(from: number, to: number, gap: number, order: number): void {
    const e = 2 * (order - this.first);
    this.edge(e, 2 * from, 2 * to, gap);
    this.edge(e + 1, 2 * to + 1, 2 * from + 1, gap);
  }

  private edge(e: number, src: number, dst: number, gap: number): void {
    this.src[e] = src;
    this.dst[e] = dst;
    this.gap[e] = gap;
    this.start[src + 1]++;
  }

  /** Builds the lists; call once, after the last `add`. */
  seal(): void {
    const { src, start, binding, open, first } = this;
    for (let w = 0; w < first; w++) start[w + 1] += start[w];
    this.list = new Int32Array(start[first]);
    this.listDst = new Int32Array(start[first]);
    this.listGap = new Int32Array(start[first]);
    binding.set(start.subarray(0, first));
    open.set(binding);
    for (let e = 0; e < src.length; e++) if (src[e] >= 0) this.put(open[src[e]]++, e);
  }

  private put(at: number, e: number): void {
    this.list[at] = e;
    this.listDst[at] = this.dst[e];
    this.listGap[at] = this.gap[e];
    this.place[e] = at;
  }

  private swap(e: number, to: number): void {
    const at = this.place[e];
    if (at === to) return;
    this.put(at, this.list[to]);
    this.put(to, e);
  }

  /** Propagates everything that follows from a view. */
  propagate(view: number): boolean {
    if (view >= this.first) return this.decide(view);
    const { binding, open, list, listDst, listGap, trail, by } = this;
    const { bound } = trail;
    const b = bound[view];
    let k = this.start[view];
    for (const end = binding[view]; k < end; k++) {
      const value = b + listGap[k];
      if (value > bound[listDst[k]] && !trail.set(listDst[k], value, by, list[k])) return false;
    }
    for (const end = open[view]; k < end; k++) {
      if (b + listGap[k] <= -bound[listDst[k] ^ 1]) continue;
      const literal = this.literalOf(list[k]);
      if (!trail.set(literal ^ 1, 1 - truth(literal), by, list[k])) return false;
    }
    return true;
  }

  private literalOf(e: number): number {
    return this.first + (e >> 1);
  }

  /** An order is decided: its own lag binds, that of its opposite is denied. */
  private decide(literal: number): boolean {
    const { src, dst, gap, binding, open, trail, by } = this;
    const { bound } = trail;
    const e = 2 * (literal - this.first);
    if (src[e] < 0 && src[e ^ 2] < 0) return true;
    this.decided[this.decidedCount] = literal;
    this.decidedAt[this.decidedCount++] = trail.last[literal];
    for (let d = e ^ 2; d <= (e ^ 2) + 1; d++) if (src[d] >= 0) this.swap(d, --open[src[d]]);
    for (let d = e; d <= e + 1; d++) if (src[d] >= 0) this.swap(d, binding[src[d]]++);
    for (let d = e; d <= e + 1; d++)
      if (src[d] >= 0 && !trail.set(dst[d], bound[src[d]] + gap[d], by, d)) return false;
    return true;
  }

  /** Forgets the decisions at trail positions from `size` on. */
  backTo(size: number): void {
    const { src, binding, open, decided, decidedAt } = this;
    while (this.decidedCount > 0 && decidedAt[this.decidedCount - 1] >= size) {
      const e = 2 * (decided[--this.decidedCount] - this.first);
      for (let d = e; d <= e + 1; d++) if (src[d] >= 0) binding[src[d]]--;
      for (let d = e ^ 2; d <= (e ^ 2) + 1; d++) if (src[d] >= 0) open[src[d]]++;
    }
  }

  /** What is decided now is so for good. */
  settleRoot(): void {
    this.decidedCount = 0;
  }

  explain(view: number, value: number, before: number, e: number, because: Because): void {
    const target = this.dst[e];
    if (view === target) {
      because.push(this.src[e], value - this.gap[e]);
      const literal = this.literalOf(e);
      because.push(literal, truth(literal));
      return;
    }
    const beyond = 1 - this.trail.boundBefore(target ^ 1, before);
    because.push(this.src[e], beyond - this.gap[e]);
    because.push(target ^ 1, 1 - beyond);
  }
}

/** The value of a literal's view when it is true. */
const truth = (literal: number): number => 1 - (literal & 1);
