/** What there is to decide in a part besides times, and what each answer bears on. */
import { valuesBy } from './lists-by.ts';
import type { Lag, Literal, Model, Opening, Task } from './model.ts';
import type { Part } from './parts.ts';
import type { Use } from './uses.ts';

/** A clause, or a choice that is in none. */
export interface Question {
  readonly literals: readonly Literal[];
  /** The starts that the answers bear on. */
  readonly starts: readonly number[];
}

/** One answer to a question about one start, with the rules of that start that it brings; their conditions include the answer itself. */
export interface Way {
  readonly literal: Literal;
  readonly openings: readonly Opening[];
  readonly uses: readonly Use[];
  /** Least lags from the start to where every answer brings one, in the same order for all answers. */
  readonly lags: readonly Lag[];
}

/** For each literal the conditions that it is part of, one after the other from `begin[literal]` on, and the start to look at when one comes to hold. */
export interface Wakes {
  readonly begin: Int32Array;
  readonly conditions: readonly (readonly Literal[])[];
  readonly woken: Int32Array;
}

const NONE: readonly never[] = [];
const NO_START = -1;
const SEVERAL = -2;

export function questionsOf(
  model: Model,
  part: Part,
  startsOfChoice: readonly (readonly number[])[],
): Question[] {
  const inClause = new Set<number>();
  const asking: (readonly Literal[])[] = [];
  for (const k of part.clauses) {
    const { literals } = model.clauses[k];
    for (const literal of literals) inClause.add(literal >> 1);
    if (!isFollowed(literals)) asking.push(literals);
  }
  for (const c of part.choices) if (!inClause.has(c)) asking.push([2 * c, 2 * c + 1]);
  return asking.map((literals) => ({ literals, starts: startsOf(literals, startsOfChoice) }));
}

function startsOf(literals: readonly Literal[], startsOfChoice: readonly (readonly number[])[]): number[] {
  const starts: number[] = [];
  for (const literal of literals)
    for (const start of startsOfChoice[literal >> 1]) if (!starts.includes(start)) starts.push(start);
  return starts;
}

/**
 * The questions whose answers all bring rules of the same one start, who does it for instance: for each start, those questions, each as the list of
 * its ways.
 */
export function waysOf(model: Model, uses: readonly Use[]): readonly (readonly (readonly Way[])[])[] {
  const count = 2 * model.choices.length;
  const openings: (Opening[] | undefined)[] = Array.from({ length: count });
  const tasks: (Use[] | undefined)[] = Array.from({ length: count });
  const lags: (Lag[] | undefined)[] = Array.from({ length: count });
  /** The one start that a literal's rules are about; NO_START, or SEVERAL. */
  const about = new Int32Array(count).fill(NO_START);
  const note = (literal: Literal, start: number): void => {
    about[literal] = about[literal] === NO_START || about[literal] === start ? start : SEVERAL;
  };
  for (const opening of model.openings)
    for (const literal of opening.when ?? NONE) {
      note(literal, opening.start);
      (openings[literal] ??= []).push(opening);
    }
  for (const use of uses)
    for (const literal of use.task.when ?? NONE) {
      note(literal, use.task.from);
      note(literal, use.task.to);
      (tasks[literal] ??= []).push(use);
    }
  for (const lag of model.lags)
    if (lag.kind === 'least') for (const literal of lag.when ?? NONE) (lags[literal] ??= []).push(lag);

  const lagOf = (literal: Literal, from: number, to: number): Lag | undefined =>
    lags[literal]?.find((lag) => lag.from === from && lag.to === to);
  const wayOf = (literal: Literal, start: number, targets: readonly number[]): Way => ({
    literal,
    openings: openings[literal] ?? NONE,
    uses: tasks[literal] ?? NONE,
    lags: targets.map((to) => lagOf(literal, start, to)!),
  });
  const found: Way[][][] = model.starts.map(() => []);
  for (const { literals } of model.clauses) {
    if (literals.length < 2 || isFollowed(literals)) continue;
    const start = literals.reduce((s, literal) => Math.max(s, about[literal]), NO_START);
    const isAboutOne = literals.every((each) => about[each] === start || about[each] === NO_START);
    if (start < 0 || !isAboutOne) continue;
    const targets = (lags[literals[0]] ?? NONE)
      .map(({ to }) => to)
      .filter((to) => literals.every((literal) => lagOf(literal, start, to) !== undefined));
    found[start].push(literals.map((literal) => wayOf(literal, start, targets)));
  }
  return found;
}

/** Clauses that ask nothing: at most one of some, kept by saying no, and what a single yes follows from. */
function isFollowed(literals: readonly Literal[]): boolean {
  let wanted = 0;
  for (const literal of literals) if ((literal & 1) === 0) wanted++;
  return wanted === 0 || (wanted === 1 && literals.length > 1);
}

/** For each choice the starts that it bears on; for each literal the rules that it may make bind. */
export function reachOfChoices(model: Model): {
  readonly startsOfChoice: readonly (readonly number[])[];
  readonly wakes: Wakes;
} {
  const starts: number[][] = Array.from({ length: model.choices.length }, () => []);
  const conditions: (readonly Literal[])[] = [];
  const woken: number[] = [];
  const note = (when: readonly Literal[] | undefined, from: number, to: number, start: number): void => {
    if (when === undefined || when.length === 0) return;
    conditions.push(when);
    woken.push(start);
    for (const literal of when) {
      const known = starts[literal >> 1];
      if (!known.includes(from)) known.push(from);
      if (from !== to && !known.includes(to)) known.push(to);
    }
  };
  for (const { from, to, kind, when } of model.lags) note(when, from, to, kind === 'least' ? from : to);
  for (const { start, when } of model.openings) note(when, start, start, start);
  const uses = ({ from, to, when }: Task): void => note(when, from, to, to);
  for (const { tasks } of model.resources) tasks.forEach(uses);
  for (const { one, other } of model.exclusions) {
    one.forEach(uses);
    other.forEach(uses);
  }
  const [list, begin] = valuesBy(2 * model.choices.length, (noteOf) =>
    conditions.forEach((when, k) => {
      for (const literal of when) noteOf(literal, k);
    }),
  );
  return {
    startsOfChoice: starts,
    wakes: {
      begin,
      conditions: Array.from(list, (k) => conditions[k]),
      woken: list.map((k) => woken[k]),
    },
  };
}
