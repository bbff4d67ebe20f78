/** How often a costly look pays: where it rarely finds anything, it is taken rarely. */

/** Up to so many tasks every look is taken. */
const SMALL = 12;
/** Looks that found nothing, for each task, before one is left out. */
const PATIENCE = 40;
const MOST_LEFT_OUT = 200;
/** Of what was found in the past half is forgotten after so many looks. */
const MEMORY = 64;

export class Seldom {
  private looks = 0;
  private gains = 0;
  private leftOut = 0;

  /** `size`: the number of tasks, on which the cost of a look depends. */
  constructor(private readonly size: number) {}

  /** Is it time for a look? Ask once for each occasion, and tell `found` after each look taken. */
  isDue(): boolean {
    if (this.size <= SMALL) return true;
    if (this.leftOut > 0) {
      this.leftOut--;
      return false;
    }
    if (this.looks >= MEMORY) {
      this.looks >>= 1;
      this.gains >>= 1;
    }
    this.looks++;
    const due = Math.floor((this.size * this.looks) / (PATIENCE * (1 + this.gains)));
    this.leftOut = Math.min(MOST_LEFT_OUT, due);
    return true;
  }

  found(isGain: boolean): void {
    if (isGain) this.gains++;
  }
}
