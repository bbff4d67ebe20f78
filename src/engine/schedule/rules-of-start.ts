/** Which rules of a model bear on which start: made once a model, asked many times. */
import type { Model, Task } from './model.ts';

/** The tasks of one resource (or of one side of an exclusion) that begin or end with a start. */
export interface OwnTasks {
  /** Index of the resource or exclusion. */
  readonly index: number;
  readonly tasks: readonly Task[];
}

export interface OwnSides {
  readonly index: number;
  readonly one: readonly Task[];
  readonly other: readonly Task[];
}

export interface RulesOfStart {
  /** Indexes into `model.lags`, whichever end the start is. */
  readonly lags: readonly number[];
  readonly openings: readonly number[];
  readonly resources: readonly OwnTasks[];
  readonly exclusions: readonly OwnSides[];
}

const known = new WeakMap<Model, readonly RulesOfStart[]>();

/** The rules of every start; kept with the model. */
export function rulesOfStarts(model: Model): readonly RulesOfStart[] {
  let rules = known.get(model);
  if (rules === undefined) {
    rules = collect(model);
    known.set(model, rules);
  }
  return rules;
}

interface Growing {
  readonly lags: number[];
  readonly openings: number[];
  readonly resources: { readonly index: number; readonly tasks: Task[] }[];
  readonly exclusions: { readonly index: number; readonly one: Task[]; readonly other: Task[] }[];
}

/** The last of a list when it is of this index, else a new one at its end. */
function last<T extends { readonly index: number }>(list: T[], index: number, make: () => T): T {
  const end = list.at(-1);
  if (end?.index === index) return end;
  const made = make();
  list.push(made);
  return made;
}

function collect(model: Model): readonly RulesOfStart[] {
  const rules = model.starts.map((): Growing => ({ lags: [], openings: [], resources: [], exclusions: [] }));
  const ends = (thing: { readonly from: number; readonly to: number }): number[] =>
    thing.from === thing.to ? [thing.from] : [thing.from, thing.to];
  model.lags.forEach((lag, k) => ends(lag).forEach((s) => rules[s].lags.push(k)));
  model.openings.forEach((opening, k) => rules[opening.start].openings.push(k));
  model.resources.forEach((resource, index) => {
    for (const task of resource.tasks) {
      if (task.amount <= 0) continue;
      for (const s of ends(task))
        last(rules[s].resources, index, () => ({ index, tasks: [] })).tasks.push(task);
    }
  });
  model.exclusions.forEach((exclusion, index) => {
    for (const side of ['one', 'other'] as const)
      for (const task of exclusion[side])
        for (const s of ends(task))
          last(rules[s].exclusions, index, () => ({ index, one: [], other: [] }))[side].push(task);
  });
  return rules;
}
