/** How much there is of a resource, as steps over time. */
import { firstReaching } from './maps.ts';
import { NEVER, type Time } from './model.ts';

export class Capacity {
  private readonly from: Int32Array;
  private readonly amount: Int32Array;

  /** `steps`: `[time0, amount0, time1, amount1, ...]`; amount0 also holds before time0. */
  constructor(steps: Int32Array) {
    const count = steps.length >> 1;
    this.from = new Int32Array(count);
    this.amount = new Int32Array(count);
    for (let k = 0; k < count; k++) {
      this.from[k] = k === 0 ? -NEVER : steps[2 * k];
      this.amount[k] = steps[2 * k + 1];
    }
  }

  /** Before any change. */
  get first(): number {
    return this.amount[0];
  }

  at(t: Time): number {
    return this.amount[firstReaching(this.from, t + 1) - 1];
  }

  get changes(): number {
    return this.from.length - 1;
  }

  /** When its change `k`, counted from 1, comes; NEVER when there are not so many. */
  changeAt(k: number): Time {
    return k < this.from.length ? this.from[k] : NEVER;
  }

  /** By how much it changes then. */
  change(k: number): number {
    return this.amount[k] - this.amount[k - 1];
  }

  /** Amount times time over `[a, b)`. */
  areaIn(a: Time, b: Time): number {
    const { from, amount } = this;
    let sum = 0;
    for (let k = 0; k < from.length; k++) {
      const begin = Math.max(a, from[k]);
      const end = k + 1 < from.length ? Math.min(b, from[k + 1]) : b;
      if (end > begin) sum += (end - begin) * amount[k];
    }
    return sum;
  }
}

/** The changes of several capacities in the order of time: when, of which, and by how much. */
export interface Changes {
  readonly at: Int32Array;
  readonly of: Int32Array;
  readonly by: Int32Array;
}

export function changesOf(capacities: readonly Capacity[]): Changes {
  const count = capacities.reduce((sum, { changes }) => sum + changes, 0);
  const next = new Int32Array(capacities.length).fill(1);
  const merged = { at: new Int32Array(count), of: new Int32Array(count), by: new Int32Array(count) };
  for (let k = 0; k < count; k++) {
    let first = 0;
    let at = NEVER;
    for (let r = 0; r < next.length; r++) {
      const time = capacities[r].changeAt(next[r]);
      if (time >= at) continue;
      at = time;
      first = r;
    }
    merged.at[k] = at;
    merged.of[k] = first;
    merged.by[k] = capacities[first].change(next[first]++);
  }
  return merged;
}
