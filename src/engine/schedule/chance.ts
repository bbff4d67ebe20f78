/** Chance from a seed alone (Marsaglia 2003, xorshift): the same seed gives the same numbers everywhere. */
export class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = seed | 0 || 1;
  }

  /** In [0, 1). */
  next(): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x;
    return (x >>> 0) / 4294967296;
  }

  /** A whole number in [0, n). */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }
}
