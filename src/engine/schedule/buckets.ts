/**
 * Buckets: a marker variable for each stretch `[edges[k], edges[k+1])`, true when one of the starts lies in it. A start that can only lie in bucket k
 * (its window is inside, its condition holds) makes marker k true; while marker k is false, bucket k is a hole in its window.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { firstReaching } from './maps.ts';
import type { Because, Explainer, Trail } from './trail.ts';

export class Buckets implements Explainer {
  private readonly by: number;
  private readonly ofView: number[][] = [];

  /** `marker[k]` is the variable of bucket k, or -1 where no start can lie. */
  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
    private readonly starts: readonly number[],
    private readonly when: readonly number[],
    private readonly edges: Int32Array,
    private readonly marker: Int32Array,
  ) {
    this.by = trail.register(this);
    const { bound } = trail;
    starts.forEach((start, i) => {
      const wake = (view: number): void => void (this.ofView[view] ??= []).push(i);
      wake(2 * start);
      wake(2 * start + 1);
      for (const [view] of conditions.atoms(when[i])) wake(view);
      const first = Math.max(0, this.bucketOf(bound[2 * start]));
      const last = Math.min(marker.length - 1, this.bucketOf(-bound[2 * start + 1]));
      for (let k = first; k <= last; k++) if (marker[k] >= 0) wake(2 * marker[k] + 1);
    });
  }

  /** The bucket that holds a time: -1 before the first, `marker.length` after the last. */
  private bucketOf(t: number): number {
    return firstReaching(this.edges, t + 1) - 1;
  }

  propagate(view: number): boolean {
    const list = this.ofView[view];
    if (list === undefined) return true;
    for (const i of list) if (!this.one(i)) return false;
    return true;
  }

  private one(i: number): boolean {
    const { trail, conditions, edges, marker, by } = this;
    const s = 2 * this.starts[i];
    const state = conditions.state(trail, this.when[i]);
    if (state === DEAD) return true;
    const first = this.bucketOf(trail.bound[s]);
    const last = this.bucketOf(-trail.bound[s + 1]);
    if (first === last) {
      if (first < 0 || first >= marker.length || marker[first] < 0) return true;
      if (state === TRUE) return trail.set(2 * marker[first], 1, by, i);
      return trail.holds(2 * marker[first] + 1, 0) ? conditions.deny(trail, state, by, i) : true;
    }
    if (state !== TRUE) return true;
    const closed = (k: number): boolean =>
      k >= 0 && k < marker.length && marker[k] >= 0 && trail.holds(2 * marker[k] + 1, 0);
    if (closed(first) && !trail.set(s, edges[first + 1], by, i)) return false;
    return !closed(last) || trail.set(s + 1, 1 - edges[last], by, i);
  }

  explain(view: number, value: number, before: number, i: number, because: Because): void {
    const { trail, edges, marker } = this;
    const s = 2 * this.starts[i];
    let bucket: number;
    if (view === s) {
      bucket = this.bucketOf(value - 1);
      because.push(s, edges[bucket]);
    } else if (view === s + 1) {
      bucket = this.bucketOf(1 - value);
      because.push(s + 1, 1 - edges[bucket + 1]);
    } else {
      bucket = this.bucketOf(trail.boundBefore(s, before));
      because.push(s, edges[bucket]);
      because.push(s + 1, 1 - edges[bucket + 1]);
    }
    if (view !== 2 * marker[bucket]) because.push(2 * marker[bucket] + 1, 0);
    this.conditions.explain(this.when[i], view, because);
  }
}
