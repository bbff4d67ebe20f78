/**
 * Conditions: the `when` lists of the model, as conjunctions of atoms in flat arrays. A rule under a condition is half-reified: it
 * binds when every atom is true, and when it cannot hold and all atoms but one are true, that one is set false.
 */
import type { Because, Trail } from './trail.ts';

export class Conditions {
  private readonly offset: number[] = [0];
  private readonly view: number[] = [];
  private readonly value: number[] = [];
  private readonly known = new Map<string, number>();

  /** Number 0 is the empty condition. */
  constructor() {
    this.add([]);
  }

  /** Adds a conjunction, as pairs (view, value), and returns its number; equal ones share it. */
  add(atoms: readonly (readonly [number, number])[]): number {
    if (atoms.length === 0 && this.known.size > 0) return 0;
    const sorted = [...atoms].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    const key = sorted.join(' ');
    const found = this.known.get(key);
    if (found !== undefined) return found;
    sorted.forEach(([view, value], k) => {
      if (k > 0 && sorted[k - 1][0] === view && sorted[k - 1][1] === value) return;
      this.view.push(view);
      this.value.push(value);
    });
    this.offset.push(this.view.length);
    const number = this.offset.length - 2;
    this.known.set(key, number);
    return number;
  }

  /** Adds an atom that no other condition has, without looking for an equal one. */
  addFresh(view: number, value: number): number {
    this.view.push(view);
    this.value.push(value);
    return this.offset.push(this.view.length) - 2;
  }

  /** Where the atoms of a condition begin, for `viewAt` and `valueAt`. */
  first(condition: number): number {
    return this.offset[condition];
  }

  atoms(condition: number): [number, number][] {
    const result: [number, number][] = [];
    for (let k = this.offset[condition]; k < this.offset[condition + 1]; k++)
      result.push([this.view[k], this.value[k]]);
    return result;
  }

  size(condition: number): number {
    return this.offset[condition + 1] - this.offset[condition];
  }

  /** TRUE when all atoms hold; DEAD when one is false, or two and more are open; else the index of the only open atom. */
  state(trail: Trail, condition: number): number {
    if (condition === 0) return TRUE;
    const { view, value } = this;
    const { bound } = trail;
    let open = TRUE;
    for (let k = this.offset[condition], end = this.offset[condition + 1]; k < end; k++) {
      const w = view[k];
      if (bound[w] >= value[k]) continue;
      if (bound[w ^ 1] >= 1 - value[k] || open !== TRUE) return DEAD;
      open = k;
    }
    return open;
  }

  viewAt(k: number): number {
    return this.view[k];
  }

  valueAt(k: number): number {
    return this.value[k];
  }

  /** Sets the open atom at index `k` false. */
  deny(trail: Trail, k: number, by: number, ref: number): boolean {
    return trail.set(this.view[k] ^ 1, 1 - this.value[k], by, ref);
  }

  /** Did every atom hold before the position? */
  heldBefore(trail: Trail, condition: number, before: number): boolean {
    for (let k = this.offset[condition], end = this.offset[condition + 1]; k < end; k++)
      if (trail.boundBefore(this.view[k], before) < this.value[k]) return false;
    return true;
  }

  /** Pushes the atoms, all but the one whose negation is being explained. */
  explain(condition: number, deniedView: number, because: Because): void {
    for (let k = this.offset[condition], end = this.offset[condition + 1]; k < end; k++)
      if ((this.view[k] ^ 1) !== deniedView) because.push(this.view[k], this.value[k]);
  }
}

export const TRUE = -1;
export const DEAD = -2;
