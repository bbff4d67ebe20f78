import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadOf, rowsOf } from '../../../src/ui/forms/model/index.ts';

const stretches = fc.array(
  fc.record({
    from: fc.integer({ min: 0, max: 200 }),
    length: fc.integer({ min: 1, max: 60 }),
    amount: fc.integer({ min: 1, max: 9 }),
  }),
  { maxLength: 14 },
);
const SEED = { seed: 20261125 };

describe('how full a bench is', () => {
  test('at every minute it is the sum of what stands on it then', () => {
    fc.assert(
      fc.property(stretches, (list) => {
        const uses = list.map(({ from, length, amount }) => ({ from, to: from + length, amount }));
        const load = loadOf(uses);
        for (let minute = 0; minute < 260; minute += 1) {
          const plain = uses
            .filter((use) => use.from <= minute && minute < use.to)
            .reduce((sum, use) => sum + use.amount, 0);
          const before = load.filter((step) => step.at <= minute);
          expect(before[before.length - 1]?.amount ?? 0).toBeCloseTo(plain, 9);
        }
      }),
      SEED,
    );
  });

  test('one piece that leaves as the next one comes makes no step', () => {
    expect(
      loadOf([
        { from: 0, to: 10, amount: 3 },
        { from: 10, to: 20, amount: 3 },
      ]),
    ).toEqual([
      { at: 0, amount: 3 },
      { at: 20, amount: 0 },
    ]);
  });
});

describe('rows of a bench lane', () => {
  test('pieces in one row never meet, and no row is more than is needed', () => {
    fc.assert(
      fc.property(stretches, (list) => {
        const spans = list.map(({ from, length }) => ({ from, to: from + length }));
        const rows = rowsOf(spans);
        spans.forEach((a, i) =>
          spans.forEach((b, j) => {
            if (i < j && rows[i] === rows[j]) expect(a.to <= b.from || b.to <= a.from).toBe(true);
          }),
        );
        const busiest = Math.max(
          0,
          ...spans.map(({ from }) => spans.filter((one) => one.from <= from && from < one.to).length),
        );
        expect(Math.max(0, ...rows.map((row) => row + 1))).toBe(busiest);
      }),
      SEED,
    );
  });
});
