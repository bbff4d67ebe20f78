/**
 * A plan built and bettered part by part: every part placed at its earliest behind those before it, in the order of what is due first; while
 * something is late, all once more with what is late placed earlier in the order; then again and again a few parts are taken up, a late one and
 * some that stand in its way, and laid down in another order. Kept when the levels, compared in order, are no worse.
 *
 * Literature: Joslin and Clements 1999 (what squeaks goes first), Shaw 1998 (large neighbourhoods), Ropke and Pisinger 2006 (related
 * removal), Dueck 1993 (record-to-record travel).
 */
import type { PlaceWishes } from './choosing.ts';
import { compare } from './compare-levels.ts';
import { NEVER, type Assignment, type Model } from './model.ts';
import { partsOf, type Part } from './parts.ts';
import { Placer, type Placement } from './placer.ts';

export interface ByParts {
  readonly assignment: Assignment;
  readonly values: readonly number[];
}

/** Moves without success, a part, before the search gives up. */
const PATIENCE = 60;
/** The share of moves that gather steps into buckets. */
const GATHERING = 0.4;
/** The share of moves that let a start wait. */
const WAITING = 0.3;
/** The share of the work in which only the first level counts. */
const WANDERING = 0.5;
/** How often all is built anew because something is late, and the share of all parts by which a late one moves up then. */
const REBUILDINGS = 60;
const MOVING_UP = 1 / 6;

export class PartSearch {
  private readonly placer: Placer;
  /** The last allowed moment without cost, less the least completion when alone: the part's slack; and its due time. */
  private readonly slack: Float64Array;
  private readonly due: Float64Array;
  private readonly floor: Int32Array;
  /** The level of the dates; none: -1. */
  private readonly dated: number;
  private state: number;
  /** How many of the levels must not get worse in a move. */
  private counted = 0;
  private best: ByParts | null = null;
  moves = 0;

  constructor(
    private readonly model: Model,
    seed: number,
    readonly parts: readonly Part[] = partsOf(model),
  ) {
    this.state = (seed | 0) ^ 0x9e3779b9 || 1;
    this.floor = new Int32Array(model.starts.length).fill(-NEVER);
    this.placer = new Placer(model, this.parts, () => this.random());
    const partOf = new Int32Array(model.starts.length);
    this.parts.forEach(({ starts }, p) => starts.forEach((s) => (partOf[s] = p)));
    this.due = new Float64Array(this.parts.length).fill(Infinity);
    this.slack = new Float64Array(this.parts.length).fill(Infinity);
    this.dated = model.levels.findIndex((level) => level.costs.some((cost) => cost.kind === 'late'));
    for (const cost of model.levels[this.dated]?.costs ?? []) {
      if (cost.kind !== 'late') continue;
      const p = partOf[cost.start];
      this.due[p] = Math.min(this.due[p], cost.after);
      this.slack[p] = Math.min(this.slack[p], cost.after - this.placer.leastAlone(cost.start));
    }
  }

  get work(): number {
    return this.placer.work;
  }

  get values(): Float64Array {
    return this.placer.tally.values;
  }

  get found(): ByParts | null {
    return this.best;
  }

  private random(): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x;
    return (x >>> 0) / 4294967296;
  }

  private below(n: number): number {
    return Math.floor(this.random() * n);
  }

  /** A lower bound of each level: what every part costs when it has everything for itself. Buckets count nothing. */
  bounds(): number[] {
    const { placer } = this;
    return this.model.levels.map(({ costs }) =>
      costs.reduce((sum, cost) => {
        if (cost.kind === 'late')
          return sum + cost.weight * Math.max(0, placer.leastAlone(cost.start) - cost.after);
        if (cost.kind === 'early')
          return sum + cost.weight * Math.max(0, cost.before - this.model.starts[cost.start].latest);
        return cost.kind === 'choice' && placer.isForced(cost.when) ? sum + cost.weight : sum;
      }, 0),
    );
  }

  /**
   * A first plan; false when none was found. Parts of the hint that keep every rule stay as they are, the others are placed anew behind
   * them, no earlier than they were where that can be.
   */
  construct(hint?: Assignment): boolean {
    if (this.placer.isHopeless) return false;
    const isKept = hint !== undefined && this.rebuild(hint, 'behind') && !this.moved(hint);
    if (hint !== undefined && !isKept) {
      this.rebuild(hint, 'in time');
      this.rebuild(hint, 'before');
    }
    if (!isKept) this.buildAfresh();
    if (this.best === null) return false;
    this.layBest();
    return true;
  }

  /** Places all parts in the order of their dates; one that finds no place goes first in the next attempt. */
  private buildAfresh(): void {
    const { placer, parts } = this;
    let order = this.byDate();
    for (let attempt = 0; attempt <= parts.length; attempt++) {
      const failed = this.layInOrder(order);
      if (failed < 0) {
        this.keepIfBetter();
        for (const p of order) placer.remove(p);
      }
      if (failed < 0 || failed === order[0]) return;
      order = [failed, ...order.filter((p) => p !== failed)];
    }
  }

  /** What cannot move first, then in the order of the dates. */
  private byDate(): number[] {
    const isFixed = this.parts.map((_, p) => Number(this.placer.isFixed(p)));
    return this.parts
      .map((_, p) => p)
      .sort((a, b) => isFixed[b] - isFixed[a] || this.due[a] - this.due[b] || a - b);
  }

  /** Places all parts, each at its earliest behind those before it. The part that found no place, and then none is there; or -1. */
  private layInOrder(order: readonly number[]): number {
    const { placer } = this;
    const at = order.findIndex((p) => !placer.place(p));
    if (at < 0) return at;
    for (const p of order.slice(0, at)) placer.remove(p);
    return order[at];
  }

  /**
   * Builds all anew, what came late in one plan earlier in the order of the next: soon those that wait for what is scarcest go first.
   * Ends with the best plan laid down.
   */
  private rebuildByWhatIsLate(
    bound: number,
    until: number,
    stop: () => boolean,
    better: (found: ByParts) => void,
  ): void {
    const { placer, dated } = this;
    const share = new Float64Array(this.values.length);
    const step = Math.ceil(this.parts.length * MOVING_UP);
    let order = this.byDate();
    for (const p of order) placer.remove(p);
    for (
      let k = 0;
      k < REBUILDINGS && this.best!.values[dated] > bound && placer.work < until && !stop();
      k++
    ) {
      const failed = this.layInOrder(order);
      if (failed >= 0) {
        order = [failed, ...order.filter((p) => p !== failed)];
        continue;
      }
      const before = this.best;
      this.keepIfBetter();
      if (this.best !== before) better(this.best!);
      const next = [...order];
      for (const p of order) {
        placer.tally.share(p, share);
        if (share[dated] <= 0) continue;
        const at = next.indexOf(p);
        next.splice(at, 1);
        next.splice(Math.max(0, at - step), 0, p);
      }
      for (const p of order) placer.remove(p);
      order = next;
    }
    this.layBest();
  }

  /**
   * Lays the hint down, in one of three ways: parts that it does not fit go behind the others; or before them; or all are placed in the
   * order of time, so that each pushes those after it.
   */
  private rebuild(hint: Assignment, way: 'behind' | 'before' | 'in time'): boolean {
    const { placer, parts, model } = this;
    const begins = parts.map(({ starts }) => Math.min(...starts.map((s) => hint.starts[s])));
    const all = parts.map((_, p) => p).sort((a, b) => begins[a] - begins[b] || a - b);
    const placed: number[] = [];
    const misses = (p: number): boolean =>
      parts[p].starts.some(
        (s) => hint.starts[s] < model.starts[s].earliest || hint.starts[s] > model.starts[s].latest,
      );
    const first = way === 'behind' ? [] : all.filter(misses);
    const rest = all.filter((p) => !first.includes(p));
    let isDone = this.placeLike(hint, first, placed);
    if (isDone) {
      const broken = way === 'in time' ? rest : rest.filter((p) => !this.keepAs(hint, p));
      placed.push(...rest.filter((p) => !broken.includes(p)));
      isDone = this.placeLike(hint, broken, placed);
    }
    if (isDone) this.keepIfBetter();
    for (const p of placed) placer.remove(p);
    return isDone;
  }

  /** Whether the best plan is another than the hint, as far as the hint goes. */
  private moved(hint: Assignment): boolean {
    const { starts } = this.best!.assignment;
    return starts.some((at, s) => at !== hint.starts[s] && hint.starts[s] !== this.model.starts[s].earliest);
  }

  /** Puts a part where the hint has it; choices that the hint leaves unsound are made anew. False when it cannot stay. */
  private keepAs(hint: Assignment, part: number): boolean {
    const { placer, parts, model } = this;
    if (placer.putAt(part, hint)) return true;
    if (!placer.place(part, this.wishesOf(hint))) return false;
    // A hint has at its earliest what it does not know.
    const isMoved = parts[part].starts.some(
      (s) => placer.least[s] !== hint.starts[s] && hint.starts[s] !== model.starts[s].earliest,
    );
    if (isMoved) placer.remove(part);
    return !isMoved;
  }

  private wishesOf(hint: Assignment): PlaceWishes {
    return {
      floor: Int32Array.from(hint.starts),
      prefer: Int8Array.from(hint.choices, (choice) => (choice ? 1 : 0)),
      isStrict: true,
    };
  }

  /** Places parts anew, no earlier than in the hint and with its choices where that can be. */
  private placeLike(hint: Assignment, list: readonly number[], placed: number[]): boolean {
    const { placer } = this;
    const order = [...list].sort((a, b) => Number(placer.isFixed(b)) - Number(placer.isFixed(a)));
    return order.every((p) => {
      const isPlaced = this.placeAsLike(p, hint) || this.placeInsteadOfOne(p, hint, placed);
      if (isPlaced) placed.push(p);
      return isPlaced;
    });
  }

  private placeAsLike(part: number, hint: Assignment): boolean {
    const wishes = this.wishesOf(hint);
    return (
      this.placer.place(part, wishes) ||
      this.placer.place(part, { ...wishes, isStrict: false }) ||
      this.placer.place(part, { prefer: wishes.prefer })
    );
  }

  /** Takes one other part up, places this one, and the other behind it: whichever costs least. */
  private placeInsteadOfOne(part: number, hint: Assignment, placed: readonly number[]): boolean {
    const { placer } = this;
    let best: {
      readonly values: Float64Array;
      readonly placements: readonly Placement[];
      readonly other: number;
    } | null = null;
    for (const other of placed) {
      if (placer.isFixed(other)) continue;
      const old = placer.remove(other);
      if (this.placeAsLike(part, hint)) {
        if (this.placeAsLike(other, hint)) {
          const values = this.values.slice();
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

  private keepIfBetter(): void {
    if (this.best === null || compare(this.values, this.best.values) < 0) this.keep();
  }

  private keep(): void {
    this.best = { assignment: this.placer.assignment(), values: [...this.values] };
  }

  /** Betters the plan until `work` counted steps in all are done. Calls `better` for each improvement. */
  improve(until: number, stop: () => boolean, better: (found: ByParts) => void): void {
    const { placer } = this;
    if (this.best === null) return;
    const bounds = this.bounds();
    const hasBuckets = this.model.levels.some(({ costs }) => costs.some(({ kind }) => kind === 'buckets'));
    const patience = PATIENCE * this.parts.length;
    // At first only the first level that is open counts: a move may cost later levels, which are won back afterwards.
    const wanderUntil = placer.work + (until - placer.work) * WANDERING;
    let isWandering = true;
    let idle = 0;
    if (this.best.values.findIndex((value, k) => value > bounds[k]) === this.dated && this.dated >= 0)
      this.rebuildByWhatIsLate(bounds[this.dated], wanderUntil, stop, better);
    while (placer.work < until && idle++ < patience && !stop()) {
      const open = this.best.values.findIndex((value, k) => value > bounds[k]);
      if (open < 0) return;
      if (isWandering && (open > 0 || idle > patience >> 1 || placer.work > wanderUntil)) {
        isWandering = false;
        this.goBack();
      }
      this.counted = isWandering ? 1 : this.values.length;
      this.moves++;
      placer.work += 5;
      const isGathering = hasBuckets && !isWandering && this.random() < GATHERING;
      if (!(isGathering ? this.gather() : this.reorder())) continue;
      idle = 0;
      this.keep();
      better(this.best);
    }
  }

  /** Takes up the best plan again. */
  private goBack(): void {
    if (compare(this.values, this.best!.values) === 0) return;
    this.parts.forEach((_, part) => this.placer.remove(part));
    this.layBest();
  }

  /** Lays everything down as in the best plan. */
  private layBest(): void {
    const { placer, parts } = this;
    const { starts, choices } = this.best!.assignment;
    parts.forEach((each, part) =>
      placer.restore({
        part,
        starts: Int32Array.from(each.starts, (s) => starts[s]),
        choices: Int8Array.from(each.choices, (c) => (choices[c] ? 1 : 0)),
      }),
    );
  }

  /** Takes parts up and lays them down in another order, some of them later than they must: what waits may let others by. */
  private reorder(): boolean {
    const { floor, placer } = this;
    const chosen = this.choose();
    const daring = this.random() < 0.5 ? 0 : 0.1 * this.random();
    if (this.random() >= WAITING) return this.again(this.orderOf(chosen), { daring });
    const { starts } = this.parts[chosen[this.below(chosen.length)]];
    const waiting = starts[this.random() < 0.5 ? 0 : this.below(starts.length)];
    const span = Math.max(...starts.map((s) => placer.least[s])) - placer.least[waiting];
    floor[waiting] = placer.least[waiting] + 1 + Math.floor(span * this.random() * this.random());
    const isBetter = this.again(this.orderOf(chosen), { daring, floor });
    floor[waiting] = -NEVER;
    return isBetter;
  }

  /** Moves what keeps a bucket open to a later one that is open anyway, or lets it find its own. */
  private gather(): boolean {
    const lonely = this.placer.tally.lonelyBucket(1 + this.below(4), (n) => this.below(n));
    if (lonely === null) return false;
    const { floor } = this;
    if (this.random() < 0.8) for (const { start } of lonely.starts) floor[start] = lonely.next;
    const chosen = [...new Set(lonely.starts.map(({ part }) => part))];
    if (this.random() < 0.3) chosen.push(...this.choose().filter((p) => !chosen.includes(p)));
    const isBetter = this.again(this.orderOf(chosen), { floor });
    for (const { start } of lonely.starts) floor[start] = -NEVER;
    return isBetter;
  }

  /** Lays parts down anew in this order; what is worse is undone. True when it is better than the best. */
  private again(order: readonly number[], wishes: PlaceWishes): boolean {
    const { placer } = this;
    const before = this.values.slice();
    const old: Placement[] = order.map((p) => placer.remove(p));
    let placed = 0;
    while (placed < order.length && placer.place(order[placed], wishes)) placed++;
    if (placed === order.length && compare(this.values.subarray(0, this.counted), before) <= 0)
      return compare(this.values, this.best!.values) < 0;
    for (const p of order.slice(0, placed)) placer.remove(p);
    for (const placement of old) placer.restore(placement);
    return false;
  }

  private choose(): number[] {
    const { parts, placer } = this;
    const share = new Float64Array(this.values.length);
    const pick = (): number => {
      // Half the time one that costs at the first level that costs anything.
      const level = this.values.findIndex((value) => value > 0);
      if (level >= 0 && this.random() < 0.7) {
        let sum = 0;
        let found = -1;
        for (let p = 0; p < parts.length; p++) {
          placer.tally.share(p, share);
          if (share[level] <= 0) continue;
          sum += share[level];
          if (this.random() * sum < share[level]) found = p;
        }
        if (found >= 0) return found;
      }
      return this.below(parts.length);
    };
    const first = pick();
    const size = 1 + this.below(Math.min(5, parts.length - 1));
    const { starts } = parts[first];
    let from = Infinity;
    let until = -Infinity;
    for (const s of starts) {
      from = Math.min(from, placer.least[s]);
      until = Math.max(until, placer.least[s]);
    }
    const reach = (until - from) * this.random();
    const near = placer.meeting(first, from - reach, until, this.random() < 0.5);
    const chosen = [first];
    while (chosen.length < size && near.length > 0) {
      const [other] = near.splice(this.below(near.length), 1);
      chosen.push(other);
    }
    return chosen;
  }

  private orderOf(chosen: readonly number[]): number[] {
    const kind = this.random();
    if (kind < 0.4) return [...chosen];
    const keys = new Map(
      chosen.map((p) => [p, kind < 0.6 ? this.due[p] : kind < 0.75 ? this.slack[p] : this.random()]),
    );
    return [...chosen].sort((a, b) => keys.get(a)! - keys.get(b)! || a - b);
  }
}
