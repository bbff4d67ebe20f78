/**
 * The solver: a first solution, then the levels in order, each from both sides (`level-search.ts`), beside a quick search where there is one for the
 * model's form. Rounds of growing size go over all open levels, so that every level gets its turn whenever it is stopped.
 */
import { scheduleByCircles } from './by-circles.ts';
import { findClash } from './clash.ts';
import { Kernel } from './kernel.ts';
import { LevelSearch, type Payer } from './level-search.ts';
import { requireSound } from './model-faults.ts';
import {
  hintsOf,
  type Assignment,
  type Model,
  type Outcome,
  type ReasonIndex,
  type SolveOptions,
} from './model.ts';
import { asProject } from './project.ts';
import { quickSearch, type QuickSearch } from './quick-search.ts';
import { Search, type Atoms, type Verdict, type Watcher } from './search.ts';
import { solveByParts } from './solve-by-parts.ts';
import { Standing } from './standing.ts';
import { verify } from './verify.ts';

/** What a clash may cost on top of the budget, as a share of it. */
const CLASH_SHARE = 0.5;
const LEAST_CLASH_WORK = 200_000;
/** Of the exact search's work, how much goes into the bound from below: where the quick search leaves it the proof, and where it does not. */
const RAISE_SHARE = 1 / 4;
const LEAST_RAISE_SHARE = 1 / 16;
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
 * @throws RangeError when the model or the options have faults (`modelFaults`, but that maps are not tried)
 */
export function solve(model: Model, options: SolveOptions): Outcome {
  requireSound(model, options);
  return solveByParts(model, options, (whole, rest) => solveWatched(whole, rest, null));
}

/** `solve` with a watcher for every explanation used and every clause learned: for tests. */
export function solveWatched(model: Model, options: SolveOptions, watcher: Watcher | null): Outcome {
  return new Solver(model, options, watcher).solve();
}

/** The clash of a model that is known to be infeasible, as `solve` would tell it. */
export function clashOf(
  model: Model,
  { seed, budget, stop = () => false }: Pick<SolveOptions, 'seed' | 'budget' | 'stop'>,
): { clash: readonly ReasonIndex[]; work: number } {
  return findClash(model, seed, Math.max(LEAST_CLASH_WORK, budget * CLASH_SHARE), stop);
}

class Solver implements Payer {
  private readonly kernel: Kernel;
  private readonly search: Search;
  private readonly stop: () => boolean;
  private readonly budget: number;
  private stopped = false;
  private readonly standing: Standing;
  private readonly level: LevelSearch;
  /** For models of a simple form: the search that finds good schedules where the exact one is slow. */
  private readonly quick: QuickSearch | null;
  /** With one level, what is not better than the best is cut off for good: shorter clauses, and more that holds without decisions. */
  private readonly cuts: boolean;
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
    this.standing = new Standing(model, () => this.report());
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
    if (this.standing.best !== null) this.search.follow(this.standing.best);
    this.level = new LevelSearch(model, this.kernel, this.search, this.standing, this, this.cuts);
  }

  solve(): Outcome {
    if (this.isInfeasible || !this.kernel.sound) return this.infeasible();
    const first = this.firstSolution();
    const { standing } = this;
    if (first === 'contradiction' && standing.best === null) return this.infeasible();
    if (first === 'contradiction') this.level.refuted();
    if (standing.best === null) return { status: 'unknown', work: this.work };
    this.improve();
    return {
      status: standing.proven.every(Boolean) ? 'optimal' : 'feasible',
      best: standing.best,
      levels: standing.levels(),
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
    if (found !== null && verify(this.model, found).length === 0 && this.standing.keep(found))
      this.quick!.join(found);
    return true;
  }

  get work(): number {
    // The quick search begins before there is a kernel.
    return ((this.kernel as Kernel | undefined)?.trail.work ?? 0) + this.otherWork;
  }

  /** What was not done by the kernel. */
  private get otherWork(): number {
    return Math.ceil(this.quick?.work ?? 0) + this.blockWork;
  }

  get exhausted(): boolean {
    return this.stopped || this.work >= this.budget;
  }

  private infeasible(): Outcome {
    if (this.options.isExplained === false) return { status: 'infeasible', clash: [], work: this.work };
    const { clash, work } = clashOf(this.model, { ...this.options, stop: this.stop });
    return { status: 'infeasible', clash, work: this.work + work };
  }

  private report(): void {
    const { best } = this.standing;
    this.options.progress?.({ work: this.work, best, levels: best === null ? [] : this.standing.levels() });
  }

  ask(hard: Atoms, soft: Atoms, conflicts: number, work = Infinity): Verdict {
    const { best, values } = this.standing;
    if (this.cuts && best !== null && !this.search.assert(2 * this.kernel.totals[0] + 1, 1 - values[0]))
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
    if (this.standing.keep({ starts, choices })) this.search.keepPhases();
  }

  /** Keeps the best of the quick search, which may know nothing of latest times, if it is better; says whether. */
  private keepOfQuick(quick: QuickSearch): boolean {
    const found = quick.assignment();
    return found !== null && verify(this.model, found).length === 0 && this.standing.keep(found);
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
    return this.endAt(this.standing.bounds[0]);
  }

  private firstSolution(): Verdict {
    const { search } = this;
    let isFound = false;
    for (const hint of hintsOf(this.options)) {
      const soft = this.hintAtoms(hint);
      search.dive = true;
      const verdict = this.ask([], soft, 200);
      if (verdict === 'contradiction') return verdict;
      isFound ||= verdict === 'solution';
    }
    if (isFound) return 'solution';
    if (this.standing.best !== null) {
      // A dive finds other schedules than the quick search.
      search.dive = true;
      const verdict = this.ask([], [], DIVE_CONFLICTS);
      search.follow(this.standing.best);
      return verdict === 'contradiction' ? verdict : 'solution';
    }
    for (let round = 0; ; round++) {
      search.dive = round % 3 !== 2;
      search.latestFirst = round % 3 === 1;
      const verdict = this.ask(
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
    const { standing } = this;
    const count = this.model.levels.length;
    for (
      let slice = Math.max(20_000, (this.quick === null ? 4 : 2) * this.work);
      !this.exhausted;
      slice *= this.quick === null ? 2 : 1.5
    ) {
      const open = standing.proven.findIndex((proven) => !proven);
      if (open < 0) return;
      for (let k = open; k < count && !this.exhausted; k++) {
        const before = standing.values.slice(0, k + 1);
        if (standing.proven[k]) continue;
        if (k === 0 && this.quick !== null) this.minimiseBeside(this.quick, slice);
        else this.level.minimise(k, this.work + slice);
        // A better earlier level makes the later ones start again.
        if (standing.values.some((value, level) => level < k && value !== before[level])) break;
      }
    }
  }

  /** The first level where there is a quick search: a share of the work for each of the two, the larger one for that which finds more. */
  private minimiseBeside(quick: QuickSearch, work: number): void {
    const { shares } = quick;
    const { standing } = this;
    const limit = shares.ofQuick(Math.min(this.budget - this.work, work));
    const gapOf = (): number => standing.values[0] - standing.bounds[0];
    const before = gapOf();
    if (this.endAt(standing.values[0]) < quick.makespan) quick.join(standing.best!);
    quick.run(quick.work + limit, this.goal(), this.stop);
    const isBetter = this.keepOfQuick(quick);
    if (isBetter) this.search.follow(standing.best!);
    const between = gapOf();
    shares.quickClosed(before, between);

    const end = this.work + work - limit;
    // What the quick search has just found the exact one often betters at once.
    const onlyProof = quick.leavesProof && !isBetter;
    this.level.turn(end, quick.leavesProof ? RAISE_SHARE : LEAST_RAISE_SHARE, onlyProof);
    shares.exactClosed(between, gapOf());
  }
}
