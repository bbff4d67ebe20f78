/**
 * Monotone lags. A lag is two directed edges between views, each `bound[dst] >= f(bound[src])` with a non-decreasing f:
 * the lag itself and its contrapositive. Explanation: `dst >= v` because `src >= f^-1(v)`, the least that still gives v.
 *
 * Literature: Bartusch, Mohring, Radermacher 1988 (time windows), here with maps in place of constants.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { isConstant } from './maps.ts';
import { NEVER, type MonotoneMap } from './model.ts';
import { grown, type Because, type Explainer, type Trail } from './trail.ts';

const CONSTANT = 0;
const AT = 1;
const BACK = 2;
const MIRRORED_AT = 3;
const MIRRORED_BACK = 4;

const clamp = (v: number): number => (v >= NEVER ? NEVER : v <= -NEVER ? -NEVER : v);

export class Lags implements Explainer {
  private readonly by: number;
  private count = 0;
  private src = new Int32Array(256);
  private dst = new Int32Array(256);
  private gap = new Int32Array(256);
  private mode = new Int32Array(256);
  private condition = new Int32Array(256);
  private readonly map: (MonotoneMap | null)[] = [];
  private out = new Int32Array(0);
  private outStart = new Int32Array(0);
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
    }
    this.src[e] = src;
    this.dst[e] = dst;
    this.gap[e] = gap;
    this.mode[e] = mode;
    this.condition[e] = condition;
    this.map.push(map);
  }

  /** Builds the adjacency; call once, after the last `add`. */
  seal(): void {
    const views = this.trail.views;
    const build = (
      each: (e: number, visit: (view: number) => void) => void,
    ): [Int32Array<ArrayBuffer>, Int32Array<ArrayBuffer>] => {
      const start = new Int32Array(views + 1);
      for (let e = 0; e < this.count; e++) each(e, (view) => start[view + 1]++);
      for (let w = 0; w < views; w++) start[w + 1] += start[w];
      const fill = start.slice();
      const list = new Int32Array(start[views]);
      for (let e = 0; e < this.count; e++) each(e, (view) => (list[fill[view]++] = e));
      return [list, start];
    };
    [this.out, this.outStart] = build((e, visit) => visit(this.src[e]));
    [this.woken, this.wokenStart] = build((e, visit) => {
      for (const [view] of this.conditions.atoms(this.condition[e])) visit(view);
    });
  }

  /** Propagates everything that starts from a view, and every lag whose condition the view is part of. */
  propagate(view: number): boolean {
    const { out, outStart, woken, wokenStart, src, dst, gap, mode, condition, trail, by } = this;
    const { bound } = trail;
    const b = bound[view];
    for (let k = outStart[view], end = outStart[view + 1]; k < end; k++) {
      const e = out[k];
      const value = mode[e] === CONSTANT ? b + gap[e] : this.image(e, b);
      const target = dst[e];
      if (value <= bound[target]) continue;
      const c = condition[e];
      if (c === 0) {
        if (!trail.set(target, value, by, e)) return false;
      } else if (!this.bindOrDeny(e, target, value, c)) return false;
    }
    for (let k = wokenStart[view], end = wokenStart[view + 1]; k < end; k++) {
      const e = woken[k];
      const value = mode[e] === CONSTANT ? bound[src[e]] + gap[e] : this.image(e, bound[src[e]]);
      if (value > bound[dst[e]] && !this.bindOrDeny(e, dst[e], value, condition[e])) return false;
    }
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
