/**
 * The constructive and improving side for machine problems: schedules by dispatching, each bettered by a tabu search on its critical path and then
 * window by window, the best kept as a small company, and new beginnings between two of them. Quick where the exact search is slow; it proves nothing.
 * Deterministic in problem and seed; it can be stopped after any amount of work and gone on with.
 */
import { between } from './between.ts';
import { Chance } from './chance.ts';
import { Company } from './company.ts';
import { CriticalMoves } from './critical-moves.ts';
import { dispatch } from './dispatch.ts';
import type { MachineProblem } from './machine-problem.ts';
import { MachineSequences, type Sequenced } from './machine-sequences.ts';
import { MachineWindows } from './machine-windows.ts';
import type { Assignment } from './model.ts';
import type { QuickSearch } from './quick-search.ts';
import { Shares } from './shares.ts';

/** Looks at a move that take about as long as a step of the exact search. */
const LOOKS_PER_STEP = 8;
/** Steps for each node without anything better before a new beginning: where there is more to move, it takes longer to see that nothing helps. */
const PATIENCE = 20;
/** How many schedules are kept to begin between. */
const COMPANY = 6;
/** After so many beginnings that brought none better than the company's best, another company is gathered from nothing. */
const BARREN = 30;
/** Two schedules are alike where less than this share of the nodes has another mode or another node before it on its machine. */
const UNALIKE = 0.2;
/** A new beginning lies from this share of the way between two schedules to one minus it. */
const NEAREST = 0.3;

export class CriticalPathSearch implements QuickSearch {
  readonly shares = new Shares(1, { quick: 1 / 8, exact: 1 / 8 });
  readonly leavesProof = true;
  private readonly graph: MachineSequences;
  private readonly moves: CriticalMoves;
  private readonly windows: MachineWindows;
  private readonly chance: Chance;
  private readonly company = new Company(COMPANY, isAlike);
  /** The best since the last beginning, and the steps since it was found. */
  private latest: Sequenced;
  private idle = 0;
  private best: Sequenced;
  /** Beginnings since the company's best was found. */
  private barren = 0;
  private otherWork = 0;
  private readonly patience: number;

  /** Builds the first schedule. */
  constructor(
    private readonly problem: MachineProblem,
    seed: number,
  ) {
    this.chance = new Chance(seed);
    this.patience = PATIENCE * problem.nodes;
    this.graph = new MachineSequences(problem);
    this.moves = new CriticalMoves(this.graph, this.chance);
    this.windows = new MachineWindows(this.graph, this.chance);
    this.graph.restore(dispatch(this.graph, this.chance, 0));
    this.latest = this.best = this.graph.save();
    this.otherWork += problem.nodes;
  }

  /** Work done so far, in steps about as long as those of the exact search. */
  get work(): number {
    return (this.moves.work + this.otherWork) / LOOKS_PER_STEP + this.windows.work;
  }

  /** The least makespan found. */
  get makespan(): number {
    return this.best.makespan;
  }

  /** Goes on from a schedule found elsewhere. */
  join({ starts, choices }: Assignment): void {
    const { modeStart, choiceOf } = this.problem;
    const { graph, best } = this;
    const mode = graph.mode.map((_, u) => {
      let m = modeStart[u];
      while (m + 1 < modeStart[u + 1] && !choices[choiceOf[m]]) m++;
      return m;
    });
    // The sort keeps what begins at the same time in an order in which the lags go forward.
    const order = best.order.slice().sort((a, b) => starts[a] - starts[b]);
    this.company.welcome(this.latest);
    graph.restore({ mode, order });
    this.startHere();
  }

  /** The best schedule as times and choices. */
  assignment(): Assignment {
    const { problem } = this;
    const graph = new MachineSequences(problem);
    graph.restore(this.best);
    const choices = Array.from({ length: problem.choices }, () => false);
    for (const m of this.best.mode) if (problem.choiceOf[m] >= 0) choices[problem.choiceOf[m]] = true;
    return { starts: [...graph.head], choices };
  }

  /** Searches on until all its work comes to `work`, the makespan is at most `goal`, or it is told to stop. */
  run(work: number, goal: number, stop: () => boolean): void {
    let polled = this.work;
    while (this.work < work && this.best.makespan > goal) {
      if (this.work >= polled) {
        if (stop()) return;
        polled = this.work + 1000;
      }
      if (this.idle++ >= this.patience) this.begin(stop);
      if (!this.moves.step(this.latest.makespan)) this.idle = this.patience;
      if (this.graph.makespan < this.latest.makespan) {
        this.keep();
        this.idle = 0;
      }
    }
  }

  private begin(stop: () => boolean): void {
    const { company, chance, graph } = this;
    const least = company.makespan;
    graph.restore(this.latest);
    this.windows.sweep(stop);
    this.keep();
    company.welcome(this.latest);
    this.barren = company.makespan < least ? 0 : this.barren + 1;
    if (this.barren > BARREN) {
      this.barren = 0;
      company.dissolve();
    }
    if (company.isFull) {
      const [from, to] = company.pair(chance);
      const share = NEAREST + (1 - 2 * NEAREST) * chance.next();
      graph.restore(between(graph, from, to, share, chance));
      this.otherWork += 4 * this.problem.nodes;
    } else {
      graph.restore(dispatch(graph, chance, 1));
      this.otherWork += this.problem.nodes;
    }
    this.startHere();
  }

  private startHere(): void {
    this.moves.forget();
    this.keep();
    this.idle = 0;
  }

  private keep(): void {
    this.latest = this.graph.save();
    if (this.latest.makespan < this.best.makespan) this.best = this.latest;
  }
}

function isAlike(a: Sequenced, b: Sequenced): boolean {
  const different = a.before.reduce(
    (sum, u, k) => (u === b.before[k] && a.mode[k] === b.mode[k] ? sum : sum + 1),
    0,
  );
  return different < UNALIKE * a.before.length;
}
