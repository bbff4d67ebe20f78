/**
 * What one part costs at least at a level, by when it begins to hold the scarcest thing that it holds for long. For each class of beginnings: the
 * level's cost and the earliest end of each thing held since then, when the part has all else for itself. Beginning later, nothing is earlier; so a
 * part that begins in the class holds at least from the class's last moment to those ends.
 */
import { raiseToCommon } from './common-to-answers.ts';
import type { Earliest } from './earliest.ts';
import type { Cost, Literal, Model, Task, Time } from './model.ts';
import type { Part } from './parts.ts';
import type { Question } from './questions.ts';

export interface HeldTask {
  readonly resource: number;
  readonly task: Task;
}

/** The classes of beginnings: `width` each from `from` on; from `until` on there is only one, in which nothing is held. */
export interface Grid {
  readonly from: Time;
  readonly width: Time;
  readonly until: Time;
}

export interface Holding {
  /** By class: the last moment at which it may begin, and the level's cost. */
  readonly last: Time[];
  readonly cost: number[];
  /** What is held with each answer to one question, one of which is given. */
  readonly answers: readonly (readonly Held[])[];
}

export interface Held {
  readonly resource: number;
  readonly task: Task;
  /** The earliest end, by class. */
  readonly ends: Time[];
}

/**
 * @param times where the part is begun and raised; its choices and times are left as they end
 * @param tasks what the part may hold from one start to another
 * @param costs of the level, about this part alone
 * @param scarcity of each resource
 * @returns null when the part does not fit even alone
 */
export function holdingOf(
  { clauses }: Model,
  [p, part]: readonly [number, Part],
  questions: readonly Question[],
  times: Earliest,
  tasks: readonly HeldTask[],
  costs: readonly Cost[],
  scarcity: readonly number[],
  { from, width, until }: Grid,
): Holding | null {
  if (!times.begin(p) || !raiseToCommon(times, part, questions)) return null;
  const answers = answersOf(clauses, part, times, tasks, scarcity);
  const held = [...new Set(answers.flat())];
  const holding: Holding = { last: [], cost: [], answers };
  const anchor = held[0]?.task.from;
  for (;;) {
    const begin = anchor === undefined ? until : times.least[anchor];
    holding.cost.push(costs.reduce((sum, cost) => sum + costAt(cost, times), 0));
    const next = from + (Math.floor((begin - from) / width) + 1) * width;
    holding.last.push(begin < until ? next - 1 : begin);
    for (const { task, ends } of held) ends.push(begin < until ? task.until.at(times.least[task.to]) : begin);
    if (anchor === undefined || begin >= until) return holding;
    if (!times.raise(anchor, next) || !times.propagate() || !raiseToCommon(times, part, questions))
      return holding;
  }
}

const costAt = (cost: Cost, { least }: Earliest): number =>
  cost.kind === 'late' ? cost.weight * Math.max(0, least[cost.start] - cost.after) : 0;

/** What is held from the same start as the scarcest: always, and with each answer to the question about the scarcest. */
function answersOf(
  clauses: Model['clauses'],
  part: Part,
  times: Earliest,
  tasks: readonly HeldTask[],
  scarcity: readonly number[],
): readonly (readonly Held[])[] {
  const open = (when: readonly Literal[] = []): readonly Literal[] =>
    when.filter((literal) => !times.isTrue(literal));
  const certain = tasks.filter(
    ({ task }) => open(task.when).length <= 1 && !task.when?.some((literal) => times.isFalse(literal)),
  );
  const byScarcity = [...certain].sort((a, b) => scarcity[b.resource] - scarcity[a.resource]);
  const anchored = byScarcity.filter(({ task }) => task.from === byScarcity[0].task.from);
  const held = anchored.map(({ resource, task }): Held => ({ resource, task, ends: [] }));
  const always = held.filter(({ task }) => open(task.when).length === 0);
  const [literal] = anchored.flatMap(({ task }) => open(task.when));
  const question = part.clauses
    .map((k) => clauses[k].literals)
    .find((literals) => literals.includes(literal) && !literals.some((each) => times.isTrue(each)));
  if (literal === undefined || question === undefined) return [always];
  return question
    .filter((each) => !times.isFalse(each))
    .map((each) => [...always, ...held.filter(({ task }) => open(task.when)[0] === each)]);
}
