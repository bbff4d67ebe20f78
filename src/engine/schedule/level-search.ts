/**
 * One level by the exact search, from both sides: probes ask for a larger cut while they succeed and raise the bound when they are refuted;
 * neighbourhoods keep the best solution's orders outside a window; a steady search asks for anything better until there is nothing. All in one
 * search, so that what is learned stays.
 */
import type { Kernel } from './kernel.ts';
import type { Model } from './model.ts';
import { chooseNeighbourhood, Neighbours } from './neighbourhood.ts';
import type { Atoms, Search, Verdict } from './search.ts';
import type { Standing } from './standing.ts';

/** Of the exact search's work where it seeks better schedules too, how much that may be. */
const MOST_SEEK_SHARE = 1 / 2;
const LEAST_SEEK_SHARE = 1 / 16;
/** Conflicts after which a probe or a neighbourhood is given up. */
const FIRST_PATIENCE = 100;
const MOST_PATIENCE = 100_000;
const NARROW_PATIENCE = 200;
/** Conflicts after which a value that would raise the bound is given up, in the first turn; twice as many from turn to turn. */
const FIRST_REFUTE = 20;

/** Whoever pays for the work, and keeps what is found. */
export interface Payer {
  readonly work: number;
  readonly exhausted: boolean;
  /** Runs the exact search until so many conflicts, or until all work comes to `work`. A solution is in the standing before this returns. */
  ask(hard: Atoms, soft: Atoms, conflicts: number, work?: number): Verdict;
}

export class LevelSearch {
  private readonly neighbours: Neighbours;
  private refuteConflicts = FIRST_REFUTE;
  private seekShare = MOST_SEEK_SHARE;
  /** By how much a level is asked to be better; it grows while that is found. */
  private readonly steps: number[];

  /** `cuts`: what is not better than the best is cut off for good, so that a search may end in a contradiction. */
  constructor(
    private readonly model: Model,
    private readonly kernel: Kernel,
    private readonly search: Search,
    private readonly standing: Standing,
    private readonly payer: Payer,
    private readonly cuts: boolean,
  ) {
    this.neighbours = new Neighbours(kernel);
    this.steps = model.levels.map(() => 1);
  }

  /** A turn with the first level: the bound for `raiseShare` of the work, then better schedules unless `onlyProof`, then the proof. */
  turn(limit: number, raiseShare: number, onlyProof: boolean): void {
    const { payer } = this;
    this.raiseBound(payer.work + (limit - payer.work) * raiseShare);
    if (!onlyProof) this.seek(payer.work + (limit - payer.work) * this.seekShare);
    this.close(limit);
  }

  /** Looks for better schedules; where there are none any more, the work goes to the proof. */
  private seek(limit: number): void {
    const { standing } = this;
    const before = standing.values[0];
    this.minimise(0, limit);
    this.seekShare =
      standing.values[0] < before ? MOST_SEEK_SHARE : Math.max(LEAST_SEEK_SHARE, this.seekShare / 2);
  }

  /** Halves the gap of the first level again and again: a value that is refuted soon raises the bound, one that is not is given up. */
  private raiseBound(limit: number): void {
    const { standing, payer } = this;
    const view = 2 * this.kernel.totals[0] + 1;
    this.decideByActivity();
    let most = standing.values[0] - 1;
    while (standing.bounds[0] <= most && payer.work < limit && !payer.exhausted) {
      const target = (standing.bounds[0] + most) >> 1;
      const verdict = payer.ask([[view, -target]], [], this.refuteConflicts, limit);
      if (verdict === 'contradiction') {
        this.refuted();
        return;
      }
      if (verdict === 'refuted') standing.raise(0, target + 1);
      else most = Math.min(target, standing.values[0]) - 1;
    }
    this.refuteConflicts *= 2;
  }

  /** Asks for anything better than the best, in one search without a change of question, until the first level is proven. */
  private close(limit: number): void {
    const { search, standing, payer } = this;
    const view = 2 * this.kernel.totals[0] + 1;
    this.decideByActivity();
    while (payer.work < limit && !payer.exhausted && !standing.proven[0]) {
      search.keepsUndone = true;
      const verdict =
        standing.bounds[0] >= standing.values[0]
          ? 'refuted'
          : payer.ask([[view, 1 - standing.values[0]]], [], Infinity, limit);
      search.keepsUndone = false;
      search.follow(standing.best!);
      if (verdict === 'refuted' || verdict === 'contradiction') standing.prove(0);
      // There was something to find: larger steps find the next sooner.
      else if (verdict === 'solution') this.seek(limit);
    }
  }

  private decideByActivity(): void {
    const { search, kernel } = this;
    search.dive = false;
    search.decideStarts(kernel.decidesStarts);
  }

  /** Improves one level under the values of the earlier ones, until it is proven or its work is used up. */
  minimise(k: number, limit: number): void {
    const { search, kernel, standing, payer } = this;
    const { totals } = kernel;
    let step = this.steps[k];
    let round = 0;
    let patience = FIRST_PATIENCE;
    const before = standing.values.slice(0, k);
    this.decideByActivity();
    const { costs } = this.model.levels[k];
    const shifts = !kernel.isSettledByOrders && costs.length === 1 && costs[0].kind === 'late';
    while (payer.work < limit && !payer.exhausted) {
      if (before.some((value, level) => value !== standing.values[level])) return;
      standing.raise(k, kernel.trail.rootBound(2 * totals[k]));
      if (standing.bounds[k] >= standing.values[k]) {
        standing.prove(k);
        return;
      }
      const value = standing.values[k];
      const target = Math.max(standing.bounds[k], value - step);
      const hard: [number, number][] = [];
      for (let level = 0; level < k; level++) hard.push([2 * totals[level] + 1, -standing.values[level]]);
      const narrow = round % 2 === 1;
      hard.push([2 * totals[k] + 1, -(narrow && !shifts ? value - 1 : target)]);
      const shift = shifts ? value - target : 0;
      const soft = narrow ? chooseNeighbourhood(this.neighbours, search, standing.best!, shift) : [];
      const verdict = payer.ask(hard, soft, narrow ? NARROW_PATIENCE : patience, limit);
      if (verdict === 'solution') {
        step = Math.min(2 * step, Math.max(1, (standing.values[k] - standing.bounds[k] + 1) >> 1));
      } else if (verdict === 'refuted') {
        if (search.refutedAt < k) throw new Error('solve: the values of a known solution were refuted');
        const raised = -hard[k][1] + 1;
        standing.raise(k, raised);
        step = Math.max(1, Math.min(step >> 1, (value - raised) >> 1));
      } else if (verdict === 'contradiction') {
        this.refuted();
      } else if (!narrow) {
        step = Math.max(1, step >> 1);
        if (step === 1) patience = Math.min(MOST_PATIENCE, patience + (patience >> 2));
      }
      this.steps[k] = step;
      round++;
    }
  }

  /** There is nothing but what has been cut off: the best is proved. */
  refuted(): void {
    if (!this.cuts) throw new Error('solve: a model with a known solution was refuted');
    this.standing.prove(0);
  }
}
