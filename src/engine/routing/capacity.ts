/** Capacity over time, as the scheduler reads it: `[time0, capacity0, time1, capacity1, ...]`. */
import type { Intervals } from '../time/index.ts';

export const always = (capacity: number): Int32Array => Int32Array.of(0, capacity);

/** `capacity` inside the intervals, nothing between them; after the last, `capacity` again. */
export function capacityWithin(open: Intervals, capacity: number): Int32Array {
  const out: number[] = open.length > 0 && open[0] <= 0 ? [] : [0, 0];
  for (let i = 0; i < open.length; i += 2) {
    out.push(Math.max(0, open[i]), capacity);
    if (i + 2 < open.length) out.push(open[i + 1], 0);
  }
  return Int32Array.from(out);
}
