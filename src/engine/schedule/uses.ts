/** Tasks as they are laid down: each with the channel on which it must fit and the one from which it takes. */
import { Channel } from './channel.ts';
import { leastGain } from './maps.ts';
import type { Model, Task } from './model.ts';

export interface Use {
  readonly task: Task;
  /** The task fits where this channel has `needs` left. */
  readonly fits: Channel;
  readonly needs: number;
  readonly takes: Channel;
  readonly amount: number;
  readonly isNeverEmpty: boolean;
}

/** A use for every task of the model, on channels of its own: one a resource, one a side of an exclusion. */
export function usesOf(model: Model): Use[] {
  const uses: Use[] = [];
  for (const { capacity, tasks } of model.resources) {
    const channel = new Channel(capacity);
    for (const task of tasks)
      if (task.amount > 0)
        uses.push({
          task,
          fits: channel,
          needs: task.amount,
          takes: channel,
          amount: task.amount,
          isNeverEmpty: leastGain(task.until) > 0,
        });
  }
  for (const { one, other } of model.exclusions) {
    const [ones, others] = [new Channel([0, 0]), new Channel([0, 0])];
    for (const task of one)
      uses.push({
        task,
        fits: others,
        needs: 0,
        takes: ones,
        amount: 1,
        isNeverEmpty: leastGain(task.until) > 0,
      });
    for (const task of other)
      uses.push({
        task,
        fits: ones,
        needs: 0,
        takes: others,
        amount: 1,
        isNeverEmpty: leastGain(task.until) > 0,
      });
  }
  return uses;
}
