/**
 * By how much more than the best a plan may cost for a while: from some share down to nothing in a cycle of moves, again and again. The first cycles are short
 * and bear little, for a plan that is far from good betters quickly; each is longer than the one before and bears more in proportion, up to a longest.
 *
 * Literature: Dueck 1993 (record-to-record travel).
 */

/** Moves of the first cycle and of the longest: a part. How much longer each is than the one before. */
const FIRST = 20;
const LONGEST = 120;
const LONGER = 1.5;
/** The share that is borne when the longest cycle begins. */
const MOST = 0.02;

export class Tolerance {
  private cycle: number;
  private readonly longest: number;
  private done = 0;

  /** @param parts how many parts there are */
  constructor(parts: number) {
    this.cycle = FIRST * parts;
    this.longest = LONGEST * parts;
  }

  /** Whether the next move is the first of a cycle. */
  get isAtBeginning(): boolean {
    return this.done === 0;
  }

  /** The share of the best plan's cost that may be added to it in the next move. */
  next(): number {
    const { cycle, longest } = this;
    const share = (MOST * (cycle - this.done)) / longest;
    if (++this.done >= cycle) {
      this.done = 0;
      this.cycle = Math.min(longest, Math.round(cycle * LONGER));
    }
    return share;
  }
}
