/**
 * Windows of a project's schedule, each solved anew: the activities in it are free, those before stay where they are, and those after are all earlier
 * by the same time. That is a small problem of its own, so that hundreds can be asked where the whole one allows a handful. Now and then what
 * comes after stays too: another schedule of the same length may give way where this one does not.
 *
 * Literature: Palpant, Artigues, Michelon 2004 (parts of a schedule solved exactly).
 */
import type { Chance } from './chance.ts';
import { Channel } from './channel.ts';
import { Kernel } from './kernel.ts';
import { NEVER, type Model } from './model.ts';
import { opposedArcs, type Arcs, type Project } from './project.ts';
import { Search } from './search.ts';
import { someActivities } from './some-activities.ts';
import { sortBy, upTo } from './sort-by.ts';
import { stepsToBuild, stepsToChoose } from './window-work.ts';

/** A window has so many activities, and up to so many more; the latter grows by so many with every round of windows that led to nothing shorter. */
const SMALLEST = 14;
const WIDER = 14;
const WIDER_STEP = 4;
/** After so many rounds that led to nothing shorter another schedule should be gone on from. A round is as many windows as there are activities. */
const MOST_ROUNDS = 2;
/** More than so many free activities are too many. */
const MOST_FREE = 60;
/** The share of windows after which all stays. */
const PLATEAU = 0.5;
/** Most windows are asked to be shorter by one, some by up to so many. */
const LONGEST_SHIFT = 3;
const LONG = 0.3;
/** Conflicts after which a window is given up: in a dive, then by activity. */
const DIVE_CONFLICTS = 15;
const CONFLICTS = 60;

const BEFORE = 0;
const FREE = 1;
const AFTER = 2;

export class WindowSearch {
  work = 0;
  private readonly opposed: Arcs;
  private readonly channels: readonly Channel[];
  /** The activities as they begin one after the other. */
  private readonly order: Int32Array;
  /** BEFORE, FREE or AFTER, an activity. */
  private readonly where: Int8Array;
  /** Where what is not free lies. */
  private readonly fixed: Int32Array;
  /** When each may begin. */
  private readonly least: Int32Array;
  private readonly greatest: Int32Array;
  /** Windows since the last that led to something shorter, or since the first. */
  private idle = 0;

  constructor(
    private readonly project: Project,
    private readonly chance: Chance,
  ) {
    const { n, arcs, capacity } = project;
    this.opposed = opposedArcs(n, arcs);
    this.channels = capacity.map((each) => new Channel(each));
    this.order = upTo(n);
    this.where = new Int8Array(n);
    this.fixed = new Int32Array(n);
    this.least = new Int32Array(n);
    this.greatest = new Int32Array(n);
  }

  /** Rounds that led to nothing shorter. */
  private get rounds(): number {
    return Math.floor(this.idle / this.project.n);
  }

  get isBarren(): boolean {
    return this.rounds >= MOST_ROUNDS;
  }

  /** What comes next is another schedule: a first round begins. */
  forget(): void {
    this.idle = 0;
  }

  /**
   * Goes on from a schedule until all work comes to `work`, the end is at most `goal`, the schedule is barren, or it is told to stop.
   * @returns the last schedule; it is no longer than the first
   */
  run(from: Int32Array, work: number, goal: number, stop: () => boolean): Int32Array {
    const { chance } = this;
    const { n, end } = this.project;
    let latest = from;
    while (this.work < work && latest[end] > goal && !this.isBarren && !stop()) {
      const size = Math.min(n, SMALLEST + chance.below(WIDER + WIDER_STEP * this.rounds));
      const isLong = chance.next() < LONG;
      const shift = chance.next() < PLATEAU ? 0 : 1 + (isLong ? chance.below(LONGEST_SHIFT) : 0);
      const found = this.solved(latest, chance.below(n - size + 1), size, shift);
      this.idle = found !== null && found[end] < latest[end] ? 0 : this.idle + 1;
      latest = found ?? latest;
    }
    return latest;
  }

  /** The schedule with a window of `size` activities, from the one on that begins as number `at`, solved anew; null when that was not found. */
  private solved(starts: Int32Array, at: number, size: number, shift: number): Int32Array | null {
    this.work += stepsToChoose(this.project.n);
    if (!this.split(starts, at, size, shift)) return null;
    const free: number[] = [];
    for (let i = 0; i < this.project.n; i++) if (this.where[i] === FREE) free.push(i);
    this.work += stepsToBuild(free.length);
    const model = free.length <= MOST_FREE ? this.modelOf(free) : null;
    const kernel = model && new Kernel(model, false);
    if (kernel === null || !kernel.sound) return null;
    const search = new Search(kernel, 1 + this.chance.below(1 << 20), () => false);
    search.decideStarts(kernel.decidesStarts);
    let verdict = search.run([], [], { work: Infinity, conflicts: DIVE_CONFLICTS });
    search.dive = false;
    if (verdict === 'limit') verdict = search.run([], [], { work: Infinity, conflicts: CONFLICTS });
    this.work += kernel.trail.work;
    if (verdict !== 'solution') return null;
    const found = this.fixed.slice();
    free.forEach((i, k) => (found[i] = kernel.trail.bound[2 * k]));
    return found;
  }

  /** Says what is free and where all else lies, so that nothing fixed contradicts anything fixed; false when the end itself cannot be earlier. */
  private split(starts: Int32Array, at: number, size: number, shift: number): boolean {
    const { where, fixed, order } = this;
    const { n, arcs, earliest, end, length, useStart } = this.project;
    sortBy(order, starts);
    order.forEach((i, k) => (where[i] = k < at ? BEFORE : k < at + size ? FREE : AFTER));
    where[end] = AFTER;
    let firstAfter = Infinity;
    for (let i = 0; i < n; i++) {
      fixed[i] = starts[i] - (where[i] === AFTER ? shift : 0);
      if (where[i] === AFTER && fixed[i] < earliest[i]) where[i] = FREE;
      if (where[i] === AFTER && useStart[i + 1] > useStart[i]) firstAfter = Math.min(firstAfter, fixed[i]);
    }
    if (where[end] === FREE) return false;
    for (let i = 0; i < n; i++) {
      if (where[i] !== BEFORE) continue;
      if (useStart[i + 1] > useStart[i] && starts[i] + length[i] > firstAfter) where[i] = FREE;
      for (let k = arcs.start[i]; k < arcs.start[i + 1]; k++) {
        const j = arcs.to[k];
        if (where[j] !== AFTER || fixed[j] >= starts[i] + arcs.gap[k]) continue;
        where[i] = FREE;
        if (j !== end) where[j] = FREE;
      }
    }
    return true;
  }

  /** The problem of the free activities among the fixed ones, for the time in which they can run; null when it is seen to have no solution. */
  private modelOf(free: readonly number[]): Model | null {
    if (!this.narrow(free)) return null;
    const { least, greatest, channels } = this;
    const { length } = this.project;
    const model = someActivities(this.project, free);
    const starts = free.map((i) => ({ name: `${i}`, earliest: least[i], latest: greatest[i] }));
    const begin = free.reduce((time, i) => Math.min(time, least[i]), NEVER);
    const end = free.reduce((time, i) => Math.max(time, greatest[i] + length[i]), -NEVER);
    if (!this.takeFixed(begin, end)) return null;
    const resources = model.resources
      .map((resource, r) => ({
        ...resource,
        capacity: channels[r].steps(begin, end),
      }))
      .filter(({ tasks }) => tasks.length > 0);
    return { ...model, starts, resources };
  }

  /** Each free activity's least and greatest start by the lags; false when one has none. */
  private narrow(free: readonly number[]): boolean {
    const { least, greatest, opposed } = this;
    const { arcs, earliest, latest } = this.project;
    least.set(this.fixed);
    greatest.set(this.fixed);
    for (const i of free) {
      least[i] = earliest[i];
      greatest[i] = latest[i];
    }
    for (let isNarrower = true; isNarrower;) {
      isNarrower = false;
      for (const i of free) {
        const [from, to] = [least[i], greatest[i]];
        for (let a = opposed.start[i]; a < opposed.start[i + 1]; a++)
          least[i] = Math.max(least[i], least[opposed.to[a]] + opposed.gap[a]);
        for (let a = arcs.start[i]; a < arcs.start[i + 1]; a++)
          greatest[i] = Math.min(greatest[i], greatest[arcs.to[a]] - arcs.gap[a]);
        if (least[i] > greatest[i]) return false;
        isNarrower ||= least[i] > from || greatest[i] < to;
      }
    }
    return true;
  }

  /** Takes from the capacities what the fixed activities use in `[begin, end)`; false where that is more than there is. */
  private takeFixed(begin: number, end: number): boolean {
    const { where, fixed, channels } = this;
    const { n, capacity, length, useStart, useOf, useAmount } = this.project;
    for (const channel of channels) channel.clear();
    for (let i = 0; i < n; i++) {
      const isBeside = fixed[i] >= end || fixed[i] + length[i] <= begin;
      for (let u = useStart[i]; u < useStart[i + 1] && where[i] !== FREE; u++)
        // What is moved may not fit where the capacity varies, wherever that is.
        if (!isBeside || capacity[useOf[u]].length > 2)
          channels[useOf[u]].take(fixed[i], fixed[i] + length[i], useAmount[u]);
    }
    return channels.every((channel) => channel.least() >= 0);
  }
}
