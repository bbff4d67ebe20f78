/**
 * Plans built part by part: what stood is laid down again where that can be, or every part is placed at its earliest behind those before it, in the
 * order of what is due first; while something is late or costs otherwise before the last level, all once more with that placed earlier in the order.
 *
 * Literature: Joslin and Clements 1999 (what squeaks goes first).
 */
import type { BestByParts, ByParts } from './best-by-parts.ts';
import { evaluate } from './evaluate.ts';
import type { Assignment, Model } from './model.ts';
import type { Part } from './parts.ts';
import type { Placer } from './placer.ts';
import { Repair, WAYS } from './repair.ts';

/** How often all is built anew because something costs before the last level, and the share of all parts by which such a one moves up then. */
const REBUILDINGS = 60;
const MOVING_UP = 1 / 6;

export class PartBuilder {
  /**
   * @param due when each part is due
   * @param place lays a part down; false when it found no place
   * @param isRebuiltFor whether all is built anew while a level costs something
   */
  constructor(
    private readonly model: Model,
    private readonly parts: readonly Part[],
    private readonly placer: Placer,
    private readonly best: BestByParts,
    private readonly due: ArrayLike<number>,
    private readonly place: (part: number) => boolean,
    private readonly isRebuiltFor: (level: number) => boolean,
  ) {}

  /**
   * A first plan, laid down; false when none was found. Of a hint the parts that keep every rule stay as they are, the others are placed anew behind
   * them, no earlier than they were where that can be: what that costs moves win back with less of the plan moved than by any other beginning.
   * @param hints the first is begun from, the others are in reserve
   * @param early called with a plan that is worth showing while others are still tried
   */
  construct([hint, ...others]: readonly Assignment[], early: (found: ByParts) => void): boolean {
    const { placer, best } = this;
    if (placer.isHopeless) return false;
    for (const other of others) this.repair(other, () => best.keepInReserve());
    if (hint) this.repair(hint, () => void best.keepIfBetter(), early);
    if (best.found === null) best.takeReserve();
    if (best.found === null) this.buildAfresh();
    if (best.found === null) return false;
    best.lay();
    return true;
  }

  /** Shows each way of repair to `keep`, none more when nothing had to move; the first is told early when it costs nothing more at the first level. */
  private repair(hint: Assignment, keep: () => void, early?: (found: ByParts) => void): void {
    const { placer, parts, model, best } = this;
    const repair = new Repair(model, parts, placer, hint);
    for (const way of WAYS) {
      let isMoved = true;
      const isDone = repair.attempt(way, () => {
        isMoved = parts.some((_, p) => repair.isMoved(placer.least, p));
        keep();
      });
      if (!isMoved) return;
      const { found } = best;
      if (way === WAYS[0] && isDone && found !== null && !this.isFirstWorse(found, hint)) early?.(found);
    }
  }

  /** Whether the first level has become worse than it was in the hint. */
  private isFirstWorse({ values }: ByParts, hint: Assignment): boolean {
    const [first] = this.model.levels;
    return first !== undefined && values[0] > evaluate(first, hint);
  }

  /** Places all parts in the order of their dates; one that finds no place goes first in the next attempt. */
  private buildAfresh(): void {
    const { placer, parts } = this;
    let order = this.byDate();
    for (let attempt = 0; attempt <= parts.length; attempt++) {
      const failed = this.layInOrder(order);
      if (failed < 0) {
        this.best.keepIfBetter();
        for (const p of order) placer.remove(p);
      }
      if (failed < 0 || failed === order[0]) return;
      order = [failed, ...order.filter((p) => p !== failed)];
    }
  }

  /** What cannot move first, then in the order of the dates. */
  private byDate(): number[] {
    const { due } = this;
    const isFixed = this.parts.map((_, p) => Number(this.placer.isFixed(p)));
    return this.parts.map((_, p) => p).sort((a, b) => isFixed[b] - isFixed[a] || due[a] - due[b] || a - b);
  }

  /** Places all parts, each at its earliest behind those before it. The part that found no place, and then none is there; or -1. */
  private layInOrder(order: readonly number[]): number {
    const at = order.findIndex((p) => !this.place(p));
    if (at < 0) return at;
    for (const p of order.slice(0, at)) this.placer.remove(p);
    return order[at];
  }

  /**
   * Builds all anew while the level of the dates or another before the last is open, what costs there in one plan earlier in the order of the next: soon those that wait for
   * what is scarcest go first. Ends with the best plan laid down.
   * @param bounds for each level a value below which no plan is needed
   * @param better called with each better plan
   */
  rebuild(
    bounds: readonly number[],
    until: number,
    stop: () => boolean,
    better: (found: ByParts) => void,
  ): void {
    const { placer, best } = this;
    const { tally } = placer;
    const openIn = (values: ArrayLike<number>): number =>
      bounds.findIndex((bound, k) => this.isRebuiltFor(k) && values[k] > bound);
    const share = new Float64Array(bounds.length);
    const step = Math.ceil(this.parts.length * MOVING_UP);
    let order = this.byDate();
    for (const p of order) placer.remove(p);
    for (
      let k = 0;
      k < REBUILDINGS && openIn(best.found!.values) >= 0 && placer.work < until && !stop();
      k++
    ) {
      const failed = this.layInOrder(order);
      if (failed >= 0) {
        order = [failed, ...order.filter((p) => p !== failed)];
        continue;
      }
      if (best.keepIfBetter()) better(best.found!);
      const next = [...order];
      const open = openIn(tally.values);
      for (const p of order) {
        tally.share(p, share);
        if (!(share[open] > 0)) continue;
        const at = next.indexOf(p);
        next.splice(at, 1);
        next.splice(Math.max(0, at - step), 0, p);
      }
      for (const p of order) placer.remove(p);
      if (next.every((p, k) => p === order[k])) break;
      order = next;
    }
    best.lay();
  }
}
