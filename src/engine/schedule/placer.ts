/**
 * Places one part while the others stand.
 *
 * With its choices made, a part's lags, openings and tasks against what stands are closed under taking the earlier of two solutions start by
 * start: `to >= map(from)`, `to <= map(from)`, a set of allowed times, and "ends before a full stretch or begins after it" all are, the maps being
 * monotone. So raising lower bounds to their least fixpoint gives the one solution in which every start is as early as in any; no search is
 * needed for times, and none can do better on costs of lateness. With choices still open the fixpoint of what binds already is a
 * bound. So choices are made one after another, in the order of time, each for the least objective at the fixpoint, with a
 * little going back. Only tasks of the same part that run into one another break the rule; the later one is pushed behind.
 *
 * Literature: Jeavons and Cooper 1995 (max-closed constraints), Dechter, Meiri and Pearl 1991 (temporal networks).
 */
import { Channel } from './channel.ts';
import { firstReaching, leastGain } from './maps.ts';
import {
  NEVER,
  type Assignment,
  type Lag,
  type Literal,
  type Model,
  type Opening,
  type Task,
  type Time,
} from './model.ts';
import type { Part } from './parts.ts';
import { Tally } from './tally.ts';

/** A task with where it must fit and what it takes. */
interface Use {
  readonly task: Task;
  /** The task fits where this channel has `needs` left. */
  readonly fits: Channel;
  readonly needs: number;
  readonly takes: Channel;
  readonly amount: number;
  readonly isNeverEmpty: boolean;
}

/** Something to decide: a clause, or a choice that is in none. */
interface Question {
  readonly literals: readonly Literal[];
  /** The starts that the answers bear on. */
  readonly starts: readonly number[];
}

interface Taken {
  readonly channel: Channel;
  readonly from: Time;
  readonly until: Time;
  readonly amount: number;
}

/** Times and choices of one part, to be put back as they were. */
export interface Placement {
  readonly part: number;
  readonly starts: Int32Array;
  readonly choices: Int8Array;
}

export interface PlaceWishes {
  /** No start before this time, one a start of the model. */
  readonly floor?: Int32Array;
  /** Choices to prefer where nothing else tells options apart: 1 yes, 0 no, -1 no preference. */
  readonly prefer?: Int8Array;
  /** Only the preferred way is tried. */
  readonly isStrict?: boolean;
  /** In [0, 1): the share of decisions that take the second best option. */
  readonly daring?: number;
}

const PUSHES = 200;
const FAILURES = 40;

export class Placer {
  readonly least: Int32Array;
  readonly truth: Int8Array;
  readonly tally: Tally;
  /** Counted steps: revised starts and asked questions. */
  work = 0;

  private readonly latest: Int32Array;
  private readonly openings: readonly Opening[][];
  private readonly lagsOut: readonly Lag[][];
  private readonly lagsBack: readonly Lag[][];
  private readonly own: readonly Use[][];
  private readonly held: readonly Use[][];
  private readonly usesOfPart: readonly Use[][];
  private readonly questionsOfPart: readonly (readonly Question[])[];
  private readonly wakesOfLiteral: readonly (readonly (readonly [readonly Literal[], readonly number[]])[])[];
  private readonly clausesOfLiteral: readonly number[][];
  private readonly baseLeast: Int32Array;
  private readonly baseTruth: Int8Array;
  private readonly taken: Taken[][];
  /** Parts that even alone do not fit. */
  readonly isHopeless: boolean;

  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;
  private readonly trail: number[] = [];
  private readonly score: Float64Array;
  private failures = 0;

  /** @param random in [0, 1), from the seed alone */
  constructor(
    private readonly model: Model,
    readonly parts: readonly Part[],
    private readonly random: () => number,
  ) {
    const S = model.starts.length;
    this.least = Int32Array.from(model.starts, (start) => start.earliest);
    this.latest = Int32Array.from(model.starts, (start) => start.latest);
    this.truth = new Int8Array(model.choices.length).fill(-1);
    this.tally = new Tally(model, parts, this.least, this.truth);
    this.score = new Float64Array(model.levels.length + 1);
    this.queued = new Uint8Array(S);
    this.taken = parts.map(() => []);
    const perStart = <T>(): T[][] => Array.from({ length: S }, (): T[] => []);
    this.openings = perStart<Opening>();
    for (const opening of model.openings) this.openings[opening.start].push(opening);
    this.lagsOut = perStart<Lag>();
    this.lagsBack = perStart<Lag>();
    for (const lag of model.lags)
      (lag.kind === 'least' ? this.lagsOut[lag.from] : this.lagsBack[lag.to]).push(lag);
    this.own = perStart<Use>();
    this.held = perStart<Use>();
    const partOf = new Int32Array(S);
    parts.forEach(({ starts }, p) => starts.forEach((s) => (partOf[s] = p)));
    this.usesOfPart = parts.map(() => []);
    for (const use of usesOf(model)) {
      const { from, to } = use.task;
      this.usesOfPart[partOf[from]].push(use);
      if (from === to) this.own[from].push(use);
      else {
        this.held[from].push(use);
        this.held[to].push(use);
      }
    }
    const [startsOfChoice, wakesOfLiteral] = reachOfChoices(model);
    this.wakesOfLiteral = wakesOfLiteral;
    this.questionsOfPart = parts.map((part) => questionsOf(model, part, startsOfChoice));
    this.clausesOfLiteral = Array.from({ length: 2 * model.choices.length }, () => []);
    model.clauses.forEach(({ literals }, k) => {
      for (const literal of literals) this.clausesOfLiteral[literal].push(k);
    });
    this.isHopeless = !this.settleBase();
    this.trail.length = 0;
    this.baseLeast = this.least.slice();
    this.baseTruth = this.truth.slice();
  }

  private settleBase(): boolean {
    for (const { literals } of this.model.clauses) {
      if (literals.length === 0) return false;
      if (literals.length === 1 && !this.assign(literals[0])) return false;
    }
    for (let s = 0; s < this.least.length; s++) this.enqueue(s);
    return this.propagate();
  }

  /** The least time of a start when its part has everything for itself: no solution has it earlier. */
  leastAlone(start: number): Time {
    return this.baseLeast[start];
  }

  /** Is the literal true in every solution, as far as the part alone tells? */
  isForced(literal: Literal): boolean {
    return this.baseTruth[literal >> 1] === 1 - (literal & 1);
  }

  isFixed(part: number): boolean {
    return this.parts[part].starts.some((s) => this.model.starts[s].earliest === this.latest[s]);
  }

  assignment(): Assignment {
    return { starts: [...this.least], choices: Array.from(this.truth, (value) => value === 1) };
  }

  /** Lays the part down, as early as what stands allows. False when no way was found; then it is not there. */
  place(part: number, wishes: PlaceWishes = {}): boolean {
    const { starts, choices } = this.parts[part];
    for (const s of starts)
      this.least[s] =
        wishes.floor === undefined ? this.baseLeast[s] : Math.max(this.baseLeast[s], wishes.floor[s]);
    for (const c of choices) this.truth[c] = this.baseTruth[c];
    this.trail.length = 0;
    this.failures = FAILURES;
    for (const s of starts) this.enqueue(s);
    const done = this.propagate() && this.decide(part, wishes);
    if (done) this.tally.add(part);
    return done;
  }

  /** Takes a part up and tells where it lay. */
  remove(part: number): Placement {
    const { starts, choices } = this.parts[part];
    this.tally.remove(part);
    this.release(part);
    return {
      part,
      starts: Int32Array.from(starts, (s) => this.least[s]),
      choices: Int8Array.from(choices, (c) => this.truth[c]),
    };
  }

  /** Puts a part back where it lay; nothing is checked. */
  restore({ part, starts, choices }: Placement): void {
    this.put(
      part,
      (k) => starts[k],
      (k) => choices[k],
    );
    for (const use of this.usesOfPart[part]) if (this.holds(use.task.when)) this.take(part, use);
    this.tally.add(part);
  }

  /** Lays a part down exactly as given. False, and it is not there, when it breaks a rule. */
  putAt(part: number, at: Assignment): boolean {
    const { starts, choices, clauses } = this.parts[part];
    this.put(
      part,
      (k) => at.starts[starts[k]],
      (k) => (at.choices[choices[k]] ? 1 : 0),
    );
    const { model } = this;
    if (starts.some((s) => this.least[s] < model.starts[s].earliest || this.least[s] > this.latest[s]))
      return false;
    if (clauses.some((k) => !model.clauses[k].literals.some((literal) => this.isTrue(literal)))) return false;
    for (const s of starts) {
      for (const { allowed, when } of this.openings[s])
        if (this.holds(when) && nextAllowed(allowed, this.least[s]) !== this.least[s]) return false;
      for (const { from, to, map, when } of this.lagsOut[s])
        if (this.holds(when) && this.least[to] < map.at(this.least[from])) return false;
      for (const { from, to, map, when } of this.lagsBack[s])
        if (this.holds(when) && this.least[to] > map.at(this.least[from])) return false;
    }
    for (const use of this.usesOfPart[part]) {
      if (!this.holds(use.task.when)) continue;
      if (this.fitsFrom(use) !== this.least[use.task.from]) {
        this.release(part);
        return false;
      }
      this.take(part, use);
    }
    this.tally.add(part);
    return true;
  }

  private put(part: number, start: (k: number) => Time, choice: (k: number) => number): void {
    const { starts, choices } = this.parts[part];
    starts.forEach((s, k) => (this.least[s] = start(k)));
    choices.forEach((c, k) => (this.truth[c] = choice(k)));
  }

  private isTrue(literal: Literal): boolean {
    return this.truth[literal >> 1] === 1 - (literal & 1);
  }

  private isFalse(literal: Literal): boolean {
    return this.truth[literal >> 1] === (literal & 1);
  }

  private holds(when: readonly Literal[] | undefined): boolean {
    if (when === undefined) return true;
    for (const literal of when) if (this.truth[literal >> 1] !== 1 - (literal & 1)) return false;
    return true;
  }

  private enqueue(s: number): void {
    if (this.queued[s] === 1) return;
    this.queued[s] = 1;
    this.queue.push(s);
  }

  private raise(s: number, to: Time): boolean {
    if (to <= this.least[s]) return true;
    if (to > this.latest[s]) return false;
    this.trail.push(s, this.least[s]);
    this.least[s] = to;
    this.enqueue(s);
    return true;
  }

  /** Makes a literal true, and what follows by clauses. */
  private assign(literal: Literal): boolean {
    if (this.isTrue(literal)) return true;
    if (this.isFalse(literal)) return false;
    this.trail.push(~(literal >> 1), -1);
    this.truth[literal >> 1] = 1 - (literal & 1);
    for (const [when, starts] of this.wakesOfLiteral[literal])
      if (this.holds(when)) for (const s of starts) this.enqueue(s);
    for (const k of this.clausesOfLiteral[literal ^ 1]) {
      let open = -1;
      let more = false;
      for (const other of this.model.clauses[k].literals) {
        if (this.isTrue(other)) {
          more = true;
          break;
        }
        if (this.isFalse(other)) continue;
        if (open >= 0) {
          more = true;
          break;
        }
        open = other;
      }
      if (more) continue;
      if (open < 0 || !this.assign(open)) return false;
    }
    return true;
  }

  private undoTo(size: number): void {
    const { trail } = this;
    while (trail.length > size) {
      const old = trail.pop()!;
      const k = trail.pop()!;
      if (k < 0) this.truth[~k] = -1;
      else this.least[k] = old;
    }
    for (const s of this.queue) this.queued[s] = 0;
    this.queue.length = 0;
  }

  private propagate(): boolean {
    const { queue, queued, least } = this;
    for (let head = 0; head < queue.length; head++) {
      const s = queue[head];
      queued[s] = 0;
      this.work++;
      if (!this.propagateStart(s, least)) {
        for (let k = head + 1; k < queue.length; k++) queued[queue[k]] = 0;
        queue.length = 0;
        return false;
      }
    }
    queue.length = 0;
    return true;
  }

  private propagateStart(s: number, least: Int32Array): boolean {
    let at = least[s];
    for (;;) {
      const before = at;
      for (const { allowed, when } of this.openings[s]) if (this.holds(when)) at = nextAllowed(allowed, at);
      if (at > this.latest[s]) return false;
      for (const { task, fits, needs, isNeverEmpty } of this.own[s])
        if (this.holds(task.when)) at = fits.nextFit(at, task.until, needs, isNeverEmpty, this.latest[s]);
      if (at > this.latest[s]) return false;
      if (at === before) break;
    }
    if (at > least[s]) {
      this.trail.push(s, least[s]);
      least[s] = at;
    }
    for (const { to, map, when } of this.lagsOut[s])
      if (this.holds(when) && !this.raise(to, map.at(at))) return false;
    for (const { from, map, when } of this.lagsBack[s])
      if (this.holds(when) && !this.raise(from, map.leastReaching(at))) return false;
    for (const use of this.held[s])
      if (this.holds(use.task.when) && !this.raise(use.task.from, this.fitsFrom(use))) return false;
    return true;
  }

  /** The least beginning of a task, from the present one on, at which it fits. */
  private fitsFrom({ task, fits, needs, isNeverEmpty }: Use): Time {
    const from = this.least[task.from];
    return task.from === task.to
      ? fits.nextFit(from, task.until, needs, isNeverEmpty, this.latest[task.from])
      : fits.nextBeginning(from, task.until.at(this.least[task.to]), needs);
  }

  /** Answers the open questions of a part, earliest first, and lays it down. */
  private decide(part: number, wishes: PlaceWishes): boolean {
    const question = this.nextQuestion(part);
    if (question === null) return this.layDown(part);
    const mark = this.trail.length;
    const options = this.options(part, question, wishes);
    if (options === null) {
      if (this.decide(part, wishes)) return true;
      this.undoTo(mark);
      return false;
    }
    for (const literal of options) {
      if (this.assign(literal) && this.propagate() && this.decide(part, wishes)) return true;
      this.undoTo(mark);
      if (--this.failures < 0) return false;
    }
    return false;
  }

  /** The answers to a question, the best first; null when one was found that costs nothing, and has been given. */
  private options(
    part: number,
    question: readonly Literal[],
    wishes: PlaceWishes,
  ): readonly Literal[] | null {
    const { prefer, isStrict, daring = 0 } = wishes;
    if (question.length === 1) return question;
    const wished = prefer === undefined ? undefined : question.find((l) => prefer[l >> 1] === 1 - (l & 1));
    if (isStrict && wished !== undefined) return [wished];
    const isDaring = daring > 0 && this.random() < daring;
    // Nothing is better than nothing more to pay and nothing later.
    const free = this.scoreOf(part, wished !== undefined);
    const mark = this.trail.length;
    const options: { readonly literal: Literal; readonly score: Float64Array }[] = [];
    const first =
      wished === undefined ? Math.floor(this.random() * question.length) : question.indexOf(wished);
    for (let k = 0; k < question.length; k++) {
      const literal = question[(first + k) % question.length];
      if (this.assign(literal) && this.propagate()) {
        const score = this.scoreOf(part, literal === wished);
        if (!isDaring && compare(score, free) <= 0) return null;
        options.push({ literal, score });
      }
      this.undoTo(mark);
    }
    options.sort((a, b) => compare(a.score, b.score));
    if (isDaring && options.length > 1) [options[0], options[1]] = [options[1], options[0]];
    return options.map(({ literal }) => literal);
  }

  /** Levels first, then how early everything is; a preference breaks ties. */
  private scoreOf(part: number, isWished: boolean): Float64Array {
    const { score } = this;
    this.work += 2;
    this.tally.estimate(part, score);
    let sum = isWished ? -0.5 : 0;
    for (const s of this.parts[part].starts) sum += this.least[s];
    score[score.length - 1] = sum;
    return score.slice();
  }

  /** The literals of the open clause, or both values of the open choice, that bear on the earliest start; null when all is decided. */
  private nextQuestion(part: number): readonly Literal[] | null {
    const { least, truth } = this;
    let best: Question | null = null;
    let key = NEVER + 1;
    for (const question of this.questionsOfPart[part]) {
      if (!this.isOpen(question)) continue;
      let earliest: Time = NEVER;
      for (const s of question.starts) if (least[s] < earliest) earliest = least[s];
      if (earliest < key) {
        key = earliest;
        best = question;
      }
    }
    if (best !== null) return best.literals.filter((literal) => !this.isFalse(literal));
    for (const c of this.parts[part].choices) if (truth[c] < 0) return [2 * c, 2 * c + 1];
    return null;
  }

  private isOpen({ literals }: Question): boolean {
    const { truth } = this;
    let isOpen = false;
    for (const literal of literals) {
      const value = truth[literal >> 1];
      if (value < 0) isOpen = true;
      else if (value === 1 - (literal & 1)) return false;
    }
    return isOpen;
  }

  /** Takes the part's share of all channels; tasks of its own that get in one another's way are pushed apart. */
  private layDown(part: number): boolean {
    const uses = this.usesOfPart[part].filter((use) => this.holds(use.task.when));
    for (let pushes = 0; pushes < PUSHES; pushes++) {
      uses.sort((a, b) => this.least[a.task.from] - this.least[b.task.from]);
      let pushed = false;
      for (const use of uses) {
        const fits = this.fitsFrom(use);
        if (fits === this.least[use.task.from]) {
          this.take(part, use);
          continue;
        }
        this.release(part);
        if (!this.raise(use.task.from, fits) || !this.propagate()) return false;
        pushed = true;
        break;
      }
      if (!pushed) return true;
    }
    return false;
  }

  private take(part: number, { task, takes, amount }: Use): void {
    const from = this.least[task.from];
    const until = task.until.at(this.least[task.to]);
    if (from >= until) return;
    takes.take(from, until, amount);
    this.taken[part].push({ channel: takes, from, until, amount });
  }

  private release(part: number): void {
    for (const { channel, from, until, amount } of this.taken[part]) channel.take(from, until, -amount);
    this.taken[part].length = 0;
  }

  /**
   * The other parts with something on a channel that the part uses too, in the span of time given.
   * @param onlyHeld only channels that the part holds from one start to another
   */
  meeting(part: number, from: Time, until: Time, onlyHeld: boolean): number[] {
    const mine = new Set(
      this.usesOfPart[part]
        .filter(({ task }) => !onlyHeld || task.from !== task.to)
        .filter(({ task }) => this.holds(task.when))
        .map((use) => use.takes),
    );
    const found: number[] = [];
    this.taken.forEach((list, other) => {
      if (other !== part && list.some((t) => mine.has(t.channel) && t.from < until && from < t.until))
        found.push(other);
    });
    return found;
  }
}

/** Less than 0 when `a` is better: the first difference decides. */
export function compare(a: ArrayLike<number>, b: ArrayLike<number>): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] - b[k];
  return 0;
}

/** The first allowed time from `t` on. */
function nextAllowed(allowed: Int32Array, t: Time): Time {
  const k = firstReaching(allowed, t + 1);
  // Inside an interval the next edge is its end, which has an odd index.
  return (k & 1) === 1 ? t : k < allowed.length ? allowed[k] : NEVER;
}

const shape = ({ until }: Task) => ({ isNeverEmpty: leastGain(until) > 0 });

function usesOf(model: Model): Use[] {
  const uses: Use[] = [];
  for (const { capacity, tasks } of model.resources) {
    const channel = new Channel(capacity);
    for (const task of tasks)
      if (task.amount > 0)
        uses.push({
          task,
          fits: channel,
          needs: task.amount,
          takes: channel,
          amount: task.amount,
          ...shape(task),
        });
  }
  for (const { one, other } of model.exclusions) {
    const [ones, others] = [new Channel([0, 0]), new Channel([0, 0])];
    for (const task of one)
      uses.push({ task, fits: others, needs: 0, takes: ones, amount: 1, ...shape(task) });
    for (const task of other)
      uses.push({ task, fits: ones, needs: 0, takes: others, amount: 1, ...shape(task) });
  }
  return uses;
}

function questionsOf(model: Model, part: Part, startsOfChoice: readonly (readonly number[])[]): Question[] {
  const about = (literals: readonly Literal[]): Question => ({
    literals,
    starts: [...new Set(literals.flatMap((literal) => startsOfChoice[literal >> 1]))],
  });
  const inClause = new Set(
    part.clauses.flatMap((k) => model.clauses[k].literals.map((literal) => literal >> 1)),
  );
  return [
    // Clauses of negations alone (at most one of them) are kept by saying no.
    ...part.clauses
      .map((k) => model.clauses[k].literals)
      .filter((literals) => literals.some((literal) => (literal & 1) === 0))
      .map(about),
    ...part.choices.filter((c) => !inClause.has(c)).map((c) => about([2 * c, 2 * c + 1])),
  ];
}

/** For each choice the starts that it bears on; for each literal the rules that it may make bind, with the starts to look at then. */
function reachOfChoices(
  model: Model,
): [readonly number[][], readonly (readonly [readonly Literal[], readonly number[]])[][]] {
  const starts = Array.from({ length: model.choices.length }, () => new Set<number>());
  const wakes = Array.from(
    { length: 2 * model.choices.length },
    (): [readonly Literal[], readonly number[]][] => [],
  );
  const note = (
    when: readonly Literal[] | undefined,
    touched: readonly number[],
    woken: readonly number[],
  ): void => {
    for (const literal of when ?? []) {
      for (const s of touched) starts[literal >> 1].add(s);
      wakes[literal].push([when!, woken]);
    }
  };
  for (const { from, to, kind, when } of model.lags) note(when, [from, to], [kind === 'least' ? from : to]);
  for (const { start, when } of model.openings) note(when, [start], [start]);
  const tasks = [
    ...model.resources.flatMap((resource) => resource.tasks),
    ...model.exclusions.flatMap((exclusion) => [...exclusion.one, ...exclusion.other]),
  ];
  for (const { from, to, when } of tasks) note(when, [from, to], [to]);
  return [starts.map((set) => [...set]), wakes];
}
