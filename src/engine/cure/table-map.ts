/** A monotone map kept as one number a minute, with its inverse kept the same way. */
import type { MonotoneMap } from '../schedule/model.ts';
import { NEVER } from '../schedule/model.ts';

/**
 * The map `s -> table[s - from]`. Before the table it is its first value, so it stays monotone; after it, `NEVER`.
 * The table is made when first asked for, the inverse likewise: a plan uses few of the maps that it names.
 */
export class TableMap implements MonotoneMap {
  private readonly from: number;
  private readonly make: () => Int32Array;
  private table: Int32Array | null = null;
  private inverse: Int32Array | null = null;
  /** The value that entry 0 of the inverse is for. */
  private least = 0;

  /** @param make non-decreasing values, at least one, none above `NEVER` */
  constructor(from: number, make: () => Int32Array) {
    this.from = from;
    this.make = make;
  }

  at(s: number): number {
    const table = this.table ?? this.fill();
    const i = s - this.from;
    return i <= 0 ? table[0] : i < table.length ? table[i] : NEVER;
  }

  leastReaching(v: number): number {
    if (v > NEVER) return NEVER;
    const inverse = this.inverse ?? this.invert();
    const i = v - this.least;
    return i <= 0 ? -NEVER : inverse[i < inverse.length ? i : inverse.length - 1];
  }

  private fill(): Int32Array {
    this.table = this.make();
    return this.table;
  }

  /** Entry `v - least` is the least s with `at(s) >= v`; the last entry, for all beyond, the least s with `NEVER`. */
  private invert(): Int32Array {
    const table = this.table ?? this.fill();
    let finite = table.length;
    while (finite > 0 && table[finite - 1] >= NEVER) finite--;
    this.least = table[0];
    const span = finite === 0 ? 0 : table[finite - 1] - this.least + 1;
    const inverse = new Int32Array(span + 1);
    for (let v = 0, i = 0; v < span; v++) {
      while (table[i] < this.least + v) i++;
      inverse[v] = this.from + i;
    }
    inverse[span] = this.from + finite;
    this.inverse = inverse;
    return inverse;
  }
}
