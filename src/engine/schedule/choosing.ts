/**
 * The choices of one part, made one after another, each for the least objective at the fixpoint of what binds already, with a little going back.
 * First those that cost something themselves, last those about one start, which the fixpoint foresees; else in the order of time.
 */
import type { Chance } from './chance.ts';
import { compare } from './compare-levels.ts';
import type { Earliest } from './earliest.ts';
import { NEVER, type Literal, type Model, type Time } from './model.ts';
import type { Part } from './parts.ts';
import { questionsOf, type Question } from './questions.ts';
import type { Tally } from './tally.ts';

export interface PlaceWishes {
  /** No start before this time, one a start of the model. */
  readonly floor?: Int32Array;
  /** Literals that are true from the beginning. */
  readonly given?: readonly Literal[];
  /** Choices to prefer where nothing else tells options apart: 1 yes, 0 no, -1 no preference. */
  readonly prefer?: Int8Array;
  /** Only the preferred way is tried. */
  readonly isStrict?: boolean;
  /** In [0, 1): the share of decisions that take the second best option. */
  readonly daring?: number;
  /** Whether the part may cost so much at least, level by level: as soon as not, it is given up. */
  readonly mayCost?: (least: Float64Array) => boolean;
  /** In the end each start moves as late as it can at the same cost. */
  readonly isLate?: boolean;
}

/** Options that may fail before a part is given up. */
const FAILURES = 40;

/** Of many answers to a question so many that can be are compared. */
const MOST_COMPARED = 24;

/** Questions of a lower turn are answered first: what an answer costs by itself; what bears on several starts; what bears on one. */
interface Turned extends Question {
  readonly turn: number;
}

/** Choices that no question asks for come last. */
const LAST_TURN = 3;
const NONE: readonly never[] = [];

export class Choosing {
  private readonly questionsOfPart: readonly (readonly Turned[])[];
  /** Literals by which something may be paid, marked by 1. */
  private readonly costly: Uint8Array;
  /** The turn whose questions were last answered together, or were not to be. */
  private together = -1;
  private readonly score: Float64Array;
  private readonly leastCost: Float64Array;
  private failures = 0;

  /** @param layDown what is done when all choices of a part are made; false when it does not fit */
  constructor(
    model: Model,
    private readonly parts: readonly Part[],
    private readonly times: Earliest,
    private readonly tally: Tally,
    startsOfChoice: readonly (readonly number[])[],
    private readonly chance: Chance,
    private readonly layDown: (part: number) => boolean,
  ) {
    const costing = new Set(
      model.levels.flatMap(({ costs }) =>
        costs.flatMap((cost) => (cost.kind === 'choice' ? [cost.when] : [])),
      ),
    );
    const turnOf = ({ literals, starts }: Question): number =>
      literals.some((literal) => costing.has(literal)) ? 0 : starts.length === 1 ? 2 : 1;
    this.questionsOfPart = parts.map((part) =>
      questionsOf(model, part, startsOfChoice).map(({ literals, starts }) => ({
        literals,
        starts,
        turn: turnOf({ literals, starts }),
      })),
    );
    this.costly = new Uint8Array(2 * model.choices.length);
    for (const { costs } of model.levels)
      for (const cost of costs)
        if (cost.kind === 'choice') this.costly[cost.when] = 1;
        else if (cost.kind === 'buckets')
          for (const when of cost.when ?? []) for (const literal of when) this.costly[literal] = 1;
    this.score = new Float64Array(model.levels.length + 1);
    this.leastCost = new Float64Array(model.levels.length);
  }

  /** Makes the open choices of a part and lays it down. False when no way was found. */
  settle(part: number, wishes: PlaceWishes): boolean {
    this.failures = FAILURES;
    this.together = -1;
    return this.decide(part, wishes);
  }

  /** Answers the open questions of a part, earliest first. */
  private decide(part: number, wishes: PlaceWishes): boolean {
    const { times } = this;
    if (this.isTooDear(part, wishes)) {
      this.failures = -1;
      return false;
    }
    const next = this.nextQuestion(part);
    if (next === null) return this.layDown(part);
    const mark = times.mark();
    const isAnswered =
      next.turn > this.together && this.answerTogether(part, (this.together = next.turn), wishes);
    const options = isAnswered ? null : this.options(part, this.openOf(next), wishes);
    if (options === null) {
      if (this.decide(part, wishes)) return true;
      times.undoTo(mark);
      return false;
    }
    for (const literal of options) {
      if (times.assign(literal) && times.propagate() && this.decide(part, wishes)) return true;
      times.undoTo(mark);
      if (--this.failures < 0) return false;
    }
    return false;
  }

  private isTooDear(part: number, { mayCost }: PlaceWishes): boolean {
    if (mayCost === undefined) return false;
    this.times.work++;
    this.tally.atLeast(part, this.leastCost);
    return !mayCost(this.leastCost);
  }

  /** The answers to a question, the best first; null when one was found that costs nothing, and has been given. */
  private options(
    part: number,
    question: readonly Literal[],
    wishes: PlaceWishes,
  ): readonly Literal[] | null {
    const { times } = this;
    const { prefer, isStrict, daring = 0 } = wishes;
    if (question.length === 1) return question;
    const wished = prefer === undefined ? undefined : question.find((l) => prefer[l >> 1] === 1 - (l & 1));
    if (isStrict && wished !== undefined) return [wished];
    const isDaring = daring > 0 && this.chance.next() < daring;
    const mark = times.mark();
    const first = wished === undefined ? this.chance.below(question.length) : question.indexOf(wished);
    const count = Math.min(question.length, MOST_COMPARED);
    // Nothing is better than nothing more to pay and nothing later.
    if (!isDaring)
      for (let k = 0; k < (wished === undefined ? count : 1); k++) {
        if (times.assign(question[(first + k) % question.length]) && this.isFreeSince(mark)) return null;
        times.undoTo(mark);
      }
    const options: { readonly literal: Literal; readonly score: Float64Array }[] = [];
    for (let k = 0; k < question.length && options.length < MOST_COMPARED; k++) {
      const literal = question[(first + k) % question.length];
      if (times.assign(literal) && times.propagate())
        options.push({ literal, score: this.scoreOf(part, literal === wished) });
      times.undoTo(mark);
    }
    options.sort((a, b) => compare(a.score, b.score));
    if (isDaring && options.length > 1) [options[0], options[1]] = [options[1], options[0]];
    return options.map(({ literal }) => literal);
  }

  /** Whether nothing is paid, and nothing later, for what was answered since the mark. */
  private isFreeSince(mark: number): boolean {
    const { times, costly } = this;
    return !times.isAnyMadeTrue(mark, costly) && times.propagate(true);
  }

  /** Gives the questions of a turn answers that cost nothing and move nothing, all at once. False, and none is given, when that cannot be. */
  private answerTogether(part: number, turn: number, { prefer }: PlaceWishes): boolean {
    const { times } = this;
    const mark = times.mark();
    for (const question of this.questionsOfPart[part]) {
      if (question.turn !== turn || !this.isOpen(question)) continue;
      const { literals, starts } = question;
      const wished = prefer === undefined ? undefined : literals.find((l) => prefer[l >> 1] === 1 - (l & 1));
      const answer =
        wished ??
        (turn === 0
          ? literals.find((literal) => this.costly[literal] === 0 && !times.isFalse(literal))
          : starts.length === 1
            ? times.freeAnswer(starts[0], literals, this.chance.below(literals.length))
            : undefined);
      if (answer === undefined || times.assign(answer)) continue;
      times.undoTo(mark);
      return false;
    }
    if (times.mark() > mark && this.isFreeSince(mark)) return true;
    times.undoTo(mark);
    return false;
  }

  /** Levels first, then how early everything is; a preference breaks ties. */
  private scoreOf(part: number, isWished: boolean): Float64Array {
    const { score, times } = this;
    times.work += 2;
    this.tally.estimate(part, score);
    let sum = isWished ? -0.5 : 0;
    for (const s of this.parts[part].starts) sum += times.least[s];
    score[score.length - 1] = sum;
    return score.slice();
  }

  /** The open question whose turn it is, the one that bears on the earliest start; null when all is decided. */
  private nextQuestion(part: number): Turned | null {
    const { least, truth } = this.times;
    let best: Turned | null = null;
    let key = NEVER + 1;
    for (const question of this.questionsOfPart[part]) {
      if ((best !== null && question.turn > best.turn) || !this.isOpen(question)) continue;
      let earliest: Time = NEVER;
      for (const s of question.starts) if (least[s] < earliest) earliest = least[s];
      if (best === null || question.turn < best.turn || earliest < key) {
        key = earliest;
        best = question;
      }
    }
    if (best !== null) return best;
    for (const c of this.parts[part].choices)
      if (truth[c] < 0) return { literals: [2 * c, 2 * c + 1], starts: NONE, turn: LAST_TURN };
    return null;
  }

  private openOf({ literals }: Question): readonly Literal[] {
    return literals.filter((literal) => !this.times.isFalse(literal));
  }

  private isOpen({ literals }: Question): boolean {
    const { truth } = this.times;
    let isOpen = false;
    for (const literal of literals) {
      const value = truth[literal >> 1];
      if (value < 0) isOpen = true;
      else if (value === 1 - (literal & 1)) return false;
    }
    return isOpen;
  }
}
