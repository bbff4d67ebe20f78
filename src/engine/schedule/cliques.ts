/**
 * Cliques: activities of which no two can run at once, whatever keeps each pair apart, one resource or another or the lags. Together they are a machine,
 * and a machine is used up by the time they take, where a resource of ten counts six of ten as six tenths of it.
 *
 * Literature: Mingozzi, Maniezzo, Ricciardelli, Bianco 1998 (bounds from what can run together); Baptiste, Le Pape 2000 (edge-finding on sets of disjoint
 * activities).
 */

import type { Time } from './model.ts';

/** Activities whose spans, `[start, start + length)`, are disjoint in every schedule. */
export interface Clique {
  readonly starts: readonly number[];
  readonly lengths: Int32Array;
}

/** More cliques cost more than they find. */
const MOST_CLIQUES = 2;
/** A heavy clique is looked for from so many activities. */
const MOST_BEGINNINGS = 12;

/** Which starts run for how long at least, and which of these spans can never overlap. */
export class Spans {
  private readonly lengths: Int32Array;
  private readonly isApart: Uint8Array;
  private readonly isKnown: Uint8Array;

  /** `on`: false for models too large for it; there are then no cliques. */
  constructor(
    private readonly n: number,
    private readonly on: boolean,
  ) {
    this.lengths = new Int32Array(on ? n : 0);
    this.isApart = new Uint8Array(on ? n * n : 0);
    this.isKnown = new Uint8Array(on ? n * n : 0);
  }

  /** A start's span is the shortest of its tasks: what keeps any of them apart keeps that apart. */
  add(start: number, length: Time): void {
    if (!this.on) return;
    const known = this.lengths[start];
    this.lengths[start] = known === 0 ? length : Math.min(known, length);
  }

  /** `isKnown`: that is said elsewhere, by a machine of the model or by lags. */
  keepApart(i: number, j: number, isKnown: boolean): void {
    if (!this.on) return;
    const { n } = this;
    const [pair, turned] = [i * n + j, j * n + i];
    this.isApart[pair] = this.isApart[turned] = 1;
    if (isKnown) this.isKnown[pair] = this.isKnown[turned] = 1;
  }

  /** `distance`: how long after the one start the other surely comes. */
  cliques(distance: (from: number, to: number) => Time): readonly Clique[] {
    const { n, lengths, isApart, isKnown } = this;
    if (!this.on || !isApart.includes(1)) return [];
    for (let i = 0; i < n; i++) {
      if (lengths[i] === 0) continue;
      for (let j = 0; j < n; j++)
        if (i !== j && lengths[j] > 0 && isApart[i * n + j] === 0 && distance(i, j) >= lengths[i])
          this.keepApart(i, j, true);
    }
    return heavyCliques(lengths, isApart, isKnown);
  }
}

/**
 * A few heavy cliques of at least three activities, each with a pair that is in none before it.
 *
 * @param lengths how long each start's activity runs; 0 keeps it out
 * @param isApart for each pair, at `i * n + j` and `j * n + i`: do their spans never overlap?
 * @param isKnown for each pair in the same way: does a machine of the model, or do the lags, keep both apart?
 */
function heavyCliques(lengths: Int32Array, isApart: Uint8Array, isKnown: Uint8Array): Clique[] {
  const n = lengths.length;
  const covered = isKnown.slice();
  const uses = new Int32Array(n);
  const hindered = new Float64Array(n);
  const all: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0, row = i * n; j < n; j++) if (isApart[row + j] === 1) hindered[i] += lengths[j];
    if (lengths[i] > 0 && hindered[i] > 0) all.push(i);
  }
  const beside = notApart(all, isApart, n);
  const cliques: Clique[] = [];
  while (cliques.length < MOST_CLIQUES) {
    all.sort((a, b) => uses[a] - uses[b] || hindered[b] - hindered[a] || a - b);
    const starts = heaviest(all, lengths, isApart, beside, covered).sort((a, b) => a - b);
    if (starts.length < 3) break;
    cliques.push({ starts, lengths: new Int32Array(starts.map((i) => lengths[i])) });
    for (const i of starts) {
      uses[i]++;
      for (const j of starts) covered[i * n + j] = 1;
    }
  }
  return cliques;
}

/** For each activity those of `all` that it can run beside, itself included. */
function notApart(all: readonly number[], isApart: Uint8Array, n: number): readonly (readonly number[])[] {
  const lists: number[][] = [];
  for (let i = 0; i < n; i++) lists.push([]);
  for (const i of all) for (const j of all) if (isApart[i * n + j] === 0) lists[i].push(j);
  return lists;
}

/**
 * A heavy clique with a pair that is not covered, or none: grown from each of the first activities of the order, and bettered by taking one in for those it
 * does not go with, as long as that makes it heavier.
 */
function heaviest(
  order: readonly number[],
  lengths: Int32Array,
  isApart: Uint8Array,
  beside: readonly (readonly number[])[],
  covered: Uint8Array,
): number[] {
  const n = lengths.length;
  let members: number[] = [];
  /** For each start: how long those members run that it does not go with, itself included. */
  const against = new Int32Array(n);
  const count = (i: number, length: number): void => {
    const list = beside[i];
    for (let k = 0; k < list.length; k++) against[list[k]] += length;
  };
  const take = (i: number): void => {
    members.push(i);
    count(i, lengths[i]);
  };
  const fill = (): void => {
    for (let k = 0; k < order.length; k++) if (against[order[k]] === 0) take(order[k]);
  };
  let best: number[] = [];
  let bestWeight = 0;
  for (let k = 0; k < order.length && k < MOST_BEGINNINGS; k++) {
    members = [];
    against.fill(0);
    take(order[k]);
    fill();
    for (let isBetter = true; isBetter;) {
      isBetter = false;
      for (const i of order) {
        if (against[i] >= lengths[i]) continue;
        for (const j of members) if (isApart[i * n + j] === 0) count(j, -lengths[j]);
        members = members.filter((j) => isApart[i * n + j] === 1);
        take(i);
        fill();
        isBetter = true;
      }
    }
    const weight = members.reduce((sum, i) => sum + lengths[i], 0);
    if (weight <= bestWeight) continue;
    const isNew = members.some((i) => members.some((j) => i !== j && covered[i * n + j] === 0));
    if (!isNew) continue;
    best = members;
    bestWeight = weight;
  }
  return best;
}
