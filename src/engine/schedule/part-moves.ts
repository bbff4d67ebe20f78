/**
 * Which parts a search by parts takes up next, in what order it lays them down again, and with what wishes. Literature: Ropke and Pisinger
 * 2006 (what is related is removed together).
 */
import type { Chance } from './chance.ts';
import type { PlaceWishes } from './choosing.ts';
import { NEVER, type Assignment, type Cost, type Time } from './model.ts';
import { partOfStarts, type Part } from './parts.ts';
import type { Placer } from './placer.ts';

export interface PartMove {
  /** The parts, in the order in which they are laid down. */
  readonly order: readonly number[];
  /** So many go down anew; of the others those that still fit go back where they were, the rest behind. All go down anew when absent. */
  readonly anew?: number;
  /** Good until the next move is asked for. */
  readonly wishes: PlaceWishes;
}

/** A plan that stood, as wishes, and the level at which it costs to leave it. */
interface Home {
  readonly level: number;
  readonly floor: Int32Array;
  readonly prefer: Int8Array;
}

/** The share of moves that let a start wait. */
const WAITING = 0.3;
/** How many parts may push others, and how many may be pushed. */
const MOST_FIRST = 2;
const MOST_PUSHED = 13;

export class PartMoves {
  /** When each part is due at the latest without cost; and that less its least completion when alone. */
  readonly due: Float64Array;
  private readonly slack: Float64Array;
  /** Wishes not to begin before a time; none: -NEVER. */
  private readonly floor: Int32Array;
  private readonly waiting: number[] = [];
  private home: Home | null = null;

  /** @param dates the costs of the level of the dates */
  constructor(
    private readonly parts: readonly Part[],
    private readonly placer: Placer,
    private readonly chance: Chance,
    dates: readonly Cost[],
  ) {
    this.floor = new Int32Array(placer.least.length).fill(-NEVER);
    const partOf = partOfStarts(parts, placer.least.length);
    this.due = new Float64Array(parts.length).fill(Infinity);
    this.slack = new Float64Array(parts.length).fill(Infinity);
    for (const cost of dates) {
      if (cost.kind !== 'late') continue;
      const p = partOf[cost.start];
      this.due[p] = Math.min(this.due[p], cost.after);
      this.slack[p] = Math.min(this.slack[p], cost.after - placer.leastAlone(cost.start));
    }
  }

  /** Some parts in another order, some of them later than they must: what waits may let others by. */
  reorder(): PartMove {
    const { chance, placer } = this;
    const floor = this.noFloor();
    const chosen = this.choose();
    const daring = chance.next() < 0.5 ? 0 : 0.1 * chance.next();
    if (chance.next() >= WAITING) return { order: this.orderOf(chosen), wishes: { daring } };
    const { starts } = this.parts[chosen[chance.below(chosen.length)]];
    const waiting = starts[chance.next() < 0.5 ? 0 : chance.below(starts.length)];
    const span = Math.max(...starts.map((s) => placer.least[s])) - placer.least[waiting];
    this.waitUntil(waiting, placer.least[waiting] + 1 + Math.floor(span * chance.next() * chance.next()));
    return { order: this.orderOf(chosen), wishes: { daring, floor } };
  }

  /** What keeps a bucket open goes to a later one that is open anyway, or finds its own; null when there is no such bucket. */
  gather(): PartMove | null {
    const { chance } = this;
    const floor = this.noFloor();
    const lonely = this.placer.tally.lonelyBucket(1 + chance.below(4), (n) => chance.below(n));
    if (lonely === null) return null;
    if (chance.next() < 0.8) for (const { start } of lonely.starts) this.waitUntil(start, lonely.next);
    const chosen = [...new Set(lonely.starts.map(({ part }) => part))];
    if (chance.next() < 0.3) chosen.push(...this.choose().filter((p) => !chosen.includes(p)));
    return { order: this.orderOf(chosen), wishes: { floor } };
  }

  /** One part or two where they cost least beside few; those about them stay where they were or go behind, as they fit. */
  push(): PartMove {
    const { chance, placer } = this;
    const first = this.choose().slice(0, 1 + chance.below(MOST_FIRST));
    const [from, until] = this.spanOf(first[0]);
    const near = placer.meeting(first[0], from - (until - from) * chance.next(), until, false);
    return this.pushing(first, near, placer.least, {});
  }

  /** From now on there is a plan to go home to. @param level the level at which it costs to leave it */
  stood({ starts, choices }: Assignment, level: number): void {
    this.home = { level, floor: Int32Array.from(starts), prefer: Int8Array.from(choices, Number) };
  }

  get hasHome(): boolean {
    return this.home !== null;
  }

  /** One part that has left where it stood, or two, back there or as near as they fit; those that are there now stay or make room. Null when all are at home. */
  goHome(): PartMove | null {
    const { chance, placer, home } = this;
    const moved = home && this.costlyAt(home.level);
    if (home === null || moved === null) return null;
    const { floor, prefer } = home;
    const [from, until] = this.spanOf(moved, floor);
    const near = placer.meeting(moved, from - (until - from) * chance.next(), until, false);
    const other = near.length > 0 && chance.next() < 0.5 ? near[chance.below(near.length)] : moved;
    const wishes = { floor, prefer, isStrict: chance.next() < 0.5 };
    return this.pushing([...new Set([moved, other])], near, floor, wishes);
  }

  /** Some parts first, and a few of those near them in the order of time. */
  private pushing(
    first: readonly number[],
    near: readonly number[],
    times: Int32Array,
    wishes: PlaceWishes,
  ): PartMove {
    const { chance, parts } = this;
    const others = near.filter((p) => !first.includes(p));
    const most = 2 + chance.below(MOST_PUSHED - 1);
    while (others.length > most) others.splice(chance.below(others.length), 1);
    const begins = new Float64Array(parts.length);
    for (const p of others) [begins[p]] = this.spanOf(p, times);
    others.sort((a, b) => begins[a] - begins[b] || a - b);
    return { order: [...first, ...others], anew: first.length, wishes };
  }

  /** From when until when the starts of a part are. */
  private spanOf(part: number, times = this.placer.least): [Time, Time] {
    let from = Infinity;
    let until = -Infinity;
    for (const s of this.parts[part].starts) {
      from = Math.min(from, times[s]);
      until = Math.max(until, times[s]);
    }
    return [from, until];
  }

  private noFloor(): Int32Array {
    for (const s of this.waiting) this.floor[s] = -NEVER;
    this.waiting.length = 0;
    return this.floor;
  }

  private waitUntil(start: number, time: number): void {
    this.floor[start] = time;
    this.waiting.push(start);
  }

  /** One that costs something, most of the time, and some that stand about it in time. */
  private choose(): number[] {
    const { parts, placer, chance } = this;
    const first = this.costly() ?? chance.below(parts.length);
    const size = 1 + chance.below(Math.min(5, parts.length - 1));
    const [from, until] = this.spanOf(first);
    const reach = (until - from) * chance.next();
    const near = placer.meeting(first, from - reach, until, chance.next() < 0.5);
    const chosen = [first];
    while (chosen.length < size && near.length > 0) {
      const [other] = near.splice(chance.below(near.length), 1);
      chosen.push(other);
    }
    return chosen;
  }

  /** Most of the time a part that costs at the first level that costs anything, one that costs more sooner. */
  private costly(): number | null {
    const level = this.placer.tally.values.findIndex((value) => value > 0);
    return level < 0 || this.chance.next() >= 0.7 ? null : this.costlyAt(level);
  }

  /** A part that costs at a level, one that costs more sooner. */
  private costlyAt(level: number): number | null {
    const { parts, placer, chance } = this;
    const share = new Float64Array(placer.tally.values.length);
    let sum = 0;
    let found: number | null = null;
    for (let p = 0; p < parts.length; p++) {
      placer.tally.share(p, share);
      if (share[level] <= 0) continue;
      sum += share[level];
      if (chance.next() * sum < share[level]) found = p;
    }
    return found;
  }

  private orderOf(chosen: readonly number[]): number[] {
    const { chance } = this;
    const kind = chance.next();
    if (kind < 0.4) return [...chosen];
    const keys = new Map(
      chosen.map((p) => [p, kind < 0.6 ? this.due[p] : kind < 0.75 ? this.slack[p] : chance.next()]),
    );
    return [...chosen].sort((a, b) => keys.get(a)! - keys.get(b)! || a - b);
  }
}
