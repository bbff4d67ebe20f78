/**
 * The starts that a task (or several tasks of one start together) may not have, in closed form: which values of the start make their
 * common run meet a stretch of time that is closed to them. Every bound is monotone, so the answer is one interval a stretch.
 */
import { leastGain } from './maps.ts';
import { NEVER, type MonotoneMap, type Task, type Time } from './model.ts';

/** The common run of some tasks as the one start `s` moves: from `max(s, from)` until `min(until(s)..., until)`. */
export interface CommonRun {
  readonly beginsWithStart: boolean;
  /** The latest of the fixed beginnings. */
  readonly from: Time;
  /** The earliest of the fixed ends. */
  readonly until: Time;
  readonly ends: readonly MonotoneMap[];
}

/** Half-open. */
export interface Span {
  readonly from: Time;
  readonly to: Time;
}

export type Forbid = (from: Time, to: Time) => void;

/** @param starts the values of all starts; that of `start` itself is not looked at */
export function commonRun(tasks: readonly Task[], start: number, starts: readonly Time[]): CommonRun {
  let from = -NEVER;
  let until = NEVER;
  const ends: MonotoneMap[] = [];
  let beginsWithStart = false;
  for (const task of tasks) {
    if (task.from === start) beginsWithStart = true;
    else from = Math.max(from, starts[task.from]);
    if (task.to === start) ends.push(task.until);
    else until = Math.min(until, task.until.at(starts[task.to]));
  }
  return { beginsWithStart, from, until, ends };
}

/** Calls `forbid` with the starts inside `window` for which the common run meets `[p, q)`. */
export function forbidMeeting(run: CommonRun, p: Time, q: Time, window: Span, forbid: Forbid): void {
  const { beginsWithStart, from, until, ends } = run;
  if (from >= q || until <= p || from >= until) return;
  let lo = window.from;
  const hi = beginsWithStart ? Math.min(q, until, window.to) : window.to;
  // until(s) > p and until(s) > from
  for (const end of ends) lo = Math.max(lo, end.leastReaching(Math.max(p, from) + 1));
  if (lo >= hi) return;
  if (!beginsWithStart || ends.every((end) => leastGain(end) > 0)) forbid(lo, hi);
  else forbidRunning(ends, lo, hi, forbid);
}

/**
 * The part of `[lo, hi)` in which the run is not empty, for maps that do not tell. Not empty at `s`, it is not empty anywhere in
 * `[s, until(s))`, the maps being monotone.
 */
function forbidRunning(ends: readonly MonotoneMap[], lo: Time, hi: Time, forbid: Forbid): void {
  const until = (s: Time): Time => ends.reduce((least, end) => Math.min(least, end.at(s)), NEVER);
  let from: Time | null = null;
  for (let s = lo; s < hi;) {
    const end = until(s);
    if (end > s) {
      from ??= s;
      s = Math.min(hi, end);
    } else {
      if (from !== null) forbid(from, s);
      from = null;
      s++;
    }
  }
  if (from !== null) forbid(from, hi);
}

/** Every non-empty set of the tasks, each with the sum of its amounts. */
export function eachSubset(
  tasks: readonly Task[],
  visit: (subset: readonly Task[], amount: number) => void,
): void {
  const chosen: Task[] = [];
  const grow = (first: number, amount: number): void => {
    for (let i = first; i < tasks.length; i++) {
      chosen.push(tasks[i]);
      visit(chosen, amount + tasks[i].amount);
      grow(i + 1, amount + tasks[i].amount);
      chosen.pop();
    }
  };
  grow(0, 0);
}
