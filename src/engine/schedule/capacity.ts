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

  /** When it changes, and by how much. */
  eachChange(visit: (at: Time, by: number) => void): void {
    const { from, amount } = this;
    for (let k = 1; k < from.length; k++) visit(from[k], amount[k] - amount[k - 1]);
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
