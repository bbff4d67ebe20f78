/**
 * Every rule of a model, checked one by one on an assignment: plainly, slowly, and with nothing of the solver. What the solver says is
 * held against this in tests and benches.
 */
import type { Assignment, Literal, Model, Resource, Task } from './model.ts';

interface Run {
  readonly index: number;
  readonly from: number;
  readonly until: number;
  readonly amount: number;
}

/** The broken rules, one sentence each; empty when the assignment keeps them all. */
export function verify(model: Model, assignment: Assignment): string[] {
  const { starts, choices } = assignment;
  const faults: string[] = [];
  const holds = (literal: Literal): boolean => choices[literal >> 1] === ((literal & 1) === 0);
  const binds = (when: readonly Literal[] | undefined): boolean => (when ?? []).every(holds);
  const name = (start: number): string =>
    `${model.starts[start].name || `start ${start}`} at ${starts[start]}`;

  if (starts.length !== model.starts.length)
    faults.push(`${starts.length} starts given, ${model.starts.length} asked for`);
  if (choices.length !== model.choices.length)
    faults.push(`${choices.length} choices given, ${model.choices.length} asked for`);
  if (faults.length > 0) return faults;

  model.starts.forEach((start, s) => {
    if (!Number.isInteger(starts[s])) faults.push(`${name(s)} is not a whole time`);
    if (starts[s] < start.earliest || starts[s] > start.latest)
      faults.push(`${name(s)} is outside ${start.earliest}..${start.latest}`);
  });
  model.lags.forEach((lag, k) => {
    if (!binds(lag.when)) return;
    const bound = lag.map.at(starts[lag.from]);
    if (lag.kind === 'least' ? starts[lag.to] < bound : starts[lag.to] > bound)
      faults.push(`lag ${k}: ${name(lag.to)} breaks ${lag.kind} ${bound} set by ${name(lag.from)}`);
  });
  model.openings.forEach((opening, k) => {
    if (!binds(opening.when)) return;
    const at = starts[opening.start];
    let inside = false;
    for (let i = 0; i < opening.allowed.length; i += 2)
      if (opening.allowed[i] <= at && at < opening.allowed[i + 1]) inside = true;
    if (!inside) faults.push(`opening ${k}: ${name(opening.start)} is not allowed then`);
  });
  model.clauses.forEach((clause, k) => {
    if (!clause.literals.some(holds)) faults.push(`clause ${k}: none of its literals is true`);
  });
  const runs = (tasks: readonly Task[]): Run[] =>
    tasks.flatMap((task, index) => {
      const from = starts[task.from];
      const until = task.until.at(starts[task.to]);
      return binds(task.when) && from < until ? [{ index, from, until, amount: task.amount }] : [];
    });
  for (const resource of model.resources) faults.push(...overloads(resource, runs(resource.tasks)));
  for (const exclusion of model.exclusions) {
    for (const a of runs(exclusion.one))
      for (const b of runs(exclusion.other))
        if (a.from < b.until && b.from < a.until)
          faults.push(
            `exclusion ${exclusion.name}: task ${a.index} of one side and task ${b.index} of the other overlap`,
          );
  }
  return faults;
}

/** Use only rises where a task begins, and capacity only falls at its steps: those moments are enough. */
function overloads(resource: Resource, running: readonly Run[]): string[] {
  const { capacity } = resource;
  const moments = new Set(running.map((run) => run.from));
  for (let k = 2; k < capacity.length; k += 2) moments.add(capacity[k]);
  const faults: string[] = [];
  for (const t of [...moments].sort((a, b) => a - b)) {
    let there = capacity[1];
    for (let k = 0; k < capacity.length; k += 2) if (capacity[k] <= t) there = capacity[k + 1];
    const here = running.filter((run) => run.from <= t && t < run.until);
    const use = here.reduce((sum, run) => sum + run.amount, 0);
    if (use > there)
      faults.push(
        `resource ${resource.name}: ${use} used of ${there} at ${t} by tasks ${here.map((run) => run.index).join(', ')}`,
      );
  }
  return faults;
}
