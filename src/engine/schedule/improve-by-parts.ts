/**
 * A plan bettered part by part: once built (`build-by-parts.ts`), again and again some parts are taken up, a late one and some that stand in its
 * way, and laid down anew (`part-moves.ts`, `lay-anew.ts`). Kept when the levels, compared in order, are no worse; where the last level alone is
 * open, also when it is little more than in the best plan (`tolerance.ts`).
 *
 * Literature: Shaw 1998 (large neighbourhoods).
 */
import { BestByParts, type ByParts } from './best-by-parts.ts';
import { PartBuilder } from './build-by-parts.ts';
import { Chance } from './chance.ts';
import type { PlaceWishes } from './choosing.ts';
import { compare } from './compare-levels.ts';
import type { Alone } from './held-to.ts';
import { LayAnew } from './lay-anew.ts';
import type { Assignment, Level, Model } from './model.ts';
import { MoveYields } from './move-yields.ts';
import { PartMoves, type PartMove } from './part-moves.ts';
import { partsOf, type Part } from './parts.ts';
import { Placer } from './placer.ts';
import { Tolerance } from './tolerance.ts';

/** Moves without success before the search gives up: a part; and when the last level alone is open, a pair of parts. */
const PATIENCE = 60;
const PATIENCE_OF_LAST = 30;
/** The share of the work in which only the first level counts. */
const WANDERING = 0.5;
/** Where a plan stood, the share of the work in which it is changed by moves alone before all is built anew. */
const REPAIRING = 0.25;
/** The share of parts that are laid down as late as they can be at the same cost: what waits anyway stands in nobody's way. */
const LATE = 0.8;

const MOVES = ['reorder', 'push', 'gather', 'goHome'] as const;
type Move = (typeof MOVES)[number];

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
  private readonly hasBuckets: boolean;
  /** How many of the levels must not get worse in a move. */
  private counted = 0;
  /** The most that the last level may cost meanwhile, the others costing no more than in the best plan. */
  private bearable = 0;
  private readonly best: BestByParts;
  private readonly laying: LayAnew;
  private readonly builder: PartBuilder;
  /** A plan stood before this one. */
  private isRepaired = false;
  moves = 0;

  constructor(
    private readonly model: Model,
    seed: number,
    readonly parts: readonly Part[] = partsOf(model),
  ) {
    this.chance = new Chance((seed | 0) ^ 0x9e3779b9);
    this.placer = new Placer(model, this.parts, this.chance);
    this.dated = model.levels.findIndex((level) => level.costs.some((cost) => cost.kind === 'late'));
    this.hasBuckets = model.levels.some(({ costs }) => costs.some(({ kind }) => kind === 'buckets'));
    this.partMoves = new PartMoves(
      this.parts,
      this.placer,
      this.chance,
      model.levels[this.dated]?.costs ?? [],
    );
    this.best = new BestByParts(this.placer, this.parts);
    this.laying = new LayAnew(this.placer, this.parts, (p, wishes) => this.place(p, wishes));
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

  /** Whether it is not to be shown, for a better one is in reserve. */
  isHeldBack(found: ByParts): boolean {
    return this.best.isWorseThanReserve(found);
  }

  /**
   * A first plan; false when none was found. Of a hint the parts that keep every rule stay as they are, the others are placed anew behind
   * them, no earlier than they were where that can be.
   * @param hints the first is begun from; the others are taken where moves alone do not make it as good
   * @param early called with a plan that is worth showing while others are still tried
   */
  construct(hints: readonly Assignment[] = [], early: (found: ByParts) => void = () => undefined): boolean {
    this.isRepaired = hints.length > 0;
    const pulling = this.model.levels.findIndex(isPulling);
    if (hints.length > 0 && pulling >= 0) this.partMoves.stood(hints[0], pulling);
    return this.builder.construct(hints, early);
  }

  private place(part: number, wishes: PlaceWishes = {}): boolean {
    return this.placer.place(part, { ...wishes, isLate: this.chance.next() < LATE });
  }

  /** Whether all is built anew while the level is open: that of the dates, and any before the last but one that pulls: that leads away from what pulls. */
  private isRebuiltFor(level: number): boolean {
    const isEarlier = level < this.values.length - 1 && !isPulling(this.model.levels[level]);
    return level === this.dated || isEarlier;
  }

  /**
   * Betters the plan until so many counted steps in all are done.
   * @param untilOfLast the same when the last level alone is open
   */
  improve(until: number, beside: Beside, untilOfLast = until): void {
    const { placer, best } = this;
    if (best.found === null) return;
    const n = this.parts.length;
    const patience = PATIENCE * n;
    const patienceOfLast = Math.max(patience, (PATIENCE_OF_LAST * n * (n - 1)) / 2);
    const tolerance = new Tolerance(n);
    // At first only the first level that is open counts: a move may cost later levels, which are won back afterwards.
    const wanderUntil = placer.work + (until - placer.work) * WANDERING;
    const openLevel = (): number => {
      const { values } = best.found!;
      const bounds = beside.boundsOf(values);
      return values.findIndex((value, k) => value > bounds[k]);
    };
    let open = openLevel();
    const rebuild = (): void => {
      if (open < 0 || !this.isRebuiltFor(open)) return;
      this.builder.rebuild(
        beside.boundsOf(best.found!.values),
        wanderUntil,
        () => beside.stop(),
        (found) => beside.better(found),
      );
      open = openLevel();
    };
    // What stood is changed little by little first: another plan moves more, and building all anew moves everything.
    let isRebuilt = !this.isRepaired;
    const rebuildAt = placer.work + (until - placer.work) * REPAIRING;
    if (isRebuilt) rebuild();
    let isWandering = isRebuilt;
    const yields = new MoveYields(MOVES);
    let idle = 1;
    let restAt = 2 * placer.work;
    const isLastOpen = (): boolean => open === this.values.length - 1;
    const isDone = (): boolean =>
      placer.work >= (isLastOpen() ? untilOfLast : until) ||
      idle > (isLastOpen() ? patienceOfLast : patience);
    const isRebuildDue = (): boolean => !isRebuilt && (placer.work >= rebuildAt || idle > patience);
    for (; open >= 0 && (isRebuildDue() || !isDone()) && !beside.stop(); idle++) {
      if (isRebuildDue()) {
        if (this.takeReserve()) beside.better(best.found);
        open = openLevel();
        rebuild();
        isRebuilt = true;
        isWandering = true;
        idle = 0;
        continue;
      }
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
      this.moves++;
      this.bearable = 0;
      if (!isWandering && isLastOpen()) {
        if (tolerance.isAtBeginning) best.goBack();
        this.bearable = best.found.values[open] * (1 + tolerance.next());
      }
      const before = placer.work;
      placer.work += 5;
      const kind = yields.next(this.worthTrying(isWandering, open));
      const move = this.partMoves[kind]() ?? this.partMoves.reorder();
      const isBetter = this.again(move);
      yields.note(kind, placer.work - before, isBetter ? this.gain() : 0);
      if (!isBetter) continue;
      idle = 0;
      beside.better(best.keep());
      open = openLevel();
    }
    this.takeReserve();
    this.moveEarly();
  }

  /** Nobody gathers steps into buckets while only the first level counts, and nobody goes back to a plan that stood before the dates hold. */
  private worthTrying(isWandering: boolean, open: number): readonly Move[] {
    const isWorth: Readonly<Record<Move, boolean>> = {
      reorder: true,
      push: true,
      gather: !isWandering && this.hasBuckets,
      goHome: !isWandering && this.partMoves.hasHome && open > this.dated,
    };
    return MOVES.filter((move) => isWorth[move]);
  }

  private takeReserve(): boolean {
    if (!this.best.takeReserve()) return false;
    this.parts.forEach((_, part) => this.placer.remove(part));
    this.best.lay();
    return true;
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

  /** The share that was taken off the best plan's value of the first level that differs. */
  private gain(): number {
    const { values } = this.best.found!;
    const level = values.findIndex((value, k) => value !== this.values[k]);
    return level < 0 ? 0 : 1 - this.values[level] / values[level];
  }

  /** Tries a move. True when it leads to something better than the best. */
  private again(move: PartMove): boolean {
    const before = this.values.slice();
    const isDone = this.laying.attempt(move, (values) => this.isKept(values, before));
    return isDone && compare(this.values, this.best.found!.values) < 0;
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

/** Whether a level pulls starts to times of their own, as a plan that stood does: what is built anew at its earliest is no nearer to them. */
const isPulling = ({ costs }: Level): boolean => costs.some(({ kind }) => kind === 'early');
