/**
 * Lower bounds of the levels of a model of parts: what every part costs when it has everything for itself, and for levels of lateness what the
 * parts cost together when what is scarce has a price. The latter hold the earlier levels to what a plan has, and count for plans that are no worse there.
 */
import { PriceBound } from './bounds-by-prices.ts';
import { heldTo, type Alone } from './held-to.ts';
import type { Assignment, Model } from './model.ts';
import type { Part } from './parts.ts';

interface Priced {
  /** The values to which the earlier levels are held. */
  readonly earlier: readonly number[];
  readonly by: PriceBound;
}

export class PartBounds {
  /** Counted steps. */
  work = 0;
  private readonly alone: readonly number[];
  private readonly priced: (Priced | null)[];

  constructor(
    private readonly model: Model,
    private readonly parts: readonly Part[],
    private readonly times: Alone,
  ) {
    this.alone = model.levels.map(({ costs }) =>
      costs.reduce((sum, cost) => {
        if (cost.kind === 'late')
          return sum + cost.weight * Math.max(0, times.leastAlone(cost.start) - cost.after);
        if (cost.kind === 'early')
          return sum + cost.weight * Math.max(0, cost.before - model.starts[cost.start].latest);
        return cost.kind === 'choice' && times.isForced(cost.when) ? sum + cost.weight : sum;
      }, 0),
    );
    this.priced = model.levels.map(() => null);
  }

  /** For each level a value that no plan betters that has the earlier levels' values, or better ones. */
  of(values: readonly number[]): number[] {
    return this.alone.map((alone, k) => {
      const priced = this.priced[k];
      return priced !== null && counts(priced, values) ? Math.max(alone, priced.by.bound) : alone;
    });
  }

  /** Raises the bounds of the levels of lateness that are open in a plan, until so many steps of `work` are done. */
  raise({ starts }: Assignment, values: readonly number[], until: number, stop: () => boolean): void {
    const { model } = this;
    const end = starts.reduce((last, at) => Math.max(last, at), -Infinity);
    this.of(values).forEach((bound, k) => {
      if (bound >= values[k] || this.work >= until || stop()) return;
      if (!model.levels[k].costs.some(({ kind }) => kind === 'late')) return;
      let priced = this.priced[k];
      if (priced === null || !counts(priced, values)) {
        const held = k === 0 ? model : heldTo(model, k, values, this.times);
        priced = { earlier: values.slice(0, k), by: new PriceBound(held, this.parts, k, end) };
        this.priced[k] = priced;
        this.work += priced.by.work;
      }
      const before = priced.by.work;
      priced.by.raise(values[k], before + Math.max(0, until - this.work), stop);
      this.work += priced.by.work - before;
    });
  }
}

const counts = ({ earlier }: Priced, values: readonly number[]): boolean =>
  earlier.every((value, k) => values[k] <= value);
