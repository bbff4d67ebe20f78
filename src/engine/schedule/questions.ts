/** What there is to decide in a part besides times, and what each answer bears on. */
import type { Lag, Literal, Model, MonotoneMap, Opening, Task } from './model.ts';
import type { Part } from './parts.ts';
import type { Use } from './uses.ts';

/** A clause, or a choice that is in none. */
export interface Question {
  readonly literals: readonly Literal[];
  /** The starts that the answers bear on. */
  readonly starts: readonly number[];
}

/** One answer to a question about one start, with the rules of that start that it brings; conditions without the answer itself. */
export interface Way {
  readonly literal: Literal;
  readonly openings: readonly { readonly allowed: Int32Array; readonly rest: readonly Literal[] }[];
  readonly uses: readonly { readonly use: Use; readonly rest: readonly Literal[] }[];
  /** Least lags from the start, to where every answer brings one. */
  readonly lags: readonly {
    readonly to: number;
    readonly map: MonotoneMap;
    readonly rest: readonly Literal[];
  }[];
}

/** A condition that may come to hold, with the starts to look at then. */
export type Wake = readonly [when: readonly Literal[], starts: readonly number[]];

const NONE: readonly Wake[] = [];
const NO_LITERALS: readonly Literal[] = [];
const NO_START = -1;
const SEVERAL = -2;

export function questionsOf(
  model: Model,
  part: Part,
  startsOfChoice: readonly (readonly number[])[],
): Question[] {
  const about = (literals: readonly Literal[]): Question => ({
    literals,
    starts: [...new Set(literals.flatMap((literal) => startsOfChoice[literal >> 1]))],
  });
  const inClause = new Set(
    part.clauses.flatMap((k) => model.clauses[k].literals.map((literal) => literal >> 1)),
  );
  return [
    ...part.clauses
      .map((k) => model.clauses[k].literals)
      .filter((literals) => !isFollowed(literals))
      .map(about),
    ...part.choices.filter((c) => !inClause.has(c)).map((c) => about([2 * c, 2 * c + 1])),
  ];
}

/**
 * The questions whose answers all bring rules of the same one start, who does it for instance: for each start, those questions, each as the list of
 * its ways. Lags that an answer brings are left out.
 */
export function waysOf(model: Model, uses: readonly Use[]): readonly (readonly (readonly Way[])[])[] {
  const literals = 2 * model.choices.length;
  const openings: (Opening[] | undefined)[] = Array.from({ length: literals });
  const tasks: (Use[] | undefined)[] = Array.from({ length: literals });
  const lags: (Lag[] | undefined)[] = Array.from({ length: literals });
  /** The one start that a literal's rules are about; NO_START, or SEVERAL. */
  const about = new Int32Array(literals).fill(NO_START);
  const note = (literal: Literal, start: number): void => {
    about[literal] = about[literal] === NO_START || about[literal] === start ? start : SEVERAL;
  };
  for (const opening of model.openings)
    for (const literal of opening.when ?? []) {
      note(literal, opening.start);
      (openings[literal] ??= []).push(opening);
    }
  for (const use of uses)
    for (const literal of use.task.when ?? []) {
      note(literal, use.task.from);
      note(literal, use.task.to);
      (tasks[literal] ??= []).push(use);
    }
  for (const lag of model.lags)
    if (lag.kind === 'least') for (const literal of lag.when ?? []) (lags[literal] ??= []).push(lag);

  const wayOf = (literal: Literal, start: number, targets: readonly number[]): Way => {
    const rest = (when: readonly Literal[] = []): readonly Literal[] =>
      when.length === 1 ? NO_LITERALS : when.filter((each) => each !== literal);
    return {
      literal,
      openings: (openings[literal] ?? []).map(({ allowed, when }) => ({ allowed, rest: rest(when) })),
      uses: (tasks[literal] ?? []).map((use) => ({ use, rest: rest(use.task.when) })),
      lags: (lags[literal] ?? [])
        .filter(({ from, to }) => from === start && targets.includes(to))
        .map(({ to, map, when }) => ({ to, map, rest: rest(when) })),
    };
  };
  const found: Way[][][] = model.starts.map(() => []);
  for (const clause of model.clauses) {
    const start = clause.literals.reduce((s, literal) => Math.max(s, about[literal]), NO_START);
    const isAboutOne = clause.literals.every((each) => about[each] === start || about[each] === NO_START);
    if (clause.literals.length < 2 || start < 0 || !isAboutOne || isFollowed(clause.literals)) continue;
    const leadsTo = (literal: Literal, to: number): boolean =>
      lags[literal]?.some((lag) => lag.from === start && lag.to === to) ?? false;
    const targets = (lags[clause.literals[0]] ?? [])
      .map(({ to }) => to)
      .filter((to) => clause.literals.every((literal) => leadsTo(literal, to)));
    found[start].push(clause.literals.map((literal) => wayOf(literal, start, targets)));
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
  readonly wakesOfLiteral: readonly (readonly Wake[])[];
} {
  const starts: number[][] = Array.from({ length: model.choices.length }, () => []);
  const wakes: (Wake[] | undefined)[] = Array.from({ length: 2 * model.choices.length });
  const alone = model.starts.map((_, s): readonly number[] => [s]);
  const note = (when: readonly Literal[] | undefined, from: number, to: number, woken: number): void => {
    for (const literal of when ?? []) {
      const known = starts[literal >> 1];
      if (!known.includes(from)) known.push(from);
      if (!known.includes(to)) known.push(to);
      (wakes[literal] ??= []).push([when!, alone[woken]]);
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
  return { startsOfChoice: starts, wakesOfLiteral: wakes.map((list) => list ?? NONE) };
}
