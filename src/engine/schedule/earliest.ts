/**
 * The earliest times of one part while the others stand, under the choices made so far.
 *
 * With its choices made, a part's lags, openings and tasks against what stands are closed under taking the earlier of two solutions start by
 * start: `to >= map(from)`, `to <= map(from)`, a set of allowed times, and "ends before a full stretch or begins after it" all are, the maps being
 * monotone. So raising lower bounds to their least fixpoint gives the one solution in which every start is as early as in any; no search is
 * needed for times, and none can do better on costs of lateness. With choices still open the fixpoint of what binds already is a bound, and so it is
 * with what all answers have in common that are still open to a question about one start, such as who does it.
 *
 * Literature: Jeavons and Cooper 1995 (max-closed constraints), Dechter, Meiri and Pearl 1991 (temporal networks), Van Hentenryck, Saraswat and
 * Deville 1998 (what all answers have in common).
 */
import { byStart } from './by-start.ts';
import { valuesBy } from './lists-by.ts';
import { firstReaching } from './maps.ts';
import { NEVER, type Lag, type Literal, type Model, type Opening, type Time } from './model.ts';
import type { Part } from './parts.ts';
import { waysOf, type Wakes, type Way } from './questions.ts';
import type { Use } from './uses.ts';

const NONE: readonly number[] = [];

export class Earliest {
  /** The least time of each start, so far. */
  readonly least: Int32Array;
  /** 1 yes, 0 no, -1 open, a choice. */
  readonly truth: Int8Array;
  /** Counted steps: revised starts, and what else is counted here. */
  work = 0;
  /** Whether some part does not fit even alone. */
  readonly isHopeless: boolean;

  private readonly latest: Int32Array;
  private readonly openings: readonly Opening[][];
  private readonly lagsOut: readonly Lag[][];
  private readonly lagsBack: readonly Lag[][];
  private readonly own: readonly Use[][];
  private readonly held: readonly Use[][];
  /** The questions about each start. */
  private readonly ways: readonly (readonly (readonly Way[])[])[];
  /** The clauses that a literal is in. */
  private readonly clausesOf: ReturnType<typeof valuesBy>;
  /** The literal of each clause that was last seen true: to be looked at first. */
  private readonly satisfiedBy: Int32Array;
  private readonly aloneLeast: Int32Array;
  private readonly aloneTruth: Int8Array;

  private readonly queue: number[] = [];
  private readonly queued: Uint8Array;
  private readonly trail: number[] = [];
  private raises = 0;

  constructor(
    private readonly model: Model,
    private readonly parts: readonly Part[],
    uses: readonly Use[],
    private readonly wakes: Wakes,
  ) {
    const S = model.starts.length;
    this.least = Int32Array.from(model.starts, (start) => start.earliest);
    this.latest = Int32Array.from(model.starts, (start) => start.latest);
    this.truth = new Int8Array(model.choices.length).fill(-1);
    this.queued = new Uint8Array(S);
    const isLeast = ({ kind }: Lag): boolean => kind === 'least';
    this.openings = byStart(S, model.openings, ({ start }) => start);
    this.lagsOut = byStart(S, model.lags.filter(isLeast), ({ from }) => from);
    this.lagsBack = byStart(
      S,
      model.lags.filter((lag) => !isLeast(lag)),
      ({ to }) => to,
    );
    const isOwn = ({ task }: Use): boolean => task.from === task.to;
    const held = uses.filter((use) => !isOwn(use));
    this.own = byStart(S, uses.filter(isOwn), ({ task }) => task.from);
    this.held = byStart(S, held, ({ task }) => task.from);
    for (const use of held) this.held[use.task.to].push(use);
    this.clausesOf = valuesBy(2 * model.choices.length, (note) =>
      model.clauses.forEach(({ literals }, k) => {
        for (const literal of literals) note(literal, k);
      }),
    );
    this.satisfiedBy = Int32Array.from(model.clauses, ({ literals }) => literals[0] ?? 0);
    this.ways = waysOf(model, uses);
    this.isHopeless = !this.settleAlone();
    this.trail.length = 0;
    this.aloneLeast = this.least.slice();
    this.aloneTruth = this.truth.slice();
  }

  private settleAlone(): boolean {
    for (const { literals } of this.model.clauses) {
      if (literals.length === 0) return false;
      if (literals.length === 1 && !this.assign(literals[0])) return false;
    }
    for (let s = 0; s < this.least.length; s++) this.enqueue(s);
    return this.propagate();
  }

  /** The least time of a start when its part has everything for itself: no solution has it earlier. */
  leastAlone(start: number): Time {
    return this.aloneLeast[start];
  }

  /** Is the literal true in every solution, as far as the part alone tells? */
  isForced(literal: Literal): boolean {
    return this.aloneTruth[literal >> 1] === 1 - (literal & 1);
  }

  isFixed(part: number): boolean {
    return this.parts[part].starts.some((s) => this.model.starts[s].earliest === this.latest[s]);
  }

  /**
   * Begins a part anew, its choices open, and looks where it can be at the earliest. False when nowhere.
   * @param floor no start before this time, one a start of the model
   * @param given literals that are true from the beginning
   */
  begin(part: number, floor?: Int32Array, given: readonly Literal[] = NONE): boolean {
    const { starts, choices } = this.parts[part];
    const { aloneLeast } = this;
    for (const s of starts)
      this.least[s] = floor === undefined ? aloneLeast[s] : Math.max(aloneLeast[s], floor[s]);
    for (const c of choices) this.truth[c] = this.aloneTruth[c];
    this.trail.length = 0;
    for (const s of starts) this.enqueue(s);
    for (const literal of given)
      if (!this.assign(literal)) {
        this.undoTo(0);
        return false;
      }
    return this.propagate();
  }

  /** Sets times and choices of a part as given; nothing is checked. */
  put(part: number, start: (k: number) => Time, choice: (k: number) => number): void {
    const { starts, choices } = this.parts[part];
    starts.forEach((s, k) => (this.least[s] = start(k)));
    choices.forEach((c, k) => (this.truth[c] = choice(k)));
  }

  /** Whether the part, all its choices made, keeps the rules that it has for itself. */
  isSound(part: number): boolean {
    const { starts, clauses } = this.parts[part];
    const { model, least } = this;
    if (starts.some((s) => least[s] < model.starts[s].earliest || least[s] > this.latest[s])) return false;
    if (clauses.some((k) => !model.clauses[k].literals.some((literal) => this.isTrue(literal)))) return false;
    for (const s of starts) {
      for (const { allowed, when } of this.openings[s])
        if (this.holds(when) && nextAllowed(allowed, least[s]) !== least[s]) return false;
      for (const { from, to, map, when } of this.lagsOut[s])
        if (this.holds(when) && least[to] < map.at(least[from])) return false;
      for (const { from, to, map, when } of this.lagsBack[s])
        if (this.holds(when) && least[to] > map.at(least[from])) return false;
    }
    return true;
  }

  isTrue(literal: Literal): boolean {
    return this.truth[literal >> 1] === 1 - (literal & 1);
  }

  isFalse(literal: Literal): boolean {
    return this.truth[literal >> 1] === (literal & 1);
  }

  holds(when: readonly Literal[] | undefined): boolean {
    if (when === undefined) return true;
    for (const literal of when) if (this.truth[literal >> 1] !== 1 - (literal & 1)) return false;
    return true;
  }

  /** Whether a condition holds, or lacks only one literal that is open: then its rule bears on that answer to a question. */
  private bindsOrAnswers(when: readonly Literal[]): boolean {
    let open = 0;
    for (const literal of when) {
      const value = this.truth[literal >> 1];
      if (value < 0 ? ++open > 1 : value !== 1 - (literal & 1)) return false;
    }
    return true;
  }

  /** Whether a condition holds, one of its literals taken as true. */
  private holdsBut(when: readonly Literal[] | undefined, but: Literal): boolean {
    for (const literal of when ?? NONE)
      if (literal !== but && this.truth[literal >> 1] !== 1 - (literal & 1)) return false;
    return true;
  }

  private enqueue(s: number): void {
    if (this.queued[s] === 1) return;
    this.queued[s] = 1;
    this.queue.push(s);
  }

  /** The start is no earlier than this. False when it cannot be. */
  raise(s: number, to: Time): boolean {
    if (to <= this.least[s]) return true;
    if (to > this.latest[s]) return false;
    this.trail.push(s, this.least[s]);
    this.raises++;
    this.least[s] = to;
    this.enqueue(s);
    return true;
  }

  /** Makes a literal true, and what follows by clauses. */
  assign(literal: Literal): boolean {
    if (this.isTrue(literal)) return true;
    if (this.isFalse(literal)) return false;
    this.trail.push(~(literal >> 1), -1);
    this.truth[literal >> 1] = 1 - (literal & 1);
    const { begin, conditions, woken } = this.wakes;
    for (let i = begin[literal]; i < begin[literal + 1]; i++)
      if (this.bindsOrAnswers(conditions[i])) this.enqueue(woken[i]);
    const [clauses, clausesBegin] = this.clausesOf;
    for (let i = clausesBegin[literal ^ 1]; i < clausesBegin[(literal ^ 1) + 1]; i++) {
      const k = clauses[i];
      if (this.isTrue(this.satisfiedBy[k])) continue;
      let open = -1;
      let more = false;
      for (const other of this.model.clauses[k].literals) {
        if (this.isTrue(other)) {
          this.satisfiedBy[k] = other;
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

  /** Where `undoTo` comes back to. */
  mark(): number {
    return this.trail.length;
  }

  undoTo(mark: number): void {
    const { trail } = this;
    while (trail.length > mark) {
      const old = trail.pop()!;
      const k = trail.pop()!;
      if (k < 0) this.truth[~k] = -1;
      else this.least[k] = old;
    }
    for (const s of this.queue) this.queued[s] = 0;
    this.queue.length = 0;
  }

  /** Whether one of these literals, marked by 1, was made true since the mark. */
  isAnyMadeTrue(mark: number, literals: Uint8Array): boolean {
    const { trail, truth } = this;
    for (let k = mark; k < trail.length; k += 2) {
      const c = ~trail[k];
      if (c >= 0 && literals[2 * c + 1 - truth[c]] === 1) return true;
    }
    return false;
  }

  /** An answer to a question about one start with which, as far as that is foreseen, nothing is later; undefined when there is none. */
  freeAnswer(s: number, question: readonly Literal[], first: number): Literal | undefined {
    const n = question.length;
    const ways = this.ways[s].find((each) => each.length === n && each[0].literal === question[0]);
    if (ways === undefined) return undefined;
    const at = this.least[s];
    for (let k = 0; k < n; k++) {
      const way = ways[(first + k) % n];
      const { literal, lags } = way;
      if (this.isFalse(literal) || this.earliestOf(way, at, at) !== at) continue;
      if (lags.every(({ to, map, when }) => map.at(at) <= this.least[to] || !this.holdsBut(when, literal)))
        return literal;
    }
    return undefined;
  }

  /**
   * To the fixpoint. False when there is none.
   * @param isStill false too as soon as a start is raised
   */
  propagate(isStill = false): boolean {
    const { queue, queued, least } = this;
    const raised = this.raises;
    for (let head = 0; head < queue.length; head++) {
      const s = queue[head];
      queued[s] = 0;
      this.work++;
      if (!this.propagateStart(s, least) || (isStill && this.raises > raised)) {
        for (let k = head + 1; k < queue.length; k++) queued[queue[k]] = 0;
        queue.length = 0;
        return false;
      }
    }
    queue.length = 0;
    return true;
  }

  private propagateStart(s: number, least: Int32Array): boolean {
    const at = this.allowedFrom(s, least[s]);
    if (at > this.latest[s]) return false;
    if (at > least[s]) {
      this.trail.push(s, least[s]);
      this.raises++;
      least[s] = at;
    }
    for (const { to, map, when } of this.lagsOut[s])
      if (this.holds(when) && !this.raise(to, map.at(at))) return false;
    for (const ways of this.ways[s])
      if (ways[0].lags.length > 0 && !this.raiseBehind(ways, at, this.latest[s])) return false;
    for (const { from, map, when } of this.lagsBack[s])
      if (this.holds(when) && !this.raise(from, map.leastReaching(at))) return false;
    for (const use of this.held[s])
      if (this.holds(use.task.when) && !this.raise(use.task.from, this.fitsFrom(use))) return false;
    return true;
  }

  /** The first time from `from` on that all that binds a start by itself allows; something later than its latest when that is later. */
  private allowedFrom(s: number, from: Time): Time {
    const latest = this.latest[s];
    const openings = this.openings[s];
    const own = this.own[s];
    const ways = this.ways[s];
    const uses = openings.length + own.length;
    const rules = uses + ways.length;
    let at = from;
    // Until all in a row leave it where it is.
    for (let k = 0, left = rules; left > 0; k = k + 1 < rules ? k + 1 : 0, left--) {
      const before = at;
      if (k < openings.length) {
        const { allowed, when } = openings[k];
        if (this.holds(when)) at = nextAllowed(allowed, at);
      } else if (k < uses) {
        const { task, fits, needs, isNeverEmpty } = own[k - openings.length];
        if (this.holds(task.when)) at = fits.nextFit(at, task.until, needs, isNeverEmpty, latest);
      } else at = this.earliestWay(ways[k - uses], at, latest);
      if (at === before) continue;
      if (at > latest) break;
      left = rules;
    }
    return at;
  }

  /** The first time from `from` on at which one of the answers that are still open allows a start. */
  private earliestWay(ways: readonly Way[], from: Time, latest: Time): Time {
    let first = NEVER;
    for (const way of ways) {
      if (this.isTrue(way.literal)) return from;
      if (this.isFalse(way.literal)) continue;
      const at = this.earliestOf(way, from, Math.min(latest, first));
      if (at === from) return from;
      if (at < first) first = at;
    }
    return first;
  }

  /** The first time from `from` on at which an answer allows a start; something later than `latest` when that is later. */
  private earliestOf({ literal, openings, uses }: Way, from: Time, latest: Time): Time {
    let at = from;
    const rules = openings.length + uses.length;
    for (let k = 0, left = rules; left > 0; k = k + 1 < rules ? k + 1 : 0, left--) {
      const before = at;
      if (k < openings.length) {
        const { allowed, when } = openings[k];
        if (this.holdsBut(when, literal)) at = nextAllowed(allowed, at);
      } else {
        const { task, fits, needs, isNeverEmpty } = uses[k - openings.length];
        if (this.holdsBut(task.when, literal)) at = fits.nextFit(at, task.until, needs, isNeverEmpty, latest);
      }
      if (at === before) continue;
      if (at > latest) break;
      left = rules;
    }
    return at;
  }

  /** What follows a start is no earlier than with the answer that has it earliest. */
  private raiseBehind(ways: readonly Way[], from: Time, latest: Time): boolean {
    for (let k = 0; k < ways[0].lags.length; k++) {
      const { to } = ways[0].lags[k];
      let least = NEVER;
      for (const way of ways) {
        if (this.isTrue(way.literal)) return true;
        if (this.isFalse(way.literal)) continue;
        const { map, when } = way.lags[k];
        if (!this.holdsBut(when, way.literal)) return true;
        const at = this.earliestOf(way, from, latest);
        if (at <= latest) least = Math.min(least, map.at(at));
        if (least <= this.least[to]) break;
      }
      if (!this.raise(to, least)) return false;
    }
    return true;
  }

  /** The least beginning of a task, from the present one on, at which it fits beside what is laid down. */
  fitsFrom({ task, fits, needs, isNeverEmpty }: Use): Time {
    const from = this.least[task.from];
    return task.from === task.to
      ? fits.nextFit(from, task.until, needs, isNeverEmpty, this.latest[task.from])
      : fits.nextBeginning(from, task.until.at(this.least[task.to]), needs);
  }
}

/** The first allowed time from `t` on. */
function nextAllowed(allowed: Int32Array, t: Time): Time {
  const k = firstReaching(allowed, t + 1);
  // Inside an interval the next edge is its end, which has an odd index.
  return (k & 1) === 1 ? t : k < allowed.length ? allowed[k] : NEVER;
}
