/** A model's tasks as a time-table reads them. */
import { isConstant } from './maps.ts';
import type { Task } from './model.ts';
import type { OrderTask } from './orders.ts';
import type { TimedTask, Use } from './sure-profile.ts';

/** Tasks of several resources; those of the same time are one that uses several. */
export class SharedTasks {
  readonly all: (TimedTask & { uses: Use[] })[] = [];
  private readonly known = new Map<number, number[]>();

  /** The number of the task that uses `of`. */
  add({ task, condition }: OrderTask, of: number): number {
    const { from, amount } = task;
    const use = { of, amount };
    const beside = this.known.get(from) ?? [];
    for (const k of beside) {
      const { uses } = this.all[k];
      if (uses[uses.length - 1].of === of || !isAtOnce(this.all[k], task, condition)) continue;
      uses.push(use);
      return k;
    }
    const uses = [use];
    const number = this.all.push({ ...timedTask(task, condition, uses, true, true), uses }) - 1;
    beside.push(number);
    this.known.set(from, beside);
    return number;
  }
}

const isAtOnce = (a: TimedTask, b: Task, condition: number): boolean =>
  a.to === b.to &&
  a.condition === condition &&
  (a.until === b.until || (isConstant(a.until) && isConstant(b.until) && a.until.gap === b.until.gap));

export function timedTask(
  task: Task,
  condition: number,
  uses: readonly Use[],
  contributes: boolean,
  filtered: boolean,
): TimedTask {
  return {
    from: task.from,
    to: task.to,
    until: task.until,
    uses,
    condition,
    contributes,
    filtered,
  };
}
