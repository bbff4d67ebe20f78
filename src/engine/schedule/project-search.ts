/**
 * The constructive and improving side for projects: list schedules (`project-lists.ts`) from priorities that are shaken within a window of the
 * schedule at hand, where a dive of the exact search takes many times as long; it proves nothing. In turn with them windows of a schedule are solved
 * anew (`window-search.ts`). Where they lead to nothing shorter any more it joins a small company of the best, and a list between two of these is
 * another beginning.
 *
 * Literature: Valls, Ballestin, Quintanilla 2008 (lists between two schedules), Dueck 1993 (what is a little worse than the best may be gone on from).
 */
import { Chance } from './chance.ts';
import { Company } from './company.ts';
import { NEVER, type Assignment } from './model.ts';
import { ProjectLists } from './project-lists.ts';
import type { Project } from './project.ts';
import type { QuickSearch } from './quick-search.ts';
import { WindowSearch } from './window-search.ts';
import { Yields } from './yields.ts';

/** Placements that take about as long as a step of the exact search. */
const PLACEMENTS_PER_STEP = 2.5;
/** Work for a first schedule, in steps for each start and each use of a resource. */
const FIRST_WORK = 200;
/** A schedule is gone on from when it is longer than the best by at most this share. */
const SLACK = 0.01;
/** So many lists in a row that lead nowhere: the lists are made the other way; so many again: that is all for this time. */
const MOST_FAILURES = 40;
/** How many schedules are kept to begin between; so many are enough for that, and some are begun from nothing even so. */
const COMPANY = 6;
const ENOUGH = 3;
const FROM_NOTHING = 0.2;
/** Two schedules are alike where their starts differ on average by less than this share of the makespan. */
const UNALIKE = 0.005;
/** A new beginning lies from this share of the way between two schedules to one minus it. */
const NEAREST = 0.3;
/** So many lists are tried for a new beginning. */
const MOST_BEGINNINGS = 10;
/** So much work is enough for some windows. */
const LEAST_FOR_WINDOWS = 2000;

interface Scheduled {
  readonly makespan: number;
  readonly start: Int32Array;
}

export class ProjectSearch implements QuickSearch {
  readonly shares = new Yields();
  /** How shaken lists, which are the quick ones here, and windows, each solved exactly, share the work. */
  private readonly inside = new Yields();
  readonly leavesProof = false;
  private readonly chance: Chance;
  private readonly lists: ProjectLists;
  private readonly windows: WindowSearch;
  private best: Int32Array | null = null;
  /** What lists go on from: a schedule little longer than the best. */
  private current: Int32Array | null = null;
  /** What windows go on from: the best, or what came of another beginning. */
  private windowed: Int32Array | null = null;
  private readonly company = new Company<Scheduled>(COMPANY, isAlike);
  makespan = Infinity;

  /** Looks for a first schedule; there may be none yet. */
  constructor(
    private readonly project: Project,
    seed: number,
  ) {
    this.chance = new Chance(seed);
    this.windows = new WindowSearch(project, this.chance);
    this.lists = new ProjectLists(project);
    if (this.lists.isSound) this.begin();
  }

  get work(): number {
    return this.lists.work / PLACEMENTS_PER_STEP + this.windows.work;
  }

  assignment(): Assignment | null {
    return this.best && { starts: [...this.best], choices: [] };
  }

  join({ starts }: Assignment): void {
    this.take(Int32Array.from(starts));
  }

  run(work: number, goal: number, stop: () => boolean): void {
    const least = Math.max(goal, this.lists.leastEnd);
    const { windows, inside } = this;
    if (this.best === null) return;
    const first = this.work;
    const gapOf = (): number => this.makespan - least;
    const gap = gapOf();
    const forLists = work - first < LEAST_FOR_WINDOWS ? work - first : inside.ofQuick(work - first);
    this.shake(first + forLists, least, stop);
    const between = gapOf();
    const left = work - this.work;
    if (left < LEAST_FOR_WINDOWS) return;
    inside.quickClosed(gap, between);
    const begun = windows.work;
    // Where half of the work has led to nothing shorter, the other half would be better spent elsewhere.
    if (this.solveWindows(begun + left / 2, least, stop)) this.solveWindows(begun + left, least, stop);
    inside.exactClosed(between, gapOf());
  }

  /** Lists until there is a schedule; chance grows from list to list. */
  private begin(): void {
    const { lists, chance, project } = this;
    const limit = FIRST_WORK * (project.n + project.useOf.length);
    for (let round = 0; this.best === null && this.work < limit; round++) {
      lists.byDue(round, chance);
      lists.isContracted = round % 2 === 1;
      const found = lists.placed(NEVER);
      if (found !== null) this.take(found);
    }
  }

  /** Shaken lists. */
  private shake(work: number, least: number, stop: () => boolean): void {
    const { lists, chance } = this;
    let polled = this.work;
    let failures = 0;
    while (this.current !== null && this.work < work && this.makespan > least) {
      if (this.work >= polled) {
        if (stop()) return;
        polled = this.work + 2000;
      }
      lists.shaken(this.current, chance);
      const found = lists.placed(this.makespan + Math.floor((this.makespan - lists.origin) * SLACK));
      if (found !== null) {
        this.take(lists.justified(found));
        failures = 0;
      } else if (++failures === MOST_FAILURES) lists.isContracted = !lists.isContracted;
      else if (failures === 2 * MOST_FAILURES) return;
    }
  }

  /** Windows until all their work comes to `work`; says whether something has become shorter, or another beginning was made. */
  private solveWindows(work: number, least: number, stop: () => boolean): boolean {
    const { windows, lists } = this;
    const { end } = this.project;
    let isShorter = false;
    while (this.windowed !== null && windows.work < work && this.makespan > least && !stop()) {
      const before = this.windowed;
      const after = lists.justified(windows.run(before, work, least, stop));
      isShorter ||= after[end] < before[end];
      this.windowed = after;
      // Lists go on from what is no longer than the best.
      if (after[end] <= this.makespan) this.take(after);
      if (!windows.isBarren) continue;
      windows.forget();
      this.company.welcome({ makespan: after[end] - lists.origin, start: after });
      const anew = this.beginAnew();
      isShorter ||= anew !== null;
      this.windowed = anew ?? this.best;
    }
    return isShorter;
  }

  /** Another schedule, most often by a list between two that windows have left; null when none was found. */
  private beginAnew(): Int32Array | null {
    const { company, chance, lists } = this;
    for (let round = 1; round <= MOST_BEGINNINGS; round++) {
      if (company.size < ENOUGH || chance.next() < FROM_NOTHING) lists.byDue(round, chance);
      else {
        const [from, to] = company.pair(chance);
        lists.between(from.start, to.start, NEAREST + (1 - 2 * NEAREST) * chance.next());
      }
      lists.isContracted = round % 2 === 0;
      const found = lists.placed(NEVER);
      if (found !== null) return lists.justified(found);
    }
    return null;
  }

  private take(found: Int32Array): void {
    const makespan = found[this.project.end];
    this.current = found;
    if (makespan >= this.makespan) return;
    this.makespan = makespan;
    this.best = this.windowed = found;
  }
}

function isAlike(a: Scheduled, b: Scheduled): boolean {
  const difference = a.start.reduce((sum, start, i) => sum + Math.abs(start - b.start[i]), 0);
  return difference < UNALIKE * a.makespan * a.start.length;
}
