/**
 * The solver: a first solution, then the levels in order, each from both sides: probes ask for a larger cut while they succeed and
 * raise the bound when they are refuted; neighbourhoods keep the best solution's orders outside a window. All in one search, so
 * that what is learned stays. Rounds of growing size go over all open levels, so that every level gets its turn whenever it is stopped.
 */
import { scheduleByCircles } from './by-circles.ts';
import { findClash } from './clash.ts';
import { evaluate } from './evaluate.ts';
import { Kernel } from './kernel.ts';
import type { Assignment, LevelOutcome, Model, Outcome, SolveOptions } from './model.ts';
import { chooseNeighbourhood, Neighbours } from './neighbourhood.ts';
import { asProject } from './project.ts';
import { quickSearch, type QuickSearch } from './quick-search.ts';
import { Search, type Atoms, type Verdict, type Watcher } from './search.ts';
import { solveByParts } from './solve-by-parts.ts';
import { verify } from './verify.ts';

/** What a clash may cost on top of the budget, as a share of it. */
const CLASH_SHARE = 0.5;
const LEAST_CLASH_WORK = 200_000;
/** Of the exact search's work, how much goes into the bound from below: where the quick search leaves it the proof, and where it does not. */
const RAISE_SHARE = 1 / 4;
const LEAST_RAISE_SHARE = 1 / 16;
/** Of the exact search's work where it seeks better schedules too, how much that may be. */
const MOST_SEEK_SHARE = 1 / 2;
const LEAST_SEEK_SHARE = 1 / 16;
/** The work that goes into bettering a first schedule, for each start and each task. */
const FIRST_WORK = 4;
/** A first dive is given up after so many conflicts. */
const DIVE_CONFLICTS = 40;
/** What is spent at most on a block of a project that lists cannot schedule. */
const BLOCK_WORK = 500_000;
/** So many at first, in each of three ways in turn, then twice as many: a way soon shows whether it leads anywhere. */
const FIRST_CONFLICTS = 50;

/**
 * Solves a model. Deterministic in model, seed, budget and hint; `stop` only cuts short. Every value in the outcome is that of a real
 * assignment, every bound is proved.
 */
export function solve(model: Model, options: SolveOptions): Outcome {
  return solveByParts(model, options, (whole, rest) => solveWatched(whole, rest, null));
}

/** `solve` with a watcher for every explanation used and every clause learned: for tests. */
export function solveWatched(model: Model, options: SolveOptions, watcher: Watcher | null): Outcome {
  return new Solver(model, options, watcher).solve();
}

class Solver {
  private readonly kernel: Kernel;
  private readonly search: Search;
  private readonly stop: () => boolean;
  private readonly budget: number;
  private stopped = false;
  private best: Assignment | null = null;
  private values: number[] = [];
  private readonly bounds: number[];
  private readonly proven: boolean[];
  private readonly neighbours: Neighbours;
  /** For models of a simple form: the search that finds good schedules where the exact one is slow. */
  private readonly quick: QuickSearch | null;
  /** With one level, what is not better than the best is cut off for good: shorter clauses, and more that holds without decisions. */
  private readonly cuts: boolean;
  /** Conflicts after which a value that would raise the bound is given up; doubles from turn to turn. */
  private refuteConflicts = 20;
  private seekShare = MOST_SEEK_SHARE;
  /** By how much a level is asked to be better; it grows while that is found. */
  private readonly steps: number[];
  private blockWork = 0;
  /** Known before the exact search has read the model. */
  private readonly isInfeasible: boolean;

  constructor(
    private readonly model: Model,
    private readonly options: SolveOptions,
    watcher: Watcher | null,
  ) {
    this.budget = options.budget;
    this.cuts = watcher === null && model.levels.length === 1;
    this.stop = () => this.stopped || (this.stopped = options.stop?.() ?? false);
    this.bounds = model.levels.map(() => 0);
    this.proven = model.levels.map(() => false);
    this.steps = model.levels.map(() => 1);
    this.quick = quickSearch(model, options.seed);
    this.isInfeasible = watcher === null && this.quick?.assignment() === null && !this.beginByCircles();
    // A schedule is there, and bettered for a short while, before the exact search has so much as read the model.
    if (this.quick !== null && this.keepOfQuick(this.quick)) {
      const size = model.resources.reduce((sum, { tasks }) => sum + tasks.length, model.starts.length);
      const work = Math.min(this.budget, this.quick.work + size * FIRST_WORK);
      this.quick.run(work, this.goal(), this.stop);
      this.keepOfQuick(this.quick);
    }
    this.kernel = new Kernel(model);
    this.search = new Search(this.kernel, options.seed, this.stop, watcher);
    if (this.best !== null) this.search.follow(this.best);
    this.neighbours = new Neighbours(this.kernel);
  }

  solve(): Outcome {
    if (this.isInfeasible || !this.kernel.sound) return this.infeasible();
    const first = this.firstSolution();
    if (first === 'contradiction' && this.best === null) return this.infeasible();
    if (first === 'contradiction') this.refuted();
    if (this.best === null) return { status: 'unknown', work: this.work };
    this.improve();
    return {
      status: this.proven.every(Boolean) ? 'optimal' : 'feasible',
      best: this.best!,
      levels: this.levels(),
      work: this.work,
    };
  }

  /** A first schedule block by block, where lists lead to none; false when a block has none. */
  private beginByCircles(): boolean {
    const project = asProject(this.model);
    if (project === null) return true;
    const found = scheduleByCircles(project, (block) => {
      let isFound = false;
      const outcome = new Solver(
        block,
        {
          seed: this.options.seed,
          budget: Math.min(this.budget - this.work, BLOCK_WORK),
          stop: () => isFound || this.stop(),
          progress: ({ best }) => (isFound = best !== null),
        },
        null,
      ).solve();
      this.blockWork += outcome.work;
      return outcome;
    });
    if (found === 'infeasible') return false;
    if (found !== null && verify(this.model, found).length === 0 && this.keep(found)) this.quick!.join(found);
    return true;
  }

  private get work(): number {
    // The quick search begins before there is a kernel.
    return ((this.kernel as Kernel | undefined)?.trail.work ?? 0) + this.otherWork;
  }

  /** What was not done by the kernel. */
  private get otherWork(): number {
    return Math.ceil(this.quick?.work ?? 0) + this.blockWork;
  }

  private get exhausted(): boolean {
    return this.stopped || this.work >= this.budget;
  }

  private infeasible(): Outcome {
    const limit = Math.max(LEAST_CLASH_WORK, this.budget * CLASH_SHARE);
    const { clash, work } = findClash(this.model, this.options.seed, limit, this.stop);
    return { status: 'infeasible', clash, work: this.work + work };
  }

  private levels(): LevelOutcome[] {
    return this.model.levels.map((level, k) => ({
      name: level.name,
      value: this.values[k],
      bound: this.proven[k] ? this.values[k] : Math.min(this.bounds[k], this.values[k]),
      proven: this.proven[k],
    }));
  }

  private report(): void {
    this.options.progress?.({
      work: this.work,
      best: this.best,
      levels: this.best === null ? [] : this.levels(),
    });
  }

  private run(hard: Atoms, soft: Atoms, conflicts: number, work = Infinity): Verdict {
    if (
      this.cuts &&
      this.best !== null &&
      !this.search.assert(2 * this.kernel.totals[0] + 1, 1 - this.values[0])
    )
      return 'contradiction';
    const verdict = this.search.run(hard, soft, {
      work: Math.min(this.budget, work) - this.otherWork,
      conflicts,
    });
    if (verdict === 'solution') this.take();
    return verdict;
  }

  /** Reads a solution off the bounds; keeps it when it is better. */
  private take(): void {
    const { startCount, choiceCount, trail } = this.kernel;
    const starts = Array.from({ length: startCount }, (_, s) => trail.bound[2 * s]);
    const choices = Array.from({ length: choiceCount }, (_, c) => trail.bound[2 * (startCount + c)] === 1);
    if (this.keep({ starts, choices })) this.search.keepPhases();
  }

  /** Keeps the best of the quick search, which may know nothing of latest times, if it is better; says whether. */
  private keepOfQuick(quick: QuickSearch): boolean {
    const found = quick.assignment();
    return found !== null && verify(this.model, found).length === 0 && this.keep(found);
  }

  /** The end at which a value of the first level is reached, where that is one lateness. */
  private endAt(value: number): number {
    const [cost] = this.model.levels[0].costs;
    if (cost.kind !== 'late')
      throw new Error('solve: a quick search where the first level is not one lateness');
    return cost.after + Math.floor(value / cost.weight);
  }

  /** The end at which the first level is proved. */
  private goal(): number {
    return this.endAt(this.bounds[0]);
  }

  /** Keeps a schedule if it is better, and says whether. */
  private keep(found: Assignment): boolean {
    const values = this.model.levels.map((level) => evaluate(level, found));
    const k = this.best === null ? 0 : values.findIndex((value, level) => value !== this.values[level]);
    if (this.best !== null && (k < 0 || values[k] > this.values[k])) return false;
    this.best = found;
    this.values = values;
    for (let later = k + 1; later < values.length; later++) {
      this.bounds[later] = 0;
      this.proven[later] = false;
    }
    this.report();
    return true;
  }

  private firstSolution(): Verdict {
    const { search } = this;
    const { hint } = this.options;
    if (hint !== undefined) {
      const soft = this.hintAtoms(hint);
      search.dive = true;
      const verdict = this.run([], soft, 200);
      if (verdict !== 'limit') return verdict;
    }
    if (this.best !== null) {
      // A dive finds other schedules than the quick search.
      search.dive = true;
      const verdict = this.run([], [], DIVE_CONFLICTS);
      search.follow(this.best);
      return verdict === 'contradiction' ? verdict : 'solution';
    }
    for (let round = 0; ; round++) {
      search.dive = round % 3 !== 2;
      search.latestFirst = round % 3 === 1;
      const verdict = this.run(
        [],
        [],
        round === 0 ? DIVE_CONFLICTS : FIRST_CONFLICTS << Math.min(12, Math.floor(round / 3)),
      );
      if (verdict !== 'limit' || this.exhausted) return verdict;
    }
  }

  private hintAtoms(hint: Assignment): Atoms {
    const { search, kernel } = this;
    const atoms: [number, number][] = [];
    hint.choices.slice(0, kernel.choiceCount).forEach((choice, c) => {
      const x = kernel.startCount + c;
      search.phase[x] = choice ? 1 : 0;
      search.hasPhase[x] = 1;
      atoms.push(choice ? [2 * x, 1] : [2 * x + 1, 0]);
    });
    hint.starts
      .slice(0, kernel.startCount)
      .map((at, s) => [at, s])
      .sort((a, b) => a[0] - b[0] || a[1] - b[1])
      .forEach(([at, s]) => {
        search.phase[s] = at;
        search.hasPhase[s] = 1;
        atoms.push([2 * s + 1, -at], [2 * s, at]);
      });
    return atoms;
  }

  private improve(): void {
    const count = this.model.levels.length;
    for (
      let slice = Math.max(20_000, 4 * this.work);
      !this.exhausted;
      slice *= this.quick === null ? 2 : 1.5
    ) {
      const open = this.proven.findIndex((proven) => !proven);
      if (open < 0) return;
      for (let k = open; k < count && !this.exhausted; k++) {
        const before = this.values.slice(0, k + 1);
        if (this.proven[k]) continue;
        if (k === 0 && this.quick !== null) this.minimiseBeside(this.quick, slice);
        else this.minimise(k, this.work + slice);
        // A better earlier level makes the later ones start again.
        if (this.values.some((value, level) => level < k && value !== before[level])) break;
      }
    }
  }

  /** The first level where there is a quick search: a share of the work for each of the two, the larger one for that which finds more. */
  private minimiseBeside(quick: QuickSearch, work: number): void {
    const { shares } = quick;
    const limit = shares.ofQuick(Math.min(this.budget - this.work, work));
    if (this.endAt(this.values[0]) < quick.makespan) quick.join(this.best!);
    quick.run(quick.work + limit, this.goal(), this.stop);
    const isBetter = this.keepOfQuick(quick);
    if (isBetter) this.search.follow(this.best!);
    shares.quickFound(isBetter);

    const gap = this.values[0] - this.bounds[0];
    const end = this.work + work - limit;
    this.raiseBound(this.work + (end - this.work) * (quick.leavesProof ? RAISE_SHARE : LEAST_RAISE_SHARE));
    if (!quick.leavesProof) this.seek(this.work + (end - this.work) * this.seekShare);
    this.close(end);
    shares.exactClosed(gap, this.values[0] - this.bounds[0]);
  }

  /** Looks for better schedules; where there are none any more, the work goes to the proof. */
  private seek(limit: number): void {
    const before = this.values[0];
    this.minimise(0, limit);
    this.seekShare =
      this.values[0] < before ? MOST_SEEK_SHARE : Math.max(LEAST_SEEK_SHARE, this.seekShare / 2);
  }

  /** Halves the gap of the first level again and again: a value that is refuted soon raises the bound, one that is not is given up. */
  private raiseBound(limit: number): void {
    const view = 2 * this.kernel.totals[0] + 1;
    this.decideByActivity();
    let most = this.values[0] - 1;
    while (this.bounds[0] <= most && this.work < limit && !this.exhausted) {
      const target = (this.bounds[0] + most) >> 1;
      const verdict = this.run([[view, -target]], [], this.refuteConflicts, limit);
      if (verdict === 'contradiction') {
        this.refuted();
        return;
      }
      if (verdict === 'refuted') {
        this.bounds[0] = target + 1;
        this.report();
      } else most = Math.min(target, this.values[0]) - 1;
    }
    this.refuteConflicts *= 2;
  }

  /** Asks for anything better than the best, in one search without a change of question, until the first level is proven. */
  private close(limit: number): void {
    const view = 2 * this.kernel.totals[0] + 1;
    this.decideByActivity();
    while (this.work < limit && !this.exhausted && !this.proven[0]) {
      const verdict =
        this.bounds[0] >= this.values[0]
          ? 'refuted'
          : this.run([[view, 1 - this.values[0]]], [], Infinity, limit);
      if (verdict === 'refuted' || verdict === 'contradiction') this.prove(0);
      // There was something to find: larger steps find the next sooner.
      else if (verdict === 'solution') this.seek(limit);
    }
  }

  private decideByActivity(): void {
    const { search, kernel } = this;
    search.dive = false;
    // Where many tasks exclude each other, the orders are the better decisions once there is a schedule to follow.
    search.decideStarts(!kernel.isSettledByOrders && kernel.orders.count < kernel.startCount);
  }

  /** Improves one level under the values of the earlier ones, until it is proven or its work is used up. */
  private minimise(k: number, limit: number): void {
    const { search, kernel } = this;
    const { totals } = kernel;
    let step = this.steps[k];
    let round = 0;
    let patience = 100;
    const before = this.values.slice(0, k);
    this.decideByActivity();
    const { costs } = this.model.levels[k];
    const shifts = !kernel.isSettledByOrders && costs.length === 1 && costs[0].kind === 'late';
    while (this.work < limit && !this.exhausted) {
      if (before.some((value, level) => value !== this.values[level])) return;
      this.bounds[k] = Math.max(this.bounds[k], kernel.trail.rootBound(2 * totals[k]));
      if (this.bounds[k] >= this.values[k]) {
        this.prove(k);
        return;
      }
      const value = this.values[k];
      const target = Math.max(this.bounds[k], value - step);
      const hard: [number, number][] = [];
      for (let level = 0; level < k; level++) hard.push([2 * totals[level] + 1, -this.values[level]]);
      const narrow = round % 2 === 1;
      hard.push([2 * totals[k] + 1, -(narrow && !shifts ? value - 1 : target)]);
      const shift = shifts ? value - target : 0;
      const soft = narrow ? chooseNeighbourhood(this.neighbours, search, this.best!, shift) : [];
      const verdict = this.run(hard, soft, narrow ? 200 : patience, limit);
      if (verdict === 'solution') {
        step = Math.min(2 * step, Math.max(1, (this.values[k] - this.bounds[k] + 1) >> 1));
      } else if (verdict === 'refuted') {
        if (search.refutedAt < k) throw new Error('solve: the values of a known solution were refuted');
        const raised = -hard[k][1] + 1;
        this.bounds[k] = Math.max(this.bounds[k], raised);
        step = Math.max(1, Math.min(step >> 1, (value - raised) >> 1));
        this.report();
      } else if (verdict === 'contradiction') {
        this.refuted();
      } else if (!narrow) {
        step = Math.max(1, step >> 1);
        if (step === 1) patience = Math.min(100_000, patience + (patience >> 2));
      }
      this.steps[k] = step;
      round++;
    }
  }

  /** There is nothing but what has been cut off: the best is proved. */
  private refuted(): void {
    if (!this.cuts) throw new Error('solve: a model with a known solution was refuted');
    this.prove(0);
  }

  private prove(k: number): void {
    this.bounds[k] = this.values[k];
    this.proven[k] = true;
    this.report();
  }
}
