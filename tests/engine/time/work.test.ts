import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import type { MonotoneMap } from '../../../src/engine/schedule/model.ts';
import { holds, nextOpen, startsThatFit, tidy, workEnd } from '../../../src/engine/time/index.ts';
import type { Intervals } from '../../../src/engine/time/index.ts';

const SEED = { seed: 20261126, numRuns: 300 };
const SPAN = 50;
const openings = fc
  .array(fc.tuple(fc.integer({ min: -6, max: SPAN }), fc.integer({ min: -6, max: SPAN })), { maxLength: 6 })
  .map(tidy);

/** Minute by minute, as one would with a finger on the calendar. */
function workByFinger(open: Intervals, s: number, minutes: number): number {
  let left = minutes;
  for (let m = s; m <= SPAN; m++) {
    if (left === 0) return m;
    if (holds(open, m)) left--;
  }
  return left === 0 ? SPAN + 1 : NEVER;
}

function openByFinger(open: Intervals, s: number): number {
  for (let m = s; m <= SPAN; m++) if (holds(open, m)) return m;
  return NEVER;
}

function expectMonotoneWithInverse(map: MonotoneMap, byFinger: (s: number) => number): void {
  const first = -12;
  for (let s = first; s <= SPAN + 5; s++) {
    expect(map.at(s)).toBe(byFinger(s));
    expect(map.at(s + 1)).toBeGreaterThanOrEqual(map.at(s));
  }
  for (const v of [...Array(SPAN + 30).keys()].map((i) => i - 15).concat(NEVER)) {
    let least = first;
    while (least <= SPAN + 5 && map.at(least) < v) least++;
    const found = map.leastReaching(v);
    // Starts before every opening all end alike, so the least of them has no bound: any start so early is right.
    if (least === first) expect(found).toBeLessThanOrEqual(first);
    else expect(found).toBe(least);
  }
  expect(map.leastReaching(NEVER + 1)).toBe(NEVER);
}

describe('calendars as maps', () => {
  it('finish split work when a finger on the calendar does, and their inverse is exact', () => {
    fc.assert(
      fc.property(openings, fc.integer({ min: 1, max: 30 }), (open, minutes) => {
        expectMonotoneWithInverse(workEnd(open, minutes), (s) => workByFinger(open, s, minutes));
      }),
      SEED,
    );
  });
  it('find the next open minute, and their inverse is exact', () => {
    fc.assert(
      fc.property(openings, (open) =>
        expectMonotoneWithInverse(nextOpen(open), (s) => openByFinger(open, s)),
      ),
      SEED,
    );
  });
  it('let unsplit work start exactly where the whole of it is open', () => {
    fc.assert(
      fc.property(openings, fc.integer({ min: 1, max: 12 }), (open, minutes) => {
        const starts = startsThatFit(open, minutes);
        for (let s = -10; s <= SPAN + 5; s++) {
          const fits = Array.from({ length: minutes }, (_, i) => holds(open, s + i)).every(Boolean);
          expect(holds(starts, s)).toBe(fits);
        }
      }),
      SEED,
    );
  });
  it('do no work in no time, open or not', () => {
    const none = workEnd(Int32Array.of(10, 20), 0);
    expect([none.at(3), none.leastReaching(3)]).toEqual([3, 3]);
    expect(() => workEnd(Int32Array.of(10, 20), 1.5)).toThrow('1.5 minutes; right would be a whole number');
  });
  it('spread ninety minutes over two evenings', () => {
    const evenings = Int32Array.of(1050, 1110, 2490, 2550);
    const work = workEnd(evenings, 90);
    expect(work.at(0)).toBe(2520);
    expect(work.at(1080)).toBe(2550);
    expect(work.at(1081)).toBe(NEVER);
    expect(work.leastReaching(2521)).toBe(1051);
    expect(work.leastReaching(2551)).toBe(1081);
  });
});
