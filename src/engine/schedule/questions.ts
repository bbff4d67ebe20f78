/** What there is to decide in a part besides times, and what each answer bears on. */
import type { Literal, Model, Task } from './model.ts';
import type { Part } from './parts.ts';

/** A clause, or a choice that is in none. */
export interface Question {
  readonly literals: readonly Literal[];
  /** The starts that the answers bear on. */
  readonly starts: readonly number[];
}

/** A condition that may come to hold, with the starts to look at then. */
export type Wake = readonly [when: readonly Literal[], starts: readonly number[]];

const NONE: readonly Wake[] = [];

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
