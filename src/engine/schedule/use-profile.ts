/** What an assignment leaves of a resource, as steps over time; and what it leaves without the tasks of one start. */
import { NEVER, type Resource, type Task, type Time } from './model.ts';

/** A task that runs (`from < until`) under an assignment. */
export interface Run {
  readonly task: Task;
  readonly from: Time;
  readonly until: Time;
}

/** Capacity less use: `left[k]` from `time[k]` on; the first time is `-NEVER`. */
export interface Profile {
  readonly time: Int32Array;
  readonly left: Int32Array;
}

/** @param runs those of the resource; the order does not matter */
export function profileOf(resource: Resource, runs: readonly Run[]): Profile {
  const { capacity } = resource;
  const events: [Time, number][] = [];
  for (let k = 2; k < capacity.length; k += 2) events.push([capacity[k], capacity[k + 1] - capacity[k - 1]]);
  for (const { task, from, until } of runs) events.push([from, -task.amount], [until, task.amount]);
  events.sort((a, b) => a[0] - b[0]);
  const time = [-NEVER];
  const left = [capacity[1]];
  for (const [at, change] of events) {
    const end = time.length - 1;
    if (time[end] === at) left[end] += change;
    else {
      time.push(at);
      left.push(left[end] + change);
    }
  }
  return { time: Int32Array.from(time), left: Int32Array.from(left) };
}

/**
 * Calls `visit(from, to, left)` for each step of the profile with these runs given back. Each of them must be part of the profile,
 * so that its ends are ends of steps.
 */
export function eachStepWithout(
  { time, left }: Profile,
  own: readonly Run[],
  visit: (from: Time, to: Time, left: number) => void,
): void {
  for (let k = 0; k < time.length; k++) {
    let free = left[k];
    for (const { task, from, until } of own) if (from <= time[k] && time[k] < until) free += task.amount;
    visit(time[k], k + 1 < time.length ? time[k + 1] : NEVER, free);
  }
}
