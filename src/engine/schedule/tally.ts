/**
 * The objective as parts come and go: the value of every level for the parts that are laid down, and a guess of what a part in the
 * making would add. Buckets are shared: the first to use one pays.
 */
import { firstReaching } from './maps.ts';
import type { Literal, Model, Time } from './model.ts';
import type { Part } from './parts.ts';

interface Timed {
  readonly level: number;
  readonly start: number;
  readonly at: Time;
  readonly weight: number;
}

interface Chosen {
  readonly level: number;
  readonly when: Literal;
  readonly weight: number;
}

interface Bucketed {
  readonly level: number;
  readonly weight: number;
  readonly start: number;
  readonly when: readonly Literal[];
  readonly edges: Int32Array;
  /** How many laid-down starts lie in each bucket. */
  readonly count: Int32Array;
  /** The last guess that paid for a bucket. */
  readonly paid: Int32Array;
}

interface Terms {
  readonly late: Timed[];
  readonly early: Timed[];
  readonly chosen: Chosen[];
  readonly bucketed: Bucketed[];
}

export interface LonelyBucket {
  readonly level: number;
  readonly starts: readonly { readonly part: number; readonly start: number }[];
  readonly next: Time;
}

export class Tally {
  /** The value of each level over the parts that were added. */
  readonly values: Float64Array;
  private readonly terms: Terms[];
  private guess = 0;

  /**
   * @param least the time of each start (in the making: the least it can have)
   * @param truth 1 yes, 0 no, -1 open, a choice
   */
  constructor(
    model: Model,
    parts: readonly Part[],
    private readonly least: Int32Array,
    private readonly truth: Int8Array,
  ) {
    this.values = new Float64Array(model.levels.length);
    this.terms = parts.map(() => ({ late: [], early: [], chosen: [], bucketed: [] }));
    const ofStart = new Int32Array(model.starts.length);
    const ofChoice = new Int32Array(model.choices.length);
    parts.forEach(({ starts, choices }, p) => {
      for (const s of starts) ofStart[s] = p;
      for (const c of choices) ofChoice[c] = p;
    });
    model.levels.forEach((level, k) => {
      for (const cost of level.costs) {
        if (cost.kind === 'late')
          this.terms[ofStart[cost.start]].late.push({
            level: k,
            start: cost.start,
            at: cost.after,
            weight: cost.weight,
          });
        else if (cost.kind === 'early')
          this.terms[ofStart[cost.start]].early.push({
            level: k,
            start: cost.start,
            at: cost.before,
            weight: cost.weight,
          });
        else if (cost.kind === 'choice')
          this.terms[ofChoice[cost.when >> 1]].chosen.push({
            level: k,
            when: cost.when,
            weight: cost.weight,
          });
        else {
          const { edges, weight } = cost;
          const count = new Int32Array(edges.length);
          const paid = new Int32Array(edges.length);
          cost.starts.forEach((start, i) =>
            this.terms[ofStart[start]].bucketed.push({
              level: k,
              weight,
              start,
              when: cost.when?.[i] ?? [],
              edges,
              count,
              paid,
            }),
          );
        }
      }
    });
  }

  private holds(when: readonly Literal[]): boolean {
    for (const literal of when) if (this.truth[literal >> 1] !== 1 - (literal & 1)) return false;
    return true;
  }

  private addPlain(part: number, sign: number, into: Float64Array): void {
    this.addRising(part, sign, into);
    for (const { level, start, at, weight } of this.terms[part].early) {
      const under = at - this.least[start];
      if (under > 0) into[level] += sign * weight * under;
    }
  }

  /** What only becomes more while times rise and choices are made. */
  private addRising(part: number, sign: number, into: Float64Array): void {
    const { late, chosen } = this.terms[part];
    for (const { level, start, at, weight } of late) {
      const over = this.least[start] - at;
      if (over > 0) into[level] += sign * weight * over;
    }
    for (const { level, when, weight } of chosen)
      if (this.truth[when >> 1] === 1 - (when & 1)) into[level] += sign * weight;
  }

  /** Counts a part that has been laid down. */
  add(part: number): void {
    this.addPlain(part, 1, this.values);
    for (const { level, start, when, edges, count, weight } of this.terms[part].bucketed) {
      const k = firstReaching(edges, this.least[start] + 1) - 1;
      if (k < 0 || k + 1 >= edges.length || !this.holds(when)) continue;
      if (count[k]++ === 0) this.values[level] += weight;
    }
  }

  /** Takes a part out again, before its times and choices change. */
  remove(part: number): void {
    this.addPlain(part, -1, this.values);
    for (const { level, start, when, edges, count, weight } of this.terms[part].bucketed) {
      const k = firstReaching(edges, this.least[start] + 1) - 1;
      if (k < 0 || k + 1 >= edges.length || !this.holds(when)) continue;
      if (--count[k] === 0) this.values[level] -= weight;
    }
  }

  /** Lowers `most` to the last time of each start of the part up to which nothing costs more than at its least. */
  limit(part: number, most: Int32Array): void {
    const { late, bucketed } = this.terms[part];
    for (const { start, at } of late) most[start] = Math.min(most[start], Math.max(this.least[start], at));
    for (const { start, when, edges } of bucketed) {
      const next = firstReaching(edges, this.least[start] + 1);
      if (next < edges.length && this.holds(when)) most[start] = Math.min(most[start], edges[next] - 1);
    }
  }

  /** What the part would add if all stayed at its least; conditions that are still open do not count. */
  estimate(part: number, into: Float64Array): void {
    into.fill(0);
    this.addPlain(part, 1, into);
    this.guess++;
    for (const { level, start, when, edges, count, paid, weight } of this.terms[part].bucketed) {
      if (!this.holds(when)) continue;
      const k = firstReaching(edges, this.least[start] + 1) - 1;
      if (k < 0 || k + 1 >= edges.length || count[k] > 0 || paid[k] === this.guess) continue;
      paid[k] = this.guess;
      into[level] += weight;
    }
  }

  /** What a part in the making costs at least, level by level, whatever is still open. */
  atLeast(part: number, into: Float64Array): void {
    into.fill(0);
    this.addRising(part, 1, into);
  }

  /** The literals of a part that must be false, for by them alone it would cost more than it may. */
  tooDear(
    part: number,
    least: Float64Array,
    isForced: (literal: Literal) => boolean,
    mayCost: (least: Float64Array) => boolean,
  ): Literal[] {
    const found: Literal[] = [];
    for (const { level, when, weight } of this.terms[part].chosen) {
      if (isForced(when) || isForced(when ^ 1)) continue;
      least[level] += weight;
      if (!mayCost(least)) found.push(when ^ 1);
      least[level] -= weight;
    }
    return found;
  }

  /** The part's own share of a level: all but the buckets. */
  share(part: number, into: Float64Array): void {
    into.fill(0);
    this.addPlain(part, 1, into);
  }

  /**
   * A bucket that few starts keep open: those starts, and the first later bucket of the same cost that is open anyway. Null when there is
   * no such bucket among a few tried.
   * @param few how many starts are few
   */
  lonelyBucket(few: number, below: (n: number) => number): LonelyBucket | null {
    for (let trial = 0; trial < 10; trial++) {
      const { bucketed } = this.terms[below(this.terms.length)];
      if (bucketed.length === 0) continue;
      const { level, start, when, edges, count } = bucketed[below(bucketed.length)];
      const k = firstReaching(edges, this.least[start] + 1) - 1;
      if (k < 0 || k + 1 >= edges.length || count[k] > few || !this.holds(when)) continue;
      const starts: { part: number; start: number }[] = [];
      this.terms.forEach((terms, part) => {
        for (const other of terms.bucketed) {
          const at = this.least[other.start];
          if (other.count === count && edges[k] <= at && at < edges[k + 1] && this.holds(other.when))
            starts.push({ part, start: other.start });
        }
      });
      let next = k + 1;
      while (next + 1 < edges.length && count[next] === 0) next++;
      return { level, starts, next: edges[next] };
    }
    return null;
  }
}
