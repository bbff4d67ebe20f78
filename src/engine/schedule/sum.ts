/**
 * One objective level as a bound: `total >= sum of the terms`, for a variable `total` that saturates at SATURATED. A term is
 * `weight * max(0, view - after)` of one view, which covers lateness (`2x`), earliness (`2x + 1`) and choices (0/1 views).
 *
 * Explanation: as few terms as reach the value, each with the least bound that is still enough, the latest changes left out first.
 */
import type { Because, Explainer, Trail } from './trail.ts';

export interface Term {
  readonly view: number;
  readonly after: number;
  readonly weight: number;
}

/** Totals from here on are not told apart. */
export const SATURATED = 1_000_000_000;

export class Sum implements Explainer {
  private readonly by: number;
  private readonly scratch: Float64Array;

  constructor(
    private readonly trail: Trail,
    readonly total: number,
    private readonly terms: readonly Term[],
  ) {
    this.by = trail.register(this);
    this.scratch = new Float64Array(terms.length);
  }

  watched(): number[] {
    return [2 * this.total + 1, ...this.terms.map(({ view }) => view)];
  }

  propagate(): boolean {
    const { trail, terms, scratch, total } = this;
    const { bound } = trail;
    trail.work += 1 + (terms.length >> 3);
    let sum = 0;
    for (let k = 0; k < terms.length; k++) {
      const term = terms[k];
      const over = bound[term.view] - term.after;
      sum += scratch[k] = over > 0 ? over * term.weight : 0;
    }
    if (!trail.set(2 * total, Math.min(sum, SATURATED), this.by, -1)) return false;
    const limit = -bound[2 * total + 1];
    if (limit >= SATURATED) return true;
    const slack = limit - sum;
    for (let k = 0; k < terms.length; k++) {
      const term = terms[k];
      const most = term.after + Math.floor((scratch[k] + slack) / term.weight);
      if (-bound[term.view ^ 1] > most && !trail.set(term.view ^ 1, -most, this.by, k)) return false;
    }
    return true;
  }

  explain(view: number, value: number, before: number, ref: number, because: Because): void {
    const { trail, terms, total } = this;
    let needed = value;
    if (ref >= 0) {
      // view is the opposite of the term's: the term at most -value, because one more would pass the limit.
      const term = terms[ref];
      const limit = -trail.boundBefore(2 * total + 1, before);
      because.push(2 * total + 1, -limit);
      needed = limit - term.weight * Math.max(0, 1 - value - term.after) + 1;
    }
    if (view === 2 * total && value > SATURATED) needed = SATURATED;
    if (needed <= 0) return;
    let spare = -needed;
    const used: number[] = [];
    for (let k = 0; k < terms.length; k++) {
      if (k === ref) continue;
      const term = terms[k];
      const least = trail.boundBefore(term.view, before);
      this.scratch[k] = Math.max(0, least - term.after) * term.weight;
      if (this.scratch[k] <= 0) continue;
      spare += this.scratch[k];
      used.push(k);
    }
    // The latest changes first: dropping them makes the reason older and wider.
    used.sort((x, y) => trail.last[terms[y].view] - trail.last[terms[x].view] || x - y);
    for (const k of used) {
      const term = terms[k];
      if (this.scratch[k] <= spare) {
        spare -= this.scratch[k];
        continue;
      }
      const over = this.scratch[k] / term.weight;
      const less = Math.floor(spare / term.weight);
      spare -= less * term.weight;
      because.push(term.view, term.after + over - less);
    }
  }
}
