/**
 * A plan that stood, laid down in a model that has changed since: parts that it still fits stay exactly where they were; the others, and those
 * that must give way to them, are placed anew, no earlier than they were and with the same choices where that can be.
 */
import type { PlaceWishes } from './choosing.ts';
import { compare } from './compare-levels.ts';
import type { Assignment, Model } from './model.ts';
import type { Part } from './parts.ts';
import type { Placement, Placer } from './placer.ts';

/** Parts that the plan does not fit go behind the others; or before them; or all are placed in the order of time, each pushing those after it. */
export const WAYS = ['behind', 'before', 'in time'] as const;
export type Way = (typeof WAYS)[number];

export class Repair {
  private readonly wishes: PlaceWishes;
  /** The parts in the order in which they began. */
  private readonly inTime: readonly number[];

  constructor(
    private readonly model: Model,
    private readonly parts: readonly Part[],
    private readonly placer: Placer,
    private readonly stood: Assignment,
  ) {
    this.wishes = {
      floor: Int32Array.from(stood.starts),
      prefer: Int8Array.from(stood.choices, (choice) => (choice ? 1 : 0)),
      isStrict: true,
    };
    const begins = parts.map(({ starts }) => starts.reduce((t, s) => Math.min(t, stood.starts[s]), Infinity));
    this.inTime = parts.map((_, p) => p).sort((a, b) => begins[a] - begins[b] || a - b);
  }

  /** Lays all parts down in one of the ways, shows them to `look` and takes them up again. False when some part found no place. */
  attempt(way: Way, look: () => void): boolean {
    const { placer } = this;
    const placed: number[] = [];
    const isDone = this.layDown(way, placed);
    if (isDone) look();
    for (const p of placed) placer.remove(p);
    return isDone;
  }

  private layDown(way: Way, placed: number[]): boolean {
    if (way === 'in time') return this.placeAll(this.inTime, placed);
    const misfits = way === 'before' ? this.inTime.filter((p) => this.misses(p)) : [];
    if (!this.placeAll(misfits, placed)) return false;
    const pushed: number[] = [];
    for (const p of this.inTime) if (!misfits.includes(p)) (this.keep(p) ? placed : pushed).push(p);
    return this.placeAll(pushed, placed);
  }

  /** Whether a start of the part can no longer be where it was, whatever the others do. */
  private misses(part: number): boolean {
    const { stood, model } = this;
    return this.parts[part].starts.some(
      (s) => stood.starts[s] < model.starts[s].earliest || stood.starts[s] > model.starts[s].latest,
    );
  }

  /** Whether these times are others than those that stood. What the plan did not know it has at its earliest. */
  isMoved(starts: ArrayLike<number>, part: number): boolean {
    const { stood, model } = this;
    return this.parts[part].starts.some(
      (s) => starts[s] !== stood.starts[s] && stood.starts[s] !== model.starts[s].earliest,
    );
  }

  /** Puts a part where it was; choices that no longer go together are made anew. False when it cannot stay. */
  private keep(part: number): boolean {
    const { placer } = this;
    if (placer.putAt(part, this.stood)) return true;
    if (this.misses(part) || !placer.place(part, this.wishes)) return false;
    if (!this.isMoved(placer.least, part)) return true;
    placer.remove(part);
    return false;
  }

  /** Places parts anew, those that cannot give way first. */
  private placeAll(list: readonly number[], placed: number[]): boolean {
    const { placer } = this;
    const order = [...list].sort((a, b) => Number(placer.isFixed(b)) - Number(placer.isFixed(a)));
    return order.every((p) => {
      const isPlaced = this.placeAsBefore(p) || this.placeInsteadOfOne(p, placed);
      if (isPlaced) placed.push(p);
      return isPlaced;
    });
  }

  private placeAsBefore(part: number): boolean {
    const { placer, wishes } = this;
    return (
      placer.place(part, wishes) ||
      placer.place(part, { ...wishes, isStrict: false }) ||
      placer.place(part, { prefer: wishes.prefer })
    );
  }

  /** Whether the part has a place at all: where not, that is told by one attempt instead of three. */
  private hasPlace(part: number): boolean {
    const { placer, wishes } = this;
    const isPlaced = placer.place(part, { prefer: wishes.prefer });
    if (isPlaced) placer.remove(part);
    return isPlaced;
  }

  /** Takes one other part up, places this one, and the other behind it: whichever costs least. */
  private placeInsteadOfOne(part: number, placed: readonly number[]): boolean {
    const { placer } = this;
    let best: {
      readonly values: Float64Array;
      readonly placements: readonly Placement[];
      readonly other: number;
    } | null = null;
    for (const other of placed) {
      if (placer.isFixed(other)) continue;
      const old = placer.remove(other);
      if (this.hasPlace(part) && this.placeAsBefore(part)) {
        if (this.placeAsBefore(other)) {
          const values = placer.tally.values.slice();
          const otherPlacement = placer.remove(other);
          const placements = [placer.remove(part), otherPlacement];
          if (best === null || compare(values, best.values) < 0) best = { values, placements, other };
        } else placer.remove(part);
      }
      placer.restore(old);
    }
    if (best === null) return false;
    placer.remove(best.other);
    for (const placement of best.placements) placer.restore(placement);
    return true;
  }
}
