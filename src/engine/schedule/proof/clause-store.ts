/** Clauses for the checker of proofs: unit propagation, with two watched atoms a clause. */
import { negated, type Atom, type Bounds } from './bounds.ts';

export class ClauseStore {
  /** The watched atoms of a clause are its first two. */
  private readonly clauses: Atom[][] = [];
  /** For each variable the clauses that watch an atom of it. */
  private readonly watching: number[][] = [];

  constructor(private readonly bounds: Bounds) {}

  /** Adds a clause for good. False when it, or what follows at once, cannot hold. Call where nothing is assumed. */
  add(clause: readonly Atom[]): boolean {
    const { bounds } = this;
    if (clause.some((atom) => bounds.holds(atom) || clause.some((other) => isEither(atom, other))))
      return true;
    const open = withoutDoubles(clause.filter((atom) => !bounds.fails(atom)));
    if (open.length === 0) return false;
    if (open.length === 1) return bounds.set(open[0]);
    const number = this.clauses.push(open) - 1;
    this.watch(open[0], number);
    this.watch(open[1], number);
    return true;
  }

  private watch({ variable }: Atom, clause: number): void {
    (this.watching[variable] ??= []).push(clause);
  }

  /** What follows from a change of the variable's bounds; false when a clause has no atom left. */
  propagate(variable: number): boolean {
    const list = this.watching[variable];
    if (list === undefined) return true;
    const { bounds, clauses } = this;
    let kept = 0;
    for (let k = 0; k < list.length; k++) {
      const number = list[k];
      const clause = clauses[number];
      const [first, second] = clause;
      // Which of the two watched atoms is this variable's, and false?
      const at = first.variable === variable && bounds.fails(first) ? 0 : 1;
      const watched = clause[at];
      if (watched.variable !== variable || !bounds.fails(watched)) {
        list[kept++] = number;
        continue;
      }
      const other = at === 0 ? second : first;
      if (!bounds.holds(other)) {
        const next = clause.findIndex((atom, i) => i > 1 && !bounds.fails(atom));
        if (next > 0) {
          clause[at] = clause[next];
          clause[next] = watched;
          if (clause[at].variable === variable) list[kept++] = number;
          else this.watch(clause[at], number);
          continue;
        }
        list[kept++] = number;
        if (!bounds.set(other)) {
          while (++k < list.length) list[kept++] = list[k];
          list.length = kept;
          return false;
        }
        continue;
      }
      list[kept++] = number;
    }
    list.length = kept;
    return true;
  }
}

/** Does one of the two hold whatever the value? */
const isEither = (a: Atom, b: Atom): boolean =>
  a.variable === b.variable && a.isLeast && !b.isLeast && b.value >= a.value - 1;

/** Of atoms that say the same of a variable in the same direction only the widest. */
function withoutDoubles(clause: readonly Atom[]): Atom[] {
  const kept: Atom[] = [];
  for (const atom of clause) {
    const at = kept.findIndex((other) => other.variable === atom.variable && other.isLeast === atom.isLeast);
    if (at < 0) kept.push(atom);
    else if (atom.isLeast ? atom.value < kept[at].value : atom.value > kept[at].value) kept[at] = atom;
  }
  return kept;
}

/** Assumes that every atom of a clause is false. False when that alone cannot be. */
export const assumeFalse = (bounds: Bounds, clause: readonly Atom[]): boolean =>
  clause.every((atom) => bounds.set(negated(atom)));
