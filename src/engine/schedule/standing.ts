/** Where the solver stands: the best schedule so far, its values, and what is proved of each level. Every change is told. */
import { evaluate } from './evaluate.ts';
import type { Assignment, LevelOutcome, Model } from './model.ts';

export class Standing {
  best: Assignment | null = null;
  /** The best schedule's value of each level. */
  values: readonly number[] = [];
  readonly bounds: number[];
  readonly proven: boolean[];

  constructor(
    private readonly model: Model,
    private readonly tell: () => void,
  ) {
    this.bounds = model.levels.map(() => 0);
    this.proven = model.levels.map(() => false);
  }

  /** Keeps a schedule if it is better, and says whether. */
  keep(found: Assignment): boolean {
    const values = this.model.levels.map((level) => evaluate(level, found));
    const k = this.best === null ? 0 : values.findIndex((value, level) => value !== this.values[level]);
    if (this.best !== null && (k < 0 || values[k] > this.values[k])) return false;
    this.best = found;
    this.values = values;
    for (let later = k + 1; later < values.length; later++) {
      this.bounds[later] = 0;
      this.proven[later] = false;
    }
    this.tell();
    return true;
  }

  /** Nothing better than `bound` is possible in a level, under the values of the earlier ones. */
  raise(k: number, bound: number): void {
    if (bound <= this.bounds[k]) return;
    this.bounds[k] = bound;
    this.tell();
  }

  prove(k: number): void {
    this.bounds[k] = this.values[k];
    this.proven[k] = true;
    this.tell();
  }

  levels(): LevelOutcome[] {
    return this.model.levels.map((level, k) => ({
      name: level.name,
      value: this.values[k],
      bound: this.proven[k] ? this.values[k] : Math.min(this.bounds[k], this.values[k]),
      proven: this.proven[k],
    }));
  }
}
