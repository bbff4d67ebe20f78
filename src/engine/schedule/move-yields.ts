/** How kinds of moves share the work of a search: by how much of the value each has gained of late for its work. */

/** The least share of a kind, as a part of an equal one. */
const LEAST = 1 / 3;
/** What gains and work count for after one more gain. */
const MEMORY = 0.98;

export class MoveYields {
  private readonly gained: Float64Array;
  private readonly worked: Float64Array;

  constructor(private readonly kinds: number) {
    this.gained = new Float64Array(kinds);
    this.worked = new Float64Array(kinds);
  }

  /** Of the first so many kinds the one whose work is furthest behind its share. */
  next(count = this.kinds): number {
    const { worked } = this;
    let sum = 0;
    for (let k = 0; k < count; k++) sum += this.yieldOf(k);
    let next = 0;
    let least = Infinity;
    for (let k = 0; k < count; k++) {
      const share = Math.max(LEAST / count, sum > 0 ? this.yieldOf(k) / sum : 0);
      if (worked[k] / share >= least) continue;
      least = worked[k] / share;
      next = k;
    }
    return next;
  }

  private yieldOf(kind: number): number {
    return this.worked[kind] > 0 ? this.gained[kind] / this.worked[kind] : 0;
  }

  /**
   * Notes a move of a kind.
   * @param work its counted steps
   * @param gain the share of the value that it took off; 0 when it led to nothing better
   */
  note(kind: number, work: number, gain: number): void {
    const { gained, worked } = this;
    worked[kind] += work;
    gained[kind] += gain;
    if (gain <= 0) return;
    for (let k = 0; k < this.kinds; k++) {
      gained[k] *= MEMORY;
      worked[k] *= MEMORY;
    }
  }
}
