/**
 * Openings: the times that a start may take. A lower bound inside a hole moves to the hole's end, an upper bound to the
 * last moment before it. Explanation: `s >= v` for v in the hole `(from, to]` because `s >= from`: the whole hole, not the minute.
 */
import { DEAD, TRUE, type Conditions } from './conditions.ts';
import { firstReaching } from './maps.ts';
import { NEVER } from './model.ts';
import type { Because, Explainer, Trail } from './trail.ts';

interface Holes {
  readonly variable: number;
  readonly condition: number;
  /** Hole k is `[from[k], to[k])`; the first begins at -NEVER, the last ends at NEVER. */
  readonly from: Int32Array;
  readonly to: Int32Array;
}

export class Openings implements Explainer {
  private readonly by: number;
  private readonly all: Holes[] = [];
  private readonly ofView: number[][] = [];

  constructor(
    private readonly trail: Trail,
    private readonly conditions: Conditions,
  ) {
    this.by = trail.register(this);
  }

  /** `allowed`: half-open intervals, ascending and disjoint. */
  add(variable: number, allowed: Int32Array, condition: number): void {
    const from: number[] = [-NEVER];
    const to: number[] = [];
    for (let k = 0; k < allowed.length; k += 2) {
      if (allowed[k] >= allowed[k + 1]) continue;
      if (from[from.length - 1] === allowed[k]) from.pop();
      else to.push(allowed[k]);
      from.push(allowed[k + 1]);
    }
    to.push(NEVER);
    const number =
      this.all.push({ variable, condition, from: Int32Array.from(from), to: Int32Array.from(to) }) - 1;
    const wake = (view: number): void => void (this.ofView[view] ??= []).push(number);
    wake(2 * variable);
    wake(2 * variable + 1);
    for (const [view] of this.conditions.atoms(condition)) wake(view);
  }

  propagate(view: number): boolean {
    const list = this.ofView[view];
    if (list === undefined) return true;
    for (const number of list) if (!this.one(number)) return false;
    return true;
  }

  private one(number: number): boolean {
    const { trail, conditions } = this;
    const { variable, condition, from, to } = this.all[number];
    const state = conditions.state(trail, condition);
    if (state === DEAD) return true;
    const least = trail.bound[2 * variable];
    const greatest = -trail.bound[2 * variable + 1];
    const hole = firstReaching(to, least + 1);
    const blocked = hole < to.length && from[hole] <= least;
    if (state !== TRUE) {
      // Only one hole that swallows the whole window denies the condition.
      return !blocked || to[hole] <= greatest || conditions.deny(trail, state, this.by, number);
    }
    if (blocked && !trail.set(2 * variable, to[hole], this.by, number)) return false;
    const last = firstReaching(to, greatest + 1);
    if (last < to.length && from[last] <= greatest)
      return trail.set(2 * variable + 1, 1 - from[last], this.by, number);
    return true;
  }

  explain(view: number, value: number, before: number, number: number, because: Because): void {
    const { variable, condition, from, to } = this.all[number];
    if (view === 2 * variable) {
      because.push(view, from[firstReaching(to, value)]);
      this.conditions.explain(condition, -1, because);
    } else if (view === 2 * variable + 1) {
      // value = -u: the start is at most u, because it is less than the end of the hole that holds u + 1.
      because.push(view, 1 - to[firstReaching(to, 2 - value)]);
      this.conditions.explain(condition, -1, because);
    } else {
      const hole = firstReaching(to, this.trail.boundBefore(2 * variable, before) + 1);
      because.push(2 * variable, from[hole]);
      because.push(2 * variable + 1, 1 - to[hole]);
      this.conditions.explain(condition, view, because);
    }
  }
}
