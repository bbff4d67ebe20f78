/**
 * Monotone lags. A lag is two directed edges between views, each `bound[dst] >= f(bound[src])` with a non-decreasing f:
 * the lag itself and its contrapositive. Explanation: `dst >= v` because `src >= f^-1(v)`, the least that still gives v.
 *
 * Literature: Bartusch, Mohring, Radermacher 1988 (time windows), here with maps in place of constants.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { listsBy } from './lists-by.ts';
import { isConstant } from './maps.ts';
import { NEVER, type MonotoneMap } from './model.ts';
import { grown, type Because, type Explainer, type Trail } from './trail.ts';

const CONSTANT = 0;
const AT = 1;
const BACK = 2;
const MIRRORED_AT = 3;
const MIRRORED_BACK = 4;

/** In place of the only view of a condition. */
const NONE = -1;
const MANY = -2;

const clamp = (v: number): number => (v >= NEVER ? NEVER : v <= -NEVER ? -NEVER : v);

export class Lags implements Explainer {
  private readonly by: number;
  private count = 0;
  private src = new Int32Array(256);
  private dst = new Int32Array(256);
  private gap = new Int32Array(256);
  private mode = new Int32Array(256);
  private condition = new Int32Array(256);
  /** The atom of a condition that has only one; the view is NONE or MANY for the others. */
  private onlyView = new Int32Array(256);
  private onlyValue = new Int32Array(256);
  private readonly map: (MonotoneMap | null)[] = [];
  /** The edges of constant lags by their source, as triples (edge, dst, gap): read in one sweep. */
  private steady = new Int32Array(0);
  private steadyStart = new Int32Array(0);
  /** The other edges by their source. */
  private mapped = new Int32Array(0);
  private mappedStart = new Int32Array(0);
  private woken = new Int32Array(0);
  private wokenStart = new Int32Array(0);

  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
  ) {
    this.by = trail.register(this);
  }

  /** `to >= map(from)` (least) or `to <= map(from)` (most), for variables, under a condition. */
  add(from: number, to: number, kind: 'least' | 'most', map: MonotoneMap, condition: number): void {
    if (isConstant(map)) {
      const gap = map.gap;
      if (kind === 'least') this.pair(2 * from, 2 * to, CONSTANT, CONSTANT, gap, null, condition);
      else this.pair(2 * to, 2 * from, CONSTANT, CONSTANT, -gap, null, condition);
    } else if (kind === 'least') this.pair(2 * from, 2 * to, AT, BACK, 0, map, condition);
    else this.pair(2 * from + 1, 2 * to + 1, MIRRORED_AT, MIRRORED_BACK, 0, map, condition);
  }

  private pair(
    src: number,
    dst: number,
    mode: number,
    back: number,
    gap: number,
    map: MonotoneMap | null,
    condition: number,
  ): void {
    this.edge(src, dst, mode, gap, map, condition);
    this.edge(dst ^ 1, src ^ 1, back, gap, map, condition);
  }

  private edge(
    src: number,
    dst: number,
    mode: number,
    gap: number,
    map: MonotoneMap | null,
    condition: number,
  ): void {
    const e = this.count++;
    if (e === this.src.length) {
      this.src = grown(this.src);
      this.dst = grown(this.dst);
      this.gap = grown(this.gap);
      this.mode = grown(this.mode);
      this.condition = grown(this.condition);
      this.onlyView = grown(this.onlyView);
      this.onlyValue = grown(this.onlyValue);
    }
    this.src[e] = src;
    this.dst[e] = dst;
    this.gap[e] = gap;
    this.mode[e] = mode;
    this.condition[e] = condition;
    const size = this.conditions.size(condition);
    const only = this.conditions.first(condition);
    this.onlyView[e] = size === 0 ? NONE : size > 1 ? MANY : this.conditions.viewAt(only);
    this.onlyValue[e] = size === 1 ? this.conditions.valueAt(only) : 0;
    this.map.push(map);
  }

  /** Builds the adjacency; call once, after the last `add`. */
  seal(): void {
    const views = this.trail.views;
    const { conditions, condition, count } = this;
    const steady: number[] = [];
    const mapped: number[] = [];
    for (let e = 0; e < count; e++) (this.mode[e] === CONSTANT ? steady : mapped).push(e);
    const listed = (
      edges: readonly number[],
      view: readonly number[],
    ): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] => {
      const [list, start] = listsBy(view, views);
      return [list.map((k) => edges[k]), start];
    };
    const bySource = (edges: readonly number[]): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] =>
      listed(
        edges,
        edges.map((e) => this.src[e]),
      );
    [this.mapped, this.mappedStart] = bySource(mapped);
    const [order, start] = bySource(steady);
    this.steady = new Int32Array(3 * order.length);
    order.forEach((e, k) => {
      this.steady[3 * k] = e;
      this.steady[3 * k + 1] = this.dst[e];
      this.steady[3 * k + 2] = this.gap[e];
    });
    this.steadyStart = start.map((k) => 3 * k);
    const wokenEdge: number[] = [];
    const wokenBy: number[] = [];
    for (let e = 0; e < count; e++)
      for (let k = conditions.first(condition[e]), end = k + conditions.size(condition[e]); k < end; k++) {
        wokenEdge.push(e);
        wokenBy.push(conditions.viewAt(k));
      }
    [this.woken, this.wokenStart] = listed(wokenEdge, wokenBy);
  }

  /** Propagates everything that starts from a view, and every lag whose condition the view is part of. */
  propagate(view: number): boolean {
    const { steady, steadyStart, mapped, mappedStart, woken, wokenStart, src, dst } = this;
    const { bound } = this.trail;
    const b = bound[view];
    for (let k = steadyStart[view], end = steadyStart[view + 1]; k < end; k += 3) {
      const value = b + steady[k + 2];
      const target = steady[k + 1];
      if (value > bound[target] && !this.apply(steady[k], target, value)) return false;
    }
    for (let k = mappedStart[view], end = mappedStart[view + 1]; k < end; k++) {
      const e = mapped[k];
      const value = this.image(e, b);
      if (value > bound[dst[e]] && !this.apply(e, dst[e], value)) return false;
    }
    for (let k = wokenStart[view], end = wokenStart[view + 1]; k < end; k++) {
      const e = woken[k];
      const value = this.image(e, bound[src[e]]);
      if (value > bound[dst[e]] && !this.apply(e, dst[e], value)) return false;
    }
    return true;
  }

  /** An edge asks for more than the target has: it binds, or its condition is denied, or nothing is known yet. */
  private apply(e: number, target: number, value: number): boolean {
    const { trail, by } = this;
    const { bound } = trail;
    const only = this.onlyView[e];
    if (only === NONE) return trail.set(target, value, by, e);
    if (only === MANY) return this.bindOrDeny(e, target, value, this.condition[e]);
    const needed = this.onlyValue[e];
    if (bound[only] >= needed) return trail.set(target, value, by, e);
    if (value > -bound[target ^ 1] && bound[only ^ 1] < 1 - needed) trail.set(only ^ 1, 1 - needed, by, e);
    return true;
  }

  private bindOrDeny(e: number, target: number, value: number, condition: number): boolean {
    const state = this.conditions.state(this.trail, condition);
    if (state === TRUE) return this.trail.set(target, value, this.by, e);
    if (state === DEAD || value <= -this.trail.bound[target ^ 1]) return true;
    return this.conditions.deny(this.trail, state, this.by, e);
  }

  /** The least bound of `dst` that a bound of `src` brings. */
  private image(e: number, b: number): number {
    const map = this.map[e];
    if (map === null) return b + this.gap[e];
    switch (this.mode[e]) {
      case AT:
        return clamp(map.at(b));
      case BACK:
        return 1 - clamp(map.leastReaching(1 - b));
      case MIRRORED_AT:
        return -clamp(map.at(-b));
      default:
        return clamp(map.leastReaching(b));
    }
  }

  /** The least bound of `src` whose image reaches `v`. */
  private inverse(e: number, v: number): number {
    const map = this.map[e];
    if (map === null) return v - this.gap[e];
    switch (this.mode[e]) {
      case AT:
        return clamp(map.leastReaching(v));
      case BACK:
        return 1 - clamp(map.at(1 - v));
      case MIRRORED_AT:
        return 1 - clamp(map.leastReaching(1 - v));
      default:
        return clamp(map.at(v - 1)) + 1;
    }
  }

  explain(view: number, value: number, before: number, e: number, because: Because): void {
    const target = this.dst[e];
    if (view === target) {
      because.push(this.src[e], this.inverse(e, value));
      this.conditions.explain(this.condition[e], -1, because);
      return;
    }
    const beyond = 1 - this.trail.boundBefore(target ^ 1, before);
    because.push(this.src[e], this.inverse(e, beyond));
    because.push(target ^ 1, 1 - beyond);
    this.conditions.explain(this.condition[e], view, because);
  }
}
