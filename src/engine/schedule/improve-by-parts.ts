/**
 * A plan built and bettered part by part: every part placed at its earliest behind those before it, in the order of what is due first; while
 * something is late or costs otherwise before the last level, all once more with that placed earlier in the order; then again and again a few parts are taken up, a late one and
 * some that stand in its way, and laid down in another order. Kept when the levels, compared in order, are no worse; where the last level alone is
 * open, also when it is little more than in the best plan.
 *
 * Literature: Joslin and Clements 1999 (what squeaks goes first), Shaw 1998 (large neighbourhoods), Dueck 1993 (record-to-record travel).
 */
import { Chance } from './chance.ts';
import { compare } from './compare-levels.ts';
import { evaluate } from './evaluate.ts';
import type { Alone } from './held-to.ts';
import type { Assignment, Model } from './model.ts';
import { PartMoves, type PartMove } from './part-moves.ts';
import { partsOf, type Part } from './parts.ts';
import { Placer, type Placement } from './placer.ts';
import { Repair, WAYS } from './repair.ts';

export interface ByParts {
  readonly assignment: Assignment;
  readonly values: readonly number[];
}

/** Moves without success, a part, before the search gives up. */
const PATIENCE = 60;
/** The share of moves that gather steps into buckets. */
const GATHERING = 0.4;
/** The share of the work in which only the first level counts. */
const WANDERING = 0.5;
/** When the last level alone is open, by how much more than the best a plan may cost; that falls to nothing in so many moves a part, again and again. */
const BEARABLE = 0.005;
const CYCLE = 50;
/** The share of parts that are laid down as late as they can be at the same cost: what waits anyway stands in nobody's way. */
const LATE = 0.8;
/** How often all is built anew because something costs before the last level, and the share of all parts by which such a one moves up then. */
const REBUILDINGS = 60;
const MOVING_UP = 1 / 6;

/** What goes on beside the search. */
export interface Beside {
  /** True ends the search. */
  stop(): boolean;
  /** For each level a value below which no search is needed, in a plan with these values. */
  boundsOf(values: readonly number[]): readonly number[];
  /** An improvement. */
  better(found: ByParts): void;
  /** Called now and then, at doubling work: the bounds may be raised. Counted steps of that. */
  rest(found: ByParts): number;
}

export class PartSearch {
  private readonly placer: Placer;
  private readonly chance: Chance;
  private readonly partMoves: PartMoves;
  /** The level of the dates; none: -1. */
  private readonly dated: number;
  /** How many of the levels must not get worse in a move. */
  private counted = 0;
  /** The most that the last level may cost meanwhile, the others costing no more than in the best plan. */
  private bearable = 0;
  private best: ByParts | null = null;
  moves = 0;

  constructor(
    private readonly model: Model,
    seed: number,
    readonly parts: readonly Part[] = partsOf(model),
  ) {
    this.chance = new Chance((seed | 0) ^ 0x9e3779b9);
    this.placer = new Placer(model, this.parts, this.chance);
    this.dated = model.levels.findIndex((level) => level.costs.some((cost) => cost.kind === 'late'));
    this.partMoves = new PartMoves(
      this.parts,
      this.placer,
      this.chance,
      model.levels[this.dated]?.costs ?? [],
    );
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

  /** What is known of the parts when they have everything for themselves. */
  get alone(): Alone {
    return this.placer;
  }

  /**
   * A first plan; false when none was found. Parts of the hint that keep every rule stay as they are, the others are placed anew behind
   * them, no earlier than they were where that can be.
   * @param early called with a plan that is worth showing while others are still tried
   */
  construct(hint?: Assignment, early: (found: ByParts) => void = () => undefined): boolean {
    if (this.placer.isHopeless) return false;
    if (hint !== undefined) this.repair(hint, early);
    const isWorse = hint !== undefined && this.best !== null && this.isFirstWorse(this.best, hint);
    if (this.best === null || isWorse) this.buildAfresh();
    if (this.best === null) return false;
    this.layBest();
    return true;
  }

  /** Tries the ways of repair, none more when nothing had to move; the first is told early when it costs nothing at the first level. */
  private repair(hint: Assignment, early: (found: ByParts) => void): void {
    const { placer, parts, model } = this;
    const repair = new Repair(model, parts, placer, hint);
    for (const way of WAYS) {
      const isDone = repair.attempt(way, () => this.keepIfBetter());
      if (way !== 'behind' || !isDone || this.best === null) continue;
      const { starts } = this.best.assignment;
      if (!parts.some((_, p) => repair.isMoved(starts, p))) return;
      if (!this.isFirstWorse(this.best, hint)) early(this.best);
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
        this.keepIfBetter();
        for (const p of order) placer.remove(p);
      }
      if (failed < 0 || failed === order[0]) return;
      order = [failed, ...order.filter((p) => p !== failed)];
    }
  }

  /** What cannot move first, then in the order of the dates. */
  private byDate(): number[] {
    const { due } = this.partMoves;
    const isFixed = this.parts.map((_, p) => Number(this.placer.isFixed(p)));
    return this.parts.map((_, p) => p).sort((a, b) => isFixed[b] - isFixed[a] || due[a] - due[b] || a - b);
  }

  /** Places all parts, each at its earliest behind those before it. The part that found no place, and then none is there; or -1. */
  private layInOrder(order: readonly number[]): number {
    const { placer } = this;
    const at = order.findIndex((p) => !placer.place(p, { isLate: this.chance.next() < LATE }));
    if (at < 0) return at;
    for (const p of order.slice(0, at)) placer.remove(p);
    return order[at];
  }

  /**
   * Builds all anew while the level of the dates or another before the last is open, what costs there in one plan earlier in the order of the next: soon those that wait for
   * what is scarcest go first. Ends with the best plan laid down.
   */
  private rebuildByWhatCosts(bounds: readonly number[], until: number, beside: Beside): void {
    const { placer } = this;
    const openIn = (values: ArrayLike<number>): number =>
      bounds.findIndex((bound, k) => this.isRebuiltFor(k) && values[k] > bound);
    const share = new Float64Array(this.values.length);
    const step = Math.ceil(this.parts.length * MOVING_UP);
    let order = this.byDate();
    for (const p of order) placer.remove(p);
    for (
      let k = 0;
      k < REBUILDINGS && openIn(this.best!.values) >= 0 && placer.work < until && !beside.stop();
      k++
    ) {
      const failed = this.layInOrder(order);
      if (failed >= 0) {
        order = [failed, ...order.filter((p) => p !== failed)];
        continue;
      }
      const before = this.best;
      this.keepIfBetter();
      if (this.best !== before) beside.better(this.best!);
      const next = [...order];
      const open = openIn(this.values);
      for (const p of order) {
        placer.tally.share(p, share);
        if (!(share[open] > 0)) continue;
        const at = next.indexOf(p);
        next.splice(at, 1);
        next.splice(Math.max(0, at - step), 0, p);
      }
      for (const p of order) placer.remove(p);
      if (next.every((p, k) => p === order[k])) break;
      order = next;
    }
    this.layBest();
  }

  private isRebuiltFor(level: number): boolean {
    return level === this.dated || level < this.values.length - 1;
  }

  private keepIfBetter(): void {
    if (this.best === null || compare(this.values, this.best.values) < 0) this.keep();
  }

  private keep(): void {
    this.best = { assignment: this.placer.assignment(), values: [...this.values] };
  }

  /** Betters the plan until `work` counted steps in all are done. */
  improve(until: number, beside: Beside): void {
    const { placer } = this;
    if (this.best === null) return;
    const hasBuckets = this.model.levels.some(({ costs }) => costs.some(({ kind }) => kind === 'buckets'));
    const patience = PATIENCE * this.parts.length;
    const cycle = CYCLE * this.parts.length;
    // At first only the first level that is open counts: a move may cost later levels, which are won back afterwards.
    const wanderUntil = placer.work + (until - placer.work) * WANDERING;
    const openLevel = (): number => {
      const bounds = beside.boundsOf(this.best!.values);
      return this.best!.values.findIndex((value, k) => value > bounds[k]);
    };
    let open = openLevel();
    if (open >= 0 && this.isRebuiltFor(open)) {
      this.rebuildByWhatCosts(beside.boundsOf(this.best.values), wanderUntil, beside);
      open = openLevel();
    }
    let isWandering = true;
    let idle = 0;
    let restAt = 2 * placer.work;
    while (open >= 0 && placer.work < until && idle++ < patience && !beside.stop()) {
      if (placer.work >= restAt) {
        placer.work += beside.rest(this.best);
        restAt = 2 * placer.work;
        open = openLevel();
      }
      if (isWandering && (open > 0 || idle > patience >> 1 || placer.work > wanderUntil)) {
        isWandering = false;
        this.goBack();
      }
      this.counted = isWandering ? 1 : this.values.length;
      const phase = (this.moves++ % cycle) / cycle;
      if (phase === 0 && !isWandering) this.goBack();
      const isLastOpen = !isWandering && open === this.values.length - 1;
      this.bearable = isLastOpen ? this.best.values[open] * (1 + BEARABLE * (1 - phase)) : 0;
      placer.work += 5;
      const isGathering = hasBuckets && !isWandering && this.chance.next() < GATHERING;
      const move = isGathering ? this.partMoves.gather() : this.partMoves.reorder();
      if (move === null || !this.again(move)) continue;
      idle = 0;
      this.keep();
      beside.better(this.best);
      open = openLevel();
    }
    this.moveEarly();
  }

  /** Lays down the best plan and moves each part, in the order of time, as early as it can be with the same choices, where nothing gets worse. */
  private moveEarly(): void {
    const { placer, parts } = this;
    this.goBack();
    const prefer = Int8Array.from(this.best!.assignment.choices, Number);
    const begins = parts.map(({ starts }) => starts.reduce((t, s) => Math.min(t, placer.least[s]), Infinity));
    const inTime = parts.map((_, p) => p).sort((a, b) => begins[a] - begins[b] || a - b);
    for (const p of inTime) {
      const before = this.values.slice();
      const old = placer.remove(p);
      const isPlaced = placer.place(p, { prefer, isStrict: true });
      if (isPlaced && compare(this.values, before) <= 0) continue;
      if (isPlaced) placer.remove(p);
      placer.restore(old);
    }
    this.keep();
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

  /** Takes a move's parts up and lays them down anew; what is worse is undone. True when it is better than the best. */
  private again({ order, wishes }: PartMove): boolean {
    const { placer } = this;
    const before = this.values.slice();
    const old: Placement[] = order.map((p) => placer.remove(p));
    let placed = 0;
    const isPlaced = (p: number): boolean =>
      placer.place(p, { ...wishes, isLate: this.chance.next() < LATE });
    while (placed < order.length && isPlaced(order[placed])) placed++;
    const isKept =
      placed === order.length &&
      (compare(this.values.subarray(0, this.counted), before) <= 0 || this.isBearable());
    if (isKept) return compare(this.values, this.best!.values) < 0;
    for (const p of order.slice(0, placed)) placer.remove(p);
    for (const placement of old) placer.restore(placement);
    return false;
  }

  private isBearable(): boolean {
    const { values, bearable } = this;
    const last = values.length - 1;
    return (
      values[last] <= bearable && this.best!.values.every((value, k) => k === last || values[k] <= value)
    );
  }
}
