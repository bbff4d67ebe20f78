/**
 * A move of a search by parts carried out: its parts are taken up and laid down anew, or back where they were; undone as soon as what it leads to
 * must cost too much, by what each part costs at least beside what stands.
 */
import type { PlaceWishes } from './choosing.ts';
import { NEVER } from './model.ts';
import type { PartMove } from './part-moves.ts';
import type { Part } from './parts.ts';
import type { Placement, Placer } from './placer.ts';

type Values = Float64Array;

export class LayAnew {
  /** For each start of the parts that are not laid down a time before which it cannot be. */
  private readonly from: Int32Array;
  /** The parts that are not laid down, in the order in which they will be, and those that have been. */
  private left: number[] = [];
  private laid: number[] = [];
  /** By part, what it costs at least beside what stands, or alone; before the move; and how it is to be laid down. */
  private readonly least: readonly Values[];
  private readonly before: readonly Values[];
  private readonly wishes: PlaceWishes[];
  private isKept: (values: Values) => boolean = () => false;
  private readonly sum: Values;

  /** @param place lays a part down; false when it found no place, or none that costs no more than it may */
  constructor(
    private readonly placer: Placer,
    private readonly parts: readonly Part[],
    private readonly place: (part: number, wishes: PlaceWishes) => boolean,
  ) {
    const levels = placer.tally.values.length;
    this.from = new Int32Array(placer.least.length);
    this.least = parts.map(() => new Float64Array(levels));
    this.before = parts.map(() => new Float64Array(levels));
    this.wishes = parts.map(() => ({}));
    this.sum = new Float64Array(levels);
  }

  /**
   * False when the move was undone.
   * @param isKept whether the move may lead to these values; if not, then to no higher ones
   */
  attempt({ order, anew = order.length, wishes }: PartMove, isKept: (values: Values) => boolean): boolean {
    const { placer, parts } = this;
    this.isKept = isKept;
    for (const p of order) placer.tally.share(p, this.before[p]);
    const old = order.map((p) => placer.remove(p));
    this.left = [...order];
    this.laid = [];
    for (const p of order) {
      this.least[p].set(placer.costsAlone[p]);
      for (const s of parts[p].starts) this.from[s] = wishes.floor?.[s] ?? -NEVER;
    }
    for (const p of order)
      this.wishes[p] = {
        ...wishes,
        floor: this.from,
        mayCost: (own) => this.mayCost(own, p),
        given: placer.tooDear(p, this.least[p].slice(), (own) => this.mayCost(own, p)),
      };
    const isPushing = anew < order.length;
    let isDone = this.lay(anew, isPushing);
    if (isDone && isPushing) {
      this.layBack(old);
      isDone = this.lay(this.left.length, false);
    }
    if (isDone && isKept(placer.tally.values)) return true;
    for (const p of this.laid) placer.remove(p);
    for (const placement of old) placer.restore(placement);
    return false;
  }

  /** Whether one part may cost so much, with what stands and what the others cost at least. */
  private mayCost(own: Values, part: number): boolean {
    const { sum } = this;
    sum.set(this.placer.tally.values);
    addTo(sum, own);
    for (const p of this.left) if (p !== part) addTo(sum, this.least[p]);
    return this.isKept(sum);
  }

  /** Whether a part that is not laid down has a place beside what stands at which the whole may cost so much. */
  private hasPlace(p: number): boolean {
    const { placer, least } = this;
    if (!placer.leastBeside(p, this.wishes[p], least[p])) return false;
    for (const s of this.parts[p].starts) this.from[s] = placer.least[s];
    return this.mayCost(least[p], p);
  }

  /**
   * Lays the first so many down, one after the other.
   * @param isForLess only when one of them can cost less than it did
   */
  private lay(count: number, isForLess: boolean): boolean {
    const { left, least, before } = this;
    if (isForLess) {
      const first = left.slice(0, count);
      const canBeLess = (p: number): boolean =>
        this.hasPlace(p) && least[p].some((cost, k) => cost < before[p][k]);
      if (!first.some(canBeLess)) return false;
    }
    for (let n = count; n > 0; n--) {
      for (let k = n - 1; k > 0; k--) if (!this.hasPlace(left[k])) return false;
      if (!this.place(left[0], this.wishes[left[0]])) return false;
      this.laid.push(left.shift()!);
    }
    return true;
  }

  /** Puts back where it was what still fits there. */
  private layBack(old: readonly Placement[]): void {
    for (const placement of old) {
      const at = this.left.indexOf(placement.part);
      if (at < 0 || !this.placer.putBack(placement)) continue;
      this.laid.push(placement.part);
      this.left.splice(at, 1);
    }
  }
}

function addTo(sum: Values, costs: Values): void {
  for (let k = 0; k < sum.length; k++) sum[k] += costs[k];
}
