/**
 * List schedules of a project: a key for each activity says who is placed first, and the schedule is placed backward and forward in time as long as
 * that makes it shorter. One takes a small part of a millisecond.
 *
 * Literature: Franck, Neumann, Schwindt 2001 (schedule generation under maximum lags; contraction), Valls, Ballestin, Quintanilla 2005 and 2008
 * (justification: forward and backward in turn; lists between two schedules).
 */
import type { Chance } from './chance.ts';
import { componentsOf } from './cycles.ts';
import { ListSchedule } from './list-schedule.ts';
import { NEVER } from './model.ts';
import { mirroredArcs, opposedArcs, raiseAlong, type Project } from './project.ts';

/** The first lists are shaken by this part of the longest path, then by twice, three times so much. */
const CALM = 20;
/** Of what goes together, the keys differ so little that nothing else comes between. */
const INSIDE = 1e-6;
/** Turns of time after which a schedule is left as it is, though it still gets shorter. */
const MOST_TURNS = 5;
/** A shaken window is this share of the makespan, and up to so much more. */
const NARROWEST = 0.05;
const WIDER = 0.25;

export class ProjectLists {
  /**
   * Where greatest lags are tight most lists lead nowhere: then what hangs together in circles of lags goes together, as one.
   */
  isContracted = false;
  /** False when the lags alone contradict each other. */
  readonly isSound: boolean;
  /** When the first activity can begin. */
  readonly origin: number;
  /** Who goes first, those with the least. */
  private readonly key: Float64Array;
  /** Each start's least and greatest time by the lags alone. */
  private readonly heads: Int32Array;
  private readonly lasts: Int32Array;
  /** The longest path from each start to the end; -NEVER where there is none. */
  private readonly tails: Int32Array;
  private readonly forward: ListSchedule;
  private readonly backward: ListSchedule;
  private readonly canTurn: boolean;
  private readonly greatest: Int32Array;
  private readonly component: Int32Array;
  /** Scratch: the least key of each component. */
  private readonly first: Float64Array;

  constructor(private readonly project: Project) {
    const { n, arcs, end, earliest, latest } = project;
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
    this.isSound =
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
  }

  /** Placements so far. */
  get work(): number {
    return this.forward.work + this.backward.work;
  }

  /** The end is no earlier, by the lags alone. */
  get leastEnd(): number {
    return this.heads[this.project.end];
  }

  /** Those first that must be over soonest, but for a part that chance has, the larger the later the round. */
  byDue(round: number, chance: Chance): void {
    const { key, tails, lasts } = this;
    const longest = tails.reduce((a, b) => Math.max(a, b), 1);
    for (let i = 0; i < key.length; i++) key[i] = lasts[i] + (chance.next() * longest * round) / CALM;
  }

  /** As a schedule has them, but for a window of time in which chance has a part. */
  shaken(start: Int32Array, chance: Chance): void {
    const { key, origin } = this;
    const span = start[this.project.end] - origin;
    const width = span * (NARROWEST + WIDER * chance.next());
    const from = origin + chance.next() * span - width / 2;
    for (let i = 0; i < key.length; i++) {
      const isShaken = start[i] >= from && start[i] <= from + width;
      key[i] = start[i] + (isShaken ? (chance.next() - 0.5) * width : 0);
    }
  }

  /** The `share`, 0 to 1, of the way from one schedule to another. */
  between(from: Int32Array, to: Int32Array, share: number): void {
    const { key } = this;
    for (let i = 0; i < key.length; i++) key[i] = (1 - share) * from[i] + share * to[i];
  }

  /** The list schedule by the keys, which were set anew, its end at most `limit`; null when the list leads to none. */
  placed(limit: number): Int32Array | null {
    const { key, component, first } = this;
    if (this.isContracted) {
      first.fill(Infinity);
      for (let i = 0; i < key.length; i++) first[component[i]] = Math.min(first[component[i]], key[i]);
      for (let i = 0; i < key.length; i++)
        key[i] = first[component[i]] + (key[i] - first[component[i]]) * INSIDE;
    }
    return this.place(limit);
  }

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

  /** The schedule placed backward from its end, then forward again, as long as that makes it shorter. */
  justified(found: Int32Array): Int32Array {
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
