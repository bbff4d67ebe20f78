/** Cliques in proofs: spans from a start, `[start, start + length)`, of which no two ever overlap. Such a set is a machine of its own. */
import type { MonotoneMap } from '../model.ts';
import { mostLag, type Rule } from './rules.ts';
import type { Capacity, Use } from './use-rules.ts';

export interface Span {
  readonly start: number;
  readonly length: number;
}

/** A resource in the checker's variables. */
export interface Shared {
  readonly uses: readonly Use[];
  readonly capacity: Capacity;
}

/** More than this is never there at once. */
export const greatest = (capacity: Capacity): number =>
  capacity.reduce((top, amount, k) => (k % 2 === 1 ? Math.max(top, amount) : top), 0);

const shift = (by: number): MonotoneMap => ({ at: (s) => s + by, leastReaching: (v) => v - by });

/** Does the resource keep the two spans apart: does each lie within a task that is surely there, and are the two too much for it? */
export function keepsApart({ uses, capacity }: Shared, a: Span, b: Span): boolean {
  const amounts = (span: Span): number[] =>
    uses
      .filter(
        ({ from, to, when, length }) =>
          from === span.start && to === from && when.length === 0 && length >= span.length,
      )
      .map(({ amount }) => amount);
  return Math.max(0, ...amounts(a)) + Math.max(0, ...amounts(b)) > greatest(capacity);
}

/** `next` begins before `span` is over: where that fails, `next` surely comes after it. */
export const beginsWithin = (next: Span, span: Span): Rule =>
  mostLag(span.start, next.start, shift(span.length - 1), []);

export const asMachine = (spans: readonly Span[]): Shared => ({
  uses: spans.map(({ start, length }) => ({
    from: start,
    to: start,
    until: shift(length),
    amount: 1,
    when: [],
    length,
  })),
  capacity: Int32Array.of(0, 1),
});
