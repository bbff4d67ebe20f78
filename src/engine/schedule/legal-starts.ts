/**
 * The oracle of a move: where may one start go while every other start and every choice stays, and what forbids the places where it
 * may not. Only rules that the start takes part in are asked; for an assignment that keeps all rules this is exact: the move is legal
 * when and only when `verify` finds nothing wrong with the moved assignment.
 *
 * Each rule forbids a few intervals of the start, in closed form through the inverses of its maps; their union's complement is the answer.
 */
import { commonRun, eachSubset, forbidMeeting, type Forbid, type Span } from './forbidden.ts';
import {
  NEVER,
  type Assignment,
  type Literal,
  type Model,
  type ReasonIndex,
  type Task,
  type Time,
} from './model.ts';
import { rulesOfStarts, type RulesOfStart } from './rules-of-start.ts';
import { eachStepWithout, profileOf, type Profile, type Run } from './use-profile.ts';

/** A rule that forbids a time to a start. */
export interface Blocker {
  readonly kind: 'lag' | 'opening' | 'resource' | 'exclusion' | 'domain';
  /** Into the model's lags, openings, resources or exclusions; of a domain, the start. */
  readonly index: number;
  /** The reason of the rule, or of the start's own task where several tasks share a thing; undefined where the model gives none. */
  readonly reason: ReasonIndex | undefined;
  /** The other starts that have a part in it: the other end of the lag, or the tasks (by `from`) that it would run into. */
  readonly others: readonly number[];
}

export interface Oracle {
  /** All legal times of a start, the others staying: `[from0, to0, from1, to1, ...]`, half-open, ascending and disjoint. */
  legalStarts(start: number): Int32Array;
  /** What forbids this time to the start; empty when it is legal. */
  blockers(start: number, at: Time): readonly Blocker[];
}

/** Is told of every interval that a rule forbids. */
type Visit = (
  from: Time,
  to: Time,
  kind: Blocker['kind'],
  index: number,
  reason: ReasonIndex | undefined,
  others: (at: Time) => readonly number[],
) => void;

/** @throws RangeError when the assignment is not one of the model */
export function makeOracle(model: Model, assignment: Assignment): Oracle {
  const { starts, choices } = assignment;
  if (starts.length !== model.starts.length || choices.length !== model.choices.length)
    throw new RangeError(
      `makeOracle: ${starts.length} starts and ${choices.length} choices given, the model has ${model.starts.length} and ${model.choices.length}`,
    );
  const rules = rulesOfStarts(model);
  const forbidden = new Forbidden(model, assignment);
  const rulesOf = (start: number): RulesOfStart => {
    if (rules[start] === undefined)
      throw new RangeError(`makeOracle: there is no start ${start}; the model has ${rules.length}`);
    return rules[start];
  };
  return {
    legalStarts(start) {
      const holes: [Time, Time][] = [];
      forbidden.visit(start, rulesOf(start), (from, to) => void (from < to && holes.push([from, to])));
      return complement(holes);
    },
    blockers(start, at) {
      const found = new Map<string, Blocker>();
      forbidden.visit(start, rulesOf(start), (from, to, kind, index, reason, others) => {
        if (at < from || at >= to) return;
        const key = `${kind} ${index} ${reason}`;
        const before = found.get(key)?.others ?? [];
        found.set(key, { kind, index, reason, others: [...new Set([...before, ...others(at)])] });
      });
      return [...found.values()];
    },
  };
}

/** `makeOracle(model, assignment).legalStarts(start)`; make an oracle when asking more than once. */
export const legalStarts = (model: Model, assignment: Assignment, start: number): Int32Array =>
  makeOracle(model, assignment).legalStarts(start);

/** `makeOracle(model, assignment).blockers(start, at)`; make an oracle when asking more than once. */
export const blockers = (model: Model, assignment: Assignment, start: number, at: Time): readonly Blocker[] =>
  makeOracle(model, assignment).blockers(start, at);

/** What lies between the holes, which reach from `-NEVER` to `NEVER`. */
function complement(holes: [Time, Time][]): Int32Array {
  holes.sort((a, b) => a[0] - b[0]);
  const out: number[] = [];
  let at = -NEVER;
  for (const [from, to] of holes) {
    if (from > at) out.push(at, from);
    if (to > at) at = to;
  }
  return Int32Array.from(out);
}

const nobody = (): readonly number[] => [];

class Forbidden {
  private readonly profiles: (Profile | undefined)[] = [];
  private readonly runsOfResource: (readonly Run[] | undefined)[] = [];

  constructor(
    private readonly model: Model,
    private readonly assignment: Assignment,
  ) {}

  /** Every interval forbidden to the start; all times outside its domain are. */
  visit(start: number, rules: RulesOfStart, visit: Visit): void {
    const { earliest, latest, reason } = this.model.starts[start];
    visit(-NEVER, earliest, 'domain', start, reason, nobody);
    visit(latest + 1, NEVER, 'domain', start, reason, nobody);
    const window = { from: earliest, to: latest + 1 };
    for (const k of rules.lags) this.lag(start, k, window, visit);
    for (const k of rules.openings) this.opening(k, visit);
    for (const { index, tasks } of rules.resources) this.resource(start, index, tasks, window, visit);
    for (const { index, one, other } of rules.exclusions)
      this.exclusion(start, index, one, other, window, visit);
  }

  private binds(when: readonly Literal[] | undefined): boolean {
    const { choices } = this.assignment;
    return when === undefined || when.every((literal) => choices[literal >> 1] === ((literal & 1) === 0));
  }

  private runOf(task: Task): Run | null {
    if (!this.binds(task.when)) return null;
    const from = this.assignment.starts[task.from];
    const until = task.until.at(this.assignment.starts[task.to]);
    return from < until ? { task, from, until } : null;
  }

  private runs(tasks: readonly Task[]): Run[] {
    return tasks.map((task) => this.runOf(task)).filter((run) => run !== null);
  }

  private lag(start: number, k: number, window: Span, visit: Visit): void {
    const { from, to, kind, map, when, reason } = this.model.lags[k];
    if (!this.binds(when)) return;
    const { starts } = this.assignment;
    if (from === to) {
      for (let s = window.from; s < window.to; s++)
        if (kind === 'least' ? s < map.at(s) : s > map.at(s)) visit(s, s + 1, 'lag', k, reason, nobody);
    } else if (to === start) {
      const bound = map.at(starts[from]);
      if (kind === 'least') visit(-NEVER, bound, 'lag', k, reason, () => [from]);
      else visit(bound + 1, NEVER, 'lag', k, reason, () => [from]);
    } else if (kind === 'least') {
      visit(map.leastReaching(starts[to] + 1), NEVER, 'lag', k, reason, () => [to]);
    } else {
      visit(-NEVER, map.leastReaching(starts[to]), 'lag', k, reason, () => [to]);
    }
  }

  private opening(k: number, visit: Visit): void {
    const { allowed, when, reason } = this.model.openings[k];
    if (!this.binds(when)) return;
    let at = -NEVER;
    for (let i = 0; i < allowed.length; i += 2) {
      visit(at, allowed[i], 'opening', k, reason, nobody);
      at = allowed[i + 1];
    }
    visit(at, NEVER, 'opening', k, reason, nobody);
  }

  private resource(start: number, index: number, tasks: readonly Task[], window: Span, visit: Visit): void {
    const own = tasks.filter((task) => this.binds(task.when));
    if (own.length === 0) return;
    const resource = this.model.resources[index];
    const runs = (this.runsOfResource[index] ??= this.runs(resource.tasks.filter((task) => task.amount > 0)));
    const profile = (this.profiles[index] ??= profileOf(resource, runs));
    const ownRuns = this.runs(own);
    eachSubset(own, (subset, amount) => {
      const run = commonRun(subset, start, this.assignment.starts);
      const { reason } = subset[0];
      // Neighbouring steps with too little left are one stretch.
      let p: Time | null = null;
      const close = (q: Time): void => {
        if (p === null) return;
        const from = p;
        const others = (at: Time): readonly number[] => this.metBy(runs, own, start, at, from, q);
        forbidMeeting(run, from, q, window, (lo, hi) => visit(lo, hi, 'resource', index, reason, others));
        p = null;
      };
      eachStepWithout(profile, ownRuns, (from, to, left) => {
        if (left < amount) p ??= from;
        else close(from);
        if (to === NEVER) close(NEVER);
      });
    });
  }

  /** Whose tasks run inside `[p, q)` while one of the start's own would, were it put at `at`. */
  private metBy(
    runs: readonly Run[],
    own: readonly Task[],
    start: number,
    at: Time,
    p: Time,
    q: Time,
  ): readonly number[] {
    const { starts } = this.assignment;
    const moved = own.map((task) => ({
      from: Math.max(p, task.from === start ? at : starts[task.from]),
      until: Math.min(q, task.until.at(task.to === start ? at : starts[task.to])),
    }));
    return runs
      .filter((run) => !own.includes(run.task) && moved.some((m) => run.from < m.until && m.from < run.until))
      .map((run) => run.task.from);
  }

  private exclusion(
    start: number,
    index: number,
    one: readonly Task[],
    other: readonly Task[],
    window: Span,
    visit: Visit,
  ): void {
    const model = this.model.exclusions[index];
    const against = (tasks: readonly Task[], facing: readonly Task[], ownFacing: readonly Task[]): void => {
      for (const task of tasks) {
        if (!this.binds(task.when)) continue;
        const run = commonRun([task], start, this.assignment.starts);
        for (const met of this.runs(facing)) {
          if (ownFacing.includes(met.task)) continue;
          forbidMeeting(run, met.from, met.until, window, (lo, hi) =>
            visit(lo, hi, 'exclusion', index, task.reason, () => [met.task.from]),
          );
        }
      }
    };
    against(one, model.other, other);
    against(other, model.one, one);
    const forbid =
      (task: Task): Forbid =>
      (lo, hi) =>
        visit(lo, hi, 'exclusion', index, task.reason, nobody);
    for (const a of one)
      for (const b of other)
        if (this.binds(a.when) && this.binds(b.when))
          forbidMeeting(commonRun([a, b], start, this.assignment.starts), -NEVER, NEVER, window, forbid(a));
  }
}
