/**
 * Sets of minutes as sorted, disjoint, half-open intervals in one flat array: `[from0, to0, from1, to1, ...]`.
 * Neighbours never touch: `[0, 10)` and `[10, 20)` are kept as `[0, 20)`.
 */
export type Intervals = Int32Array;

export const NO_TIME: Intervals = new Int32Array(0);

/** Any pairs `[from, to)`, in any order, overlapping or empty, as one tidy set. */
export function tidy(pairs: readonly (readonly [from: number, to: number])[]): Intervals {
  const sorted = pairs.filter(([from, to]) => from < to).sort((a, b) => a[0] - b[0]);
  const out: number[] = [];
  for (const [from, to] of sorted) {
    if (out.length > 0 && from <= out[out.length - 1])
      out[out.length - 1] = Math.max(out[out.length - 1], to);
    else out.push(from, to);
  }
  return Int32Array.from(out);
}

/** The minutes at which `keep(in a, in b)` holds; outside of both sets it must not hold. */
function sweep(a: Intervals, b: Intervals, keep: (inA: boolean, inB: boolean) => boolean): Intervals {
  const out: number[] = [];
  let i = 0;
  let j = 0;
  let inside = false;
  while (i < a.length || j < b.length) {
    const at = Math.min(i < a.length ? a[i] : Infinity, j < b.length ? b[j] : Infinity);
    if (a[i] === at) i++;
    if (b[j] === at) j++;
    const now = keep((i & 1) === 1, (j & 1) === 1);
    if (now !== inside) {
      out.push(at);
      inside = now;
    }
  }
  return Int32Array.from(out);
}

export const union = (a: Intervals, b: Intervals): Intervals => sweep(a, b, (inA, inB) => inA || inB);
export const intersect = (a: Intervals, b: Intervals): Intervals => sweep(a, b, (inA, inB) => inA && inB);
/** The minutes of `a` that are not in `b`. */
export const subtract = (a: Intervals, b: Intervals): Intervals => sweep(a, b, (inA, inB) => inA && !inB);

/** The part of `a` inside `[from, to)`. */
export function clip(a: Intervals, from: number, to: number): Intervals {
  return to <= from ? NO_TIME : intersect(a, Int32Array.of(from, to));
}

/** The minutes of `[from, to)` that are not in `a`. */
export function complement(a: Intervals, from: number, to: number): Intervals {
  return to <= from ? NO_TIME : subtract(Int32Array.of(from, to), a);
}

/** How many minutes the set holds. */
export function totalMinutes(a: Intervals): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 2) sum += a[i + 1] - a[i];
  return sum;
}

/** The index of the interval that holds the minute (its `from` is at twice that index), or -1. */
export function intervalAt(a: Intervals, minute: number): number {
  let low = 0;
  let high = a.length >> 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (a[2 * middle + 1] <= minute) low = middle + 1;
    else high = middle;
  }
  return 2 * low < a.length && a[2 * low] <= minute ? low : -1;
}

export const holds = (a: Intervals, minute: number): boolean => intervalAt(a, minute) >= 0;
