/**
 * A plan bettered part by part: once built (`build-by-parts.ts`), again and again a few parts are taken up, a late one and some that stand in its
 * way, and laid down in another order. Kept when the levels, compared in order, are no worse; where the last level alone is open, also when it is
 * little more than in the best plan.
 *
 * Literature: Shaw 1998 (large neighbourhoods), Dueck 1993 (record-to-record travel).
 */
import { BestByParts, type ByParts } from './best-by-parts.ts';
import { PartBuilder } from './build-by-parts.ts';
import { Chance } from './chance.ts';
import type { PlaceWishes } from './choosing.ts';
import { compare } from './compare-levels.ts';
import type { Alone } from './held-to.ts';
import type { Assignment, Model } from './model.ts';
import { PartMoves, type PartMove } from './part-moves.ts';
import { partsOf, type Part } from './parts.ts';
import { Placer, type Placement } from './placer.ts';

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
  private readonly best: BestByParts;
  private readonly builder: PartBuilder;
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
    this.best = new BestByParts(this.placer, this.parts);
    this.builder = new PartBuilder(
      model,
      this.parts,
      this.placer,
      this.best,
      this.partMoves.due,
      (p) => this.place(p),
      (level) => this.isRebuiltFor(level),
    );
  }

  get work(): number {
    return this.placer.work;
  }

  get values(): Float64Array {
    return this.placer.tally.values;
  }

  get found(): ByParts | null {
    return this.best.found;
  }

  /** What is known of the parts when they have everything for themselves. */
  get alone(): Alone {
    return this.placer;
  }

  /**
   * A first plan; false when none was found. Parts of a hint that keep every rule stay as they are, the others are placed anew behind
   * them, no earlier than they were where that can be; of several hints the one counts that comes out best.
   * @param early called with a plan that is worth showing while others are still tried
   */
  construct(hints: readonly Assignment[] = [], early: (found: ByParts) => void = () => undefined): boolean {
    return this.builder.construct(hints, early);
  }

  private place(part: number, wishes: PlaceWishes = {}): boolean {
    return this.placer.place(part, { ...wishes, isLate: this.chance.next() < LATE });
  }

  /** Whether all is built anew while the level is open: that of the dates, and any before the last. */
  private isRebuiltFor(level: number): boolean {
    return level === this.dated || level < this.values.length - 1;
  }

  /**
   * Betters the plan until so many counted steps in all are done.
   * @param untilOfLast the same when the last level alone is open
   */
  improve(until: number, beside: Beside, untilOfLast = until): void {
    const { placer, best } = this;
    if (best.found === null) return;
    const hasBuckets = this.model.levels.some(({ costs }) => costs.some(({ kind }) => kind === 'buckets'));
    const patience = PATIENCE * this.parts.length;
    const cycle = CYCLE * this.parts.length;
    // At first only the first level that is open counts: a move may cost later levels, which are won back afterwards.
    const wanderUntil = placer.work + (until - placer.work) * WANDERING;
    const openLevel = (): number => {
      const { values } = best.found!;
      const bounds = beside.boundsOf(values);
      return values.findIndex((value, k) => value > bounds[k]);
    };
    let open = openLevel();
    if (open >= 0 && this.isRebuiltFor(open)) {
      const bounds = beside.boundsOf(best.found.values);
      this.builder.rebuild(
        bounds,
        wanderUntil,
        () => beside.stop(),
        (found) => beside.better(found),
      );
      open = openLevel();
    }
    let isWandering = true;
    let idle = 0;
    let restAt = 2 * placer.work;
    const isDone = (): boolean => placer.work >= (open === this.values.length - 1 ? untilOfLast : until);
    while (open >= 0 && !isDone() && idle++ < patience && !beside.stop()) {
      if (placer.work >= restAt) {
        placer.work += beside.rest(best.found);
        restAt = 2 * placer.work;
        open = openLevel();
      }
      if (isWandering && (open > 0 || idle > patience >> 1 || placer.work > wanderUntil)) {
        isWandering = false;
        best.goBack();
      }
      this.counted = isWandering ? 1 : this.values.length;
      const phase = (this.moves++ % cycle) / cycle;
      if (phase === 0 && !isWandering) best.goBack();
      const isLastOpen = !isWandering && open === this.values.length - 1;
      this.bearable = isLastOpen ? best.found.values[open] * (1 + BEARABLE * (1 - phase)) : 0;
      placer.work += 5;
      const isGathering = hasBuckets && !isWandering && this.chance.next() < GATHERING;
      const move = isGathering ? this.partMoves.gather() : this.partMoves.reorder();
      if (move === null || !this.again(move)) continue;
      idle = 0;
      beside.better(best.keep());
      open = openLevel();
    }
    this.moveEarly();
  }

  /** Lays down the best plan and moves each part, in the order of time, as early as it can be with the same choices, where nothing gets worse. */
  private moveEarly(): void {
    const { placer, parts, best } = this;
    best.goBack();
    const prefer = Int8Array.from(best.found!.assignment.choices, Number);
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
    best.keep();
  }

  /** Takes a move's parts up and lays them down anew; what is worse is undone, as soon as it must become so. True when it is better than the best. */
  private again({ order, wishes }: PartMove): boolean {
    const { placer } = this;
    const before = this.values.slice();
    const old: Placement[] = order.map((p) => placer.remove(p));
    const atLeast = new Float64Array(before.length);
    let placed = 0;
    // What each costs at least that is not laid down yet, beside what stands.
    const least = order.map((p) => placer.costsAlone[p].slice());
    const mayCost = (own: Float64Array): boolean => {
      atLeast.set(this.values);
      addTo(atLeast, own, 1);
      for (let k = placed + 1; k < order.length; k++) addTo(atLeast, least[k], 1);
      return this.isKept(atLeast, before);
    };
    const all = new Float64Array(before.length);
    for (const costs of least) addTo(all, costs, 1);
    const mayAllCost = (own: Float64Array): boolean => {
      atLeast.set(this.values);
      addTo(atLeast, own, 1);
      return this.isKept(atLeast, before);
    };
    const wishesOf = order.map((p) => ({
      ...wishes,
      mayCost,
      given: placer.tooDear(p, all, mayAllCost),
    }));
    const isHopeful = (): boolean => {
      for (let k = placed; k < order.length; k++)
        if (!placer.leastBeside(order[k], wishesOf[k], least[k])) return false;
      return placed === order.length || mayCost(least[placed]);
    };
    while (placed < order.length && isHopeful() && this.place(order[placed], wishesOf[placed])) placed++;
    if (placed === order.length && this.isKept(this.values, before))
      return compare(this.values, this.best.found!.values) < 0;
    for (const p of order.slice(0, placed)) placer.remove(p);
    for (const placement of old) placer.restore(placement);
    return false;
  }

  /** Whether a move may lead from `before` to these values; if not, then to no higher ones. */
  private isKept(values: Float64Array, before: Float64Array): boolean {
    return compare(values.subarray(0, this.counted), before) <= 0 || this.isBearable(values);
  }

  private isBearable(values: Float64Array): boolean {
    const last = values.length - 1;
    return (
      values[last] <= this.bearable &&
      this.best.found!.values.every((value, k) => k === last || values[k] <= value)
    );
  }
}

function addTo(sum: Float64Array, costs: Float64Array, sign: number): void {
  for (let k = 0; k < sum.length; k++) sum[k] += sign * costs[k];
}
