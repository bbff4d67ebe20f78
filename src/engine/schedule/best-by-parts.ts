/** The best plan of a search by parts, and how it comes to lie in the placer again. */
import { compare } from './compare-levels.ts';
import type { Assignment } from './model.ts';
import type { Part } from './parts.ts';
import type { Placer } from './placer.ts';

export interface ByParts {
  readonly assignment: Assignment;
  readonly values: readonly number[];
}

export class BestByParts {
  found: ByParts | null = null;
  /** Another plan, taken in place of the best where that has not become better; until then it is not gone on from. */
  private reserve: ByParts | null = null;

  constructor(
    private readonly placer: Placer,
    private readonly parts: readonly Part[],
  ) {}

  private get values(): Float64Array {
    return this.placer.tally.values;
  }

  /** Keeps what is laid down. */
  keep(): ByParts {
    return (this.found = this.laidDown());
  }

  private laidDown(): ByParts {
    return { assignment: this.placer.assignment(), values: [...this.values] };
  }

  /** Keeps what is laid down in reserve when it is better than what is there. */
  keepInReserve(): void {
    if (this.reserve === null || compare(this.values, this.reserve.values) < 0)
      this.reserve = this.laidDown();
  }

  /** Whether what is in reserve is better. */
  isWorseThanReserve({ values }: ByParts): boolean {
    return this.reserve !== null && compare(this.reserve.values, values) < 0;
  }

  /** Takes what is in reserve as the best, if it is; whether it was. */
  takeReserve(): boolean {
    const { reserve, found } = this;
    this.reserve = null;
    if (reserve === null || (found !== null && compare(reserve.values, found.values) >= 0)) return false;
    this.found = reserve;
    return true;
  }

  /** Keeps what is laid down when it is better than the best; whether it was. */
  keepIfBetter(): boolean {
    const isBetter = this.found === null || compare(this.values, this.found.values) < 0;
    if (isBetter) this.keep();
    return isBetter;
  }

  /** Lays everything down as in the best plan, there being nothing. */
  lay(): void {
    const { starts, choices } = this.found!.assignment;
    this.parts.forEach((each, part) =>
      this.placer.restore({
        part,
        starts: Int32Array.from(each.starts, (s) => starts[s]),
        choices: Int8Array.from(each.choices, (c) => (choices[c] ? 1 : 0)),
      }),
    );
  }

  /** Takes everything up and lays it down as in the best plan. */
  goBack(): void {
    if (compare(this.values, this.found!.values) === 0) return;
    this.parts.forEach((_, part) => this.placer.remove(part));
    this.lay();
  }
}
