/**
 * The checker's own store of bounds: a least and a greatest value a variable, undone to a mark. Plain, and nothing of the solver's.
 */

/** `variable >= value` or `variable <= value`. */
export interface Atom {
  readonly variable: number;
  readonly isLeast: boolean;
  readonly value: number;
}

export const atLeast = (variable: number, value: number): Atom => ({ variable, isLeast: true, value });
export const atMost = (variable: number, value: number): Atom => ({ variable, isLeast: false, value });
export const negated = ({ variable, isLeast, value }: Atom): Atom =>
  isLeast ? atMost(variable, value - 1) : atLeast(variable, value + 1);

export class Bounds {
  readonly lo: number[] = [];
  readonly hi: number[] = [];
  /** Variables whose bounds have changed and that nobody has looked at yet. */
  readonly changed: number[] = [];
  private readonly undo: { readonly variable: number; readonly lo: number; readonly hi: number }[] = [];

  add(lo: number, hi: number): number {
    this.lo.push(lo);
    return this.hi.push(hi) - 1;
  }

  holds({ variable, isLeast, value }: Atom): boolean {
    return isLeast ? this.lo[variable] >= value : this.hi[variable] <= value;
  }

  fails({ variable, isLeast, value }: Atom): boolean {
    return isLeast ? this.hi[variable] < value : this.lo[variable] > value;
  }

  /** False when that leaves the variable no value. */
  set(atom: Atom): boolean {
    const { variable, isLeast, value } = atom;
    if (this.holds(atom)) return true;
    if (this.fails(atom)) return false;
    this.undo.push({ variable, lo: this.lo[variable], hi: this.hi[variable] });
    if (isLeast) this.lo[variable] = value;
    else this.hi[variable] = value;
    this.changed.push(variable);
    return true;
  }

  raise(variable: number, value: number): boolean {
    return value <= this.lo[variable] || this.set(atLeast(variable, value));
  }

  lower(variable: number, value: number): boolean {
    return value >= this.hi[variable] || this.set(atMost(variable, value));
  }

  mark(): number {
    return this.undo.length;
  }

  backTo(mark: number): void {
    while (this.undo.length > mark) {
      const { variable, lo, hi } = this.undo.pop()!;
      this.lo[variable] = lo;
      this.hi[variable] = hi;
    }
    this.changed.length = 0;
  }

  /** What holds now holds for good. */
  forgetUndo(): void {
    this.undo.length = 0;
  }
}

const isSame = (a: Atom, b: Atom): boolean =>
  a.variable === b.variable && a.isLeast === b.isLeast && a.value === b.value;

/**
 * Whether a conjunction binds: `true` when every atom holds, `false` when one fails or two are open, else the only open one,
 * which a broken rule denies.
 */
export function binding(bounds: Bounds, when: readonly Atom[]): boolean | Atom {
  let open: Atom | null = null;
  for (const atom of when) {
    if (bounds.holds(atom)) continue;
    if (open !== null && isSame(open, atom)) continue;
    if (open !== null || bounds.fails(atom)) return false;
    open = atom;
  }
  return open ?? true;
}
