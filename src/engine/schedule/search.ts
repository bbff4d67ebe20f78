/**
 * Search: decide, propagate, learn, go back. Two orders of decision: the dive (the unfixed start with the least bound takes it) and
 * activity (the variable most active in conflicts takes its value in the best solution). Restarts by Luby's sequence.
 *
 * Literature: Moskewicz et al. 2001 (activity), Luby, Sinclair, Zuckerman 1993 (restarts), Pipatsrisawat and Darwiche 2007 (phases).
 */
import { Chance } from './chance.ts';
import { Heap } from './heap.ts';
import type { Kernel } from './kernel.ts';
import { Learning } from './learning.ts';
import type { Assignment } from './model.ts';
import { DECIDED, type Because } from './trail.ts';

/** Pairs (view, value). */
export type Atoms = readonly (readonly [number, number])[];

export interface Limits {
  /** Work (of the trail's counter) at which to stop. */
  readonly work: number;
  /** Conflicts in this call after which to stop. */
  readonly conflicts: number;
}

/**
 * `solution`: all starts and choices are fixed (read it before going on). `refuted`: the assumptions do not hold together.
 * `contradiction`: the model has no (further) solution. `limit`: undecided.
 */
export type Verdict = 'solution' | 'refuted' | 'contradiction' | 'limit' | 'stopped';

/** For tests: sees every explanation that an analysis uses, and every clause it learns. */
export interface Watcher {
  compiled(kernel: Kernel): void;
  explained(view: number, value: number, because: Because): void;
  learned(clause: Because): void;
}

/** Above the first, random activities, below the first bump. */
const QUIET = 1e-5;

export class Search {
  conflicts = 0;
  private readonly learning: Learning;
  private readonly activity: Float64Array;
  private increment = 1;
  private readonly heap: Heap;
  private readonly decidable: number;
  private readonly firstTotal: number;
  private readonly lastTotal: number;
  /** The preferred value of each variable; for starts and choices that of the best solution. */
  readonly phase: Int32Array;
  /** Is there a preferred value? */
  readonly hasPhase: Uint8Array;
  /** Also for those who choose what to ask. */
  readonly chance: Chance;
  /** Variables below this are no decisions of the activity search. */
  private firstActive = 0;
  private lubyIndex = 0;
  private learnedLimit = 4000;
  /** Restarts are dives while this holds; the solver sets it. */
  dive = true;
  /** What was decided and undone is preferred next time, in place of the best solution's values: a proof takes fewer conflicts so, a seeker finds less. */
  keepsUndone = false;
  /** Dives take the start whose last moment comes first, so that what hangs together by greatest lags is placed together. */
  latestFirst = false;
  /** After `refuted`: which assumption failed. */
  refutedAt = 0;

  constructor(
    readonly kernel: Kernel,
    seed: number,
    private readonly stop: () => boolean,
    private readonly witness: Watcher | null = null,
  ) {
    const n = kernel.variableCount;
    witness?.compiled(kernel);
    this.activity = new Float64Array(n);
    this.chance = new Chance(seed);
    this.decideStarts(!kernel.isSettledByOrders);
    this.decidable = kernel.startCount + kernel.choiceCount;
    this.firstTotal = this.decidable;
    this.lastTotal = this.decidable + kernel.totals.length - 1;
    this.heap = new Heap(this.activity, n);
    this.phase = new Int32Array(n);
    this.hasPhase = new Uint8Array(n);
    this.learning = new Learning(
      kernel.trail,
      (variable) => this.bump(variable),
      witness === null ? null : (view, value, because) => witness.explained(view, value, because),
    );
    for (let x = 0; x < n; x++) if (!this.isTotal(x)) this.activity[x] = this.chance.next() * 1e-6;
    for (let x = 0; x < n; x++) if (!this.isTotal(x)) this.heap.insert(x);
  }

  private isTotal(x: number): boolean {
    return x >= this.firstTotal && x <= this.lastTotal;
  }

  /** Are starts decided by activity too, or do they only follow from orders and choices? */
  decideStarts(also: boolean): void {
    this.firstActive = also ? 0 : this.kernel.startCount;
  }

  private isActive(x: number): boolean {
    return x >= this.firstActive && (x < this.firstTotal || x > this.lastTotal);
  }

  private bump(variable: number): void {
    if (!this.isActive(variable)) return;
    this.activity[variable] += this.increment;
    if (this.activity[variable] > 1e100) {
      for (let x = 0; x < this.activity.length; x++) this.activity[x] *= 1e-100;
      this.increment *= 1e-100;
    }
    this.heap.raised(variable);
  }

  private backTo(level: number): void {
    const { trail } = this.kernel;
    if (level >= trail.level) return;
    for (let p = trail.size - 1, end = trail.startOf(level + 1); p >= end; p--) {
      const x = trail.view[p] >> 1;
      if (this.isTotal(x)) continue;
      this.heap.insert(x);
      if (this.keepsUndone) this.keepPhase(x);
    }
    this.kernel.backTo(level);
  }

  /**
   * Searches under assumptions. `hard` ones must hold; `soft` ones are decided where they still can be and left out where they
   * cannot.
   */
  run(hard: Atoms, soft: Atoms, limits: Limits): Verdict {
    const { kernel } = this;
    const { trail } = kernel;
    if (!kernel.sound) return 'contradiction';
    const firstConflict = this.conflicts;
    this.backTo(0);
    if (!this.propagateRoot()) return 'contradiction';
    let untilRestart = 100 * luby(++this.lubyIndex);
    let polled = trail.work + 2000;
    let softAt = 0;
    for (;;) {
      if (!kernel.propagate()) {
        this.conflicts++;
        untilRestart--;
        trail.work += 20;
        if (!this.learning.analyse()) return 'contradiction';
        const { clause, backLevel, quality } = this.learning;
        this.witness?.learned(clause);
        this.backTo(backLevel);
        softAt = 0;
        if (!kernel.clauses.addLearned(clause, quality)) return 'contradiction';
        kernel.clauses.decay();
        this.increment /= 0.95;
        continue;
      }
      if (trail.level === 0) kernel.settleRoot();
      if (trail.work >= polled) {
        polled = trail.work + 2000;
        if (this.stop()) return 'stopped';
      }
      if (trail.work >= limits.work || this.conflicts - firstConflict >= limits.conflicts) return 'limit';
      if (untilRestart <= 0) {
        this.backTo(0);
        softAt = 0;
        untilRestart = 100 * luby(++this.lubyIndex);
        if (kernel.clauses.learnedCount > this.learnedLimit) {
          if (!this.propagateRoot()) return 'contradiction';
          kernel.clauses.reduce();
          this.learnedLimit += 200;
        }
        continue;
      }
      const next = trail.level;
      if (next < hard.length) {
        const [view, value] = hard[next];
        if (trail.fails(view, value)) {
          this.refutedAt = next;
          return 'refuted';
        }
        // A true assumption still takes a level, so that the count of levels is the count of assumptions.
        trail.decide(view, value);
        continue;
      }
      let decided = false;
      while (softAt < soft.length && !decided) {
        const [view, value] = soft[softAt++];
        if (!trail.holds(view, value) && !trail.fails(view, value)) decided = trail.decide(view, value);
      }
      if (decided) continue;
      if (!(this.dive ? this.decideDive() : this.decideActive())) return 'solution';
    }
  }

  /** The decisions that refuted an assumption, itself included, after `refuted`. */
  core(hard: Atoms): [number, number][] {
    const [view, value] = hard[this.refutedAt];
    return [...this.learning.decisionsBehind(view ^ 1, 1 - value), [view, value]];
  }

  /** From now on `view >= value`. False when that leaves no solution. */
  assert(view: number, value: number): boolean {
    this.backTo(0);
    return this.kernel.trail.set(view, value, DECIDED, 0);
  }

  private propagateRoot(): boolean {
    if (!this.kernel.propagate()) return false;
    this.kernel.settleRoot();
    return true;
  }

  /** Fixes choices by phase, then the start that can begin first. False when all is fixed. */
  private decideDive(): boolean {
    const { kernel } = this;
    const { trail } = kernel;
    const { bound } = trail;
    const open = this.firstOpen(kernel.startCount, kernel.startCount + kernel.choiceCount);
    if (open >= 0) return this.take(open);
    let best = -1;
    let key = Infinity;
    let tie = Infinity;
    for (let x = 0; x < kernel.startCount; x++) {
      const least = bound[2 * x];
      const greatest = -bound[2 * x + 1];
      if (least === greatest) continue;
      const first = this.latestFirst ? greatest : least;
      const second = this.latestFirst ? least : greatest;
      if (first > key || (first === key && second >= tie)) continue;
      best = x;
      key = first;
      tie = second;
    }
    return best >= 0 && trail.decide(2 * best + 1, -bound[2 * best]);
  }

  private decideActive(): boolean {
    const { bound } = this.kernel.trail;
    for (;;) {
      const x = this.heap.pop();
      if (x < 0) return this.decideRest();
      // Never in a conflict, as all that are left: what they decide follows sooner from the starts.
      if (this.activity[x] < QUIET) {
        this.heap.insert(x);
        return this.decideQuiet();
      }
      if (x >= this.firstActive && bound[2 * x] !== -bound[2 * x + 1]) return this.take(x);
    }
  }

  /** Fixes choices by phase, then the starts in the best solution's order, each as early as it can. False when all is fixed. */
  private decideQuiet(): boolean {
    const { kernel } = this;
    const { trail } = kernel;
    const { bound } = trail;
    const open = this.firstOpen(kernel.startCount, kernel.startCount + kernel.choiceCount);
    if (open >= 0) return this.take(open);
    let best = -1;
    let key = Infinity;
    for (let x = 0; x < kernel.startCount; x++) {
      const least = bound[2 * x];
      const greatest = -bound[2 * x + 1];
      if (least === greatest) continue;
      const place = this.hasPhase[x] === 1 ? Math.max(least, Math.min(greatest, this.phase[x])) : least;
      if (place >= key) continue;
      best = x;
      key = place;
    }
    if (best < 0) return false;
    return trail.decide(2 * best + 1, -bound[2 * best]);
  }

  /** Starts and choices that the heap no longer holds. Markers and orders may stay open: nothing rests on them then. */
  private decideRest(): boolean {
    if (this.firstActive > 0) return this.decideQuiet();
    const open = this.firstOpen(0, this.decidable);
    return open >= 0 && this.take(open);
  }

  /** The first variable of `from` to `to`, that one not included, that is not fixed; -1 when all are. */
  private firstOpen(from: number, to: number): number {
    const { bound } = this.kernel.trail;
    for (let x = from; x < to; x++) if (bound[2 * x] !== -bound[2 * x + 1]) return x;
    return -1;
  }

  /** Moves a variable towards its preferred value. */
  private take(x: number): boolean {
    const { kernel, phase, hasPhase } = this;
    const { trail } = kernel;
    const least = trail.bound[2 * x];
    const greatest = -trail.bound[2 * x + 1];
    if (hasPhase[x] === 0) {
      if (x < kernel.startCount) return trail.decide(2 * x + 1, -least);
      if (x < kernel.startCount + kernel.choiceCount) return trail.decide(2 * x, 1);
      return trail.decide(2 * x + 1, 0);
    }
    const value = phase[x];
    if (value <= least) return trail.decide(2 * x + 1, -least);
    if (value >= greatest) return trail.decide(2 * x, greatest);
    const done = trail.decide(2 * x + 1, -value);
    // The other side is still open: it must come up again.
    if (this.isActive(x)) this.heap.insert(x);
    return done;
  }

  /** Takes the values of a schedule, and its orders, as phases. */
  follow({ starts, choices }: Assignment): void {
    const { phase, hasPhase, kernel } = this;
    const prefer = (x: number, value: number): void => {
      phase[x] = value;
      hasPhase[x] = 1;
    };
    starts.slice(0, kernel.startCount).forEach((at, s) => prefer(s, at));
    choices
      .slice(0, kernel.choiceCount)
      .forEach((choice, c) => prefer(kernel.startCount + c, choice ? 1 : 0));
    kernel.orders.pairs.forEach(([a, b], k) => prefer(kernel.firstOrder + k, starts[a] < starts[b] ? 1 : 0));
  }

  /** Keeps the values of the fixed variables as phases. */
  keepPhases(): void {
    for (let x = 0; x < this.kernel.variableCount; x++) this.keepPhase(x);
  }

  private keepPhase(x: number): void {
    const { bound } = this.kernel.trail;
    if (bound[2 * x] !== -bound[2 * x + 1]) return;
    this.phase[x] = bound[2 * x];
    this.hasPhase[x] = 1;
  }
}

/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 ... */
function luby(index: number): number {
  let i = index;
  for (;;) {
    let k = 1;
    while ((1 << k) - 1 < i) k++;
    if ((1 << k) - 1 === i) return 1 << (k - 1);
    i -= (1 << (k - 1)) - 1;
  }
}
