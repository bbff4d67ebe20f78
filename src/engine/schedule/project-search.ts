/**
 * The constructive and improving side for projects: list schedules, forward and backward in time, from priorities that are shaken within a window
 * of the schedule at hand. One takes a small part of a millisecond, where a dive of the exact search takes many; it proves nothing. In turn with
 * them windows of a schedule are solved anew (`window-search.ts`). Where they lead to nothing shorter any more it joins a small company of the best,
 * and a list between two of these is another beginning.
 *
 * Literature: Franck, Neumann, Schwindt 2001 (schedule generation under maximum lags), Valls, Ballestin, Quintanilla 2005 and 2008 (justification:
 * forward and backward in turn; lists between two schedules), Dueck 1993 (what is a little worse than the best may be gone on from).
 */
import { Chance } from './chance.ts';
import { Company } from './company.ts';
import { componentsOf } from './cycles.ts';
import { ListSchedule } from './list-schedule.ts';
import { NEVER, type Assignment } from './model.ts';
import { mirroredArcs, opposedArcs, raiseAlong, type Project } from './project.ts';
import type { QuickSearch } from './quick-search.ts';
import { WindowSearch } from './window-search.ts';
import { Yields } from './yields.ts';

/** Placements that take about as long as a step of the exact search. */
const PLACEMENTS_PER_STEP = 2.5;
/** Work for a first schedule, in steps for each start and each use of a resource. */
const FIRST_WORK = 200;
/** The first lists are shaken by this part of the longest path, then by twice, three times so much. */
const CALM = 20;
/** Of what goes together, the keys differ so little that nothing else comes between. */
const INSIDE = 1e-6;
/** A schedule is gone on from when it is longer than the best by at most this share. */
const SLACK = 0.01;
/** Turns of time after which a schedule is left as it is, though it still gets shorter. */
const MOST_TURNS = 5;
/** So many lists in a row that lead nowhere: the lists are made the other way; so many again: that is all for this time. */
const MOST_FAILURES = 40;
/** A shaken window is this share of the makespan, and up to so much more. */
const NARROWEST = 0.05;
const WIDER = 0.25;
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
  /** Each start's least and greatest time by the lags alone. */
  private readonly heads: Int32Array;
  private readonly lasts: Int32Array;
  /** When the first activity can begin. */
  private readonly origin: number;
  /** The longest path from each start to the end; -NEVER where there is none. */
  private readonly tails: Int32Array;
  private readonly forward: ListSchedule;
  private readonly backward: ListSchedule;
  private readonly canTurn: boolean;
  private readonly key: Float64Array;
  private readonly greatest: Int32Array;
  private readonly component: Int32Array;
  /** Scratch: the least key of each component. */
  private readonly first: Float64Array;
  /** Do the components go as one? */
  private isContracted = false;
  private readonly chance: Chance;
  private readonly windows: WindowSearch;
  private best: Int32Array | null = null;
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
    const { n, arcs, end, earliest, latest } = project;
    this.chance = new Chance(seed);
    this.windows = new WindowSearch(project, this.chance);
    this.key = new Float64Array(n);
    this.greatest = new Int32Array(n);
    this.first = new Float64Array(n);
    this.forward = new ListSchedule(project, arcs);
    this.backward = new ListSchedule(project, mirroredArcs(project));
    this.canTurn = project.capacity.every((capacity) => capacity.length === 2);
    this.heads = earliest.slice();
    const opposed = opposedArcs(n, arcs);
    const negated = latest.map((time) => -time);
    this.tails = new Int32Array(n).fill(-NEVER);
    this.tails[end] = 0;
    const isSound =
      raiseAlong(
        arcs,
        this.heads,
        latest.reduce((a, b) => Math.max(a, b)),
      ) &&
      raiseAlong(opposed, negated, -earliest.reduce((a, b) => Math.min(a, b))) &&
      raiseAlong(opposed, this.tails, NEVER);
    this.lasts = negated.map((time) => -time);
    this.origin = this.heads.reduce((a, b) => Math.min(a, b));
    this.component = componentsOf(arcs, opposed);
    if (isSound) this.begin();
  }

  get work(): number {
    return (this.forward.work + this.backward.work) / PLACEMENTS_PER_STEP + this.windows.work;
  }

  assignment(): Assignment | null {
    return this.best && { starts: [...this.best], choices: [] };
  }

  join({ starts }: Assignment): void {
    this.take(Int32Array.from(starts));
  }

  run(work: number, goal: number, stop: () => boolean): void {
    const least = Math.max(goal, this.heads[this.project.end]);
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

  /** Windows until all their work comes to `work`; says whether something has become shorter, or another beginning was made. */
  private solveWindows(work: number, least: number, stop: () => boolean): boolean {
    const { windows } = this;
    const { end } = this.project;
    let isShorter = false;
    while (this.windowed !== null && windows.work < work && this.makespan > least && !stop()) {
      const before = this.windowed;
      const after = this.justified(windows.run(before, work, least, stop));
      isShorter ||= after[end] < before[end];
      this.windowed = after;
      // Lists go on from what is no longer than the best.
      if (after[end] <= this.makespan) this.take(after);
      if (!windows.isBarren) continue;
      windows.forget();
      this.company.welcome({ makespan: after[end] - this.origin, start: after });
      const anew = this.beginAnew();
      isShorter ||= anew !== null;
      this.windowed = anew ?? this.best;
    }
    return isShorter;
  }

  /** Another schedule, most often by a list between two that windows have left; null when none was found. */
  private beginAnew(): Int32Array | null {
    const { company, chance, key } = this;
    for (let round = 1; round <= MOST_BEGINNINGS; round++) {
      if (company.size < ENOUGH || chance.next() < FROM_NOTHING) this.setKeys(round);
      else {
        const [from, to] = company.pair(chance);
        const share = NEAREST + (1 - 2 * NEAREST) * chance.next();
        for (let i = 0; i < key.length; i++) key[i] = (1 - share) * from.start[i] + share * to.start[i];
      }
      this.isContracted = round % 2 === 0;
      const found = this.placeShaken(NEVER);
      if (found !== null) return this.justified(found);
    }
    return null;
  }

  /** Shaken lists. */
  private shake(work: number, least: number, stop: () => boolean): void {
    const { key, chance } = this;
    const { n, end } = this.project;
    let polled = this.work;
    let failures = 0;
    while (this.current !== null && this.work < work && this.makespan > least) {
      if (this.work >= polled) {
        if (stop()) return;
        polled = this.work + 2000;
      }
      const { current } = this;
      const span = current[end] - this.origin;
      const width = span * (NARROWEST + WIDER * chance.next());
      const from = this.origin + chance.next() * span - width / 2;
      for (let i = 0; i < n; i++) {
        const isShaken = current[i] >= from && current[i] <= from + width;
        key[i] = current[i] + (isShaken ? (chance.next() - 0.5) * width : 0);
      }
      const found = this.placeShaken(this.makespan + Math.floor((this.makespan - this.origin) * SLACK));
      if (found !== null) {
        this.take(this.justified(found));
        failures = 0;
      } else if (++failures === MOST_FAILURES) this.isContracted = !this.isContracted;
      else if (failures === 2 * MOST_FAILURES) return;
    }
  }

  /** Lists until there is a schedule; chance grows from list to list. */
  private begin(): void {
    const { project } = this;
    const limit = FIRST_WORK * (project.n + project.useOf.length);
    for (let round = 0; this.best === null && this.work < limit; round++) {
      this.setKeys(round);
      this.isContracted = round % 2 === 1;
      const found = this.placeShaken(NEVER);
      if (found !== null) this.take(found);
    }
  }

  /** Those go first that must be over soonest, but for a part that chance has, the larger the later the round. */
  private setKeys(round: number): void {
    const { key, tails, lasts, chance } = this;
    const longest = tails.reduce((a, b) => Math.max(a, b), 1);
    for (let i = 0; i < key.length; i++) key[i] = lasts[i] + (chance.next() * longest * round) / CALM;
  }

  /**
   * As `place`, for keys that chance has a part in. Where greatest lags are tight most lists lead nowhere: then what hangs together in circles goes
   * together, as one (contraction; Franck, Neumann, Schwindt 2001).
   */
  private placeShaken(limit: number): Int32Array | null {
    const { key, component, first } = this;
    if (this.isContracted) {
      first.fill(Infinity);
      for (let i = 0; i < key.length; i++) first[component[i]] = Math.min(first[component[i]], key[i]);
      for (let i = 0; i < key.length; i++)
        key[i] = first[component[i]] + (key[i] - first[component[i]]) * INSIDE;
    }
    return this.place(limit);
  }

  private take(found: Int32Array): void {
    const makespan = found[this.project.end];
    this.current = found;
    if (makespan >= this.makespan) return;
    this.makespan = makespan;
    this.best = this.windowed = found;
  }

  /** The list schedule by the keys, its end at most `limit`; null when the list leads to none. */
  private place(limit: number): Int32Array | null {
    this.setGreatest(limit);
    const start = this.heads.slice();
    return this.forward.place(this.key, start, this.greatest) ? start : null;
  }

  private setGreatest(limit: number): void {
    const { greatest, lasts, tails } = this;
    for (let i = 0; i < greatest.length; i++)
      greatest[i] = tails[i] > -NEVER ? Math.min(lasts[i], limit - tails[i]) : lasts[i];
  }

  /** Placed backward from its end, then forward again, as long as that makes it shorter. */
  private justified(found: Int32Array): Int32Array {
    const { end } = this.project;
    let best = found;
    for (let turn = 0; turn < MOST_TURNS && this.canTurn; turn++) {
      const next = this.turned(best);
      if (next === null) return best;
      const isShorter = next[end] < best[end];
      best = next;
      if (!isShorter) break;
    }
    return best;
  }

  private turned(start: Int32Array): Int32Array | null {
    const { key, heads, greatest, project } = this;
    const { n, length, end } = project;
    const makespan = start[end];
    this.setGreatest(makespan);
    const mirrored = new Int32Array(n);
    const mirroredGreatest = new Int32Array(n);
    for (let i = 0; i < n; i++) {
      mirrored[i] = makespan - length[i] - greatest[i];
      mirroredGreatest[i] = makespan - length[i] - heads[i];
      key[i] = makespan - length[i] - start[i];
    }
    if (!this.backward.place(key, mirrored, mirroredGreatest)) return null;
    for (let i = 0; i < n; i++) key[i] = makespan - length[i] - mirrored[i];
    return this.place(makespan);
  }
}

function isAlike(a: Scheduled, b: Scheduled): boolean {
  const difference = a.start.reduce((sum, start, i) => sum + Math.abs(start - b.start[i]), 0);
  return difference < UNALIKE * a.makespan * a.start.length;
}
