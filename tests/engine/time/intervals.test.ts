import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clip,
  complement,
  holds,
  intersect,
  intervalAt,
  subtract,
  tidy,
  totalMinutes,
  union,
} from '../../../src/engine/time/index.ts';
import type { Intervals } from '../../../src/engine/time/index.ts';

const SEED = { seed: 20261126, numRuns: 400 };
const SPAN = 40;
const pairs = fc.array(fc.tuple(fc.integer({ min: -5, max: SPAN }), fc.integer({ min: -5, max: SPAN })), {
  maxLength: 6,
});
const within = (set: readonly (readonly [number, number])[], m: number): boolean =>
  set.some(([a, b]) => a <= m && m < b);

function expectSet(set: Intervals, inside: (m: number) => boolean): void {
  for (let i = 1; i < set.length; i++) expect(set[i]).toBeGreaterThan(set[i - 1]);
  let count = 0;
  for (let m = -10; m < SPAN + 10; m++) {
    expect(holds(set, m)).toBe(inside(m));
    if (inside(m)) count++;
  }
  expect(totalMinutes(set)).toBe(count);
}

describe('sets of minutes', () => {
  it('agree minute by minute with what they are made of', () => {
    fc.assert(
      fc.property(
        pairs,
        pairs,
        fc.integer({ min: -8, max: SPAN }),
        fc.integer({ min: -8, max: SPAN }),
        (p, q, from, to) => {
          const [a, b] = [tidy(p), tidy(q)];
          expectSet(a, (m) => within(p, m));
          expectSet(union(a, b), (m) => within(p, m) || within(q, m));
          expectSet(intersect(a, b), (m) => within(p, m) && within(q, m));
          expectSet(subtract(a, b), (m) => within(p, m) && !within(q, m));
          expectSet(clip(a, from, to), (m) => within(p, m) && from <= m && m < to);
          expectSet(complement(a, from, to), (m) => !within(p, m) && from <= m && m < to);
        },
      ),
      SEED,
    );
  });
  it('join neighbours that touch, so that work may run across them', () => {
    expect([
      ...tidy([
        [10, 20],
        [0, 10],
        [5, 5],
        [30, 25],
      ]),
    ]).toEqual([0, 20]);
    expect([...union(Int32Array.of(0, 10), Int32Array.of(10, 20))]).toEqual([0, 20]);
    expect(intervalAt(Int32Array.of(0, 10, 20, 30), 25)).toBe(1);
    expect(intervalAt(Int32Array.of(0, 10, 20, 30), 10)).toBe(-1);
  });
});
