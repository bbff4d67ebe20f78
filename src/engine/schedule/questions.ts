/** What there is to decide in a part besides times, and what each answer bears on. */
import type { Literal, Model } from './model.ts';
import type { Part } from './parts.ts';

/** A clause, or a choice that is in none. */
export interface Question {
  readonly literals: readonly Literal[];
  /** The starts that the answers bear on. */
  readonly starts: readonly number[];
}

/** A condition that may come to hold, with the starts to look at then. */
export type Wake = readonly [when: readonly Literal[], starts: readonly number[]];

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
  const starts = Array.from({ length: model.choices.length }, (): number[] => []);
  const wakes = Array.from({ length: 2 * model.choices.length }, (): Wake[] => []);
  const note = (
    when: readonly Literal[] | undefined,
    touched: readonly number[],
    woken: readonly number[],
  ): void => {
    for (const literal of when ?? []) {
      const known = starts[literal >> 1];
      for (const s of touched) if (!known.includes(s)) known.push(s);
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
  return { startsOfChoice: starts, wakesOfLiteral: wakes };
}
