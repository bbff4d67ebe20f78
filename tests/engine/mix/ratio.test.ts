import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  massRatio,
  mixedDensityGPerMl,
  partsOf,
  ratioErrorPercent,
  readableParts,
  volumeRatio,
} from '../../../src/engine/mix/ratio.ts';
import { resinOf } from './bench-day.ts';

const SEED = { seed: 20261126, numRuns: 500 };

describe('A and B by volume and by mass', () => {
  test('2:1 by volume at 1.10 and 0.95 g/mL is 100 : 43.18 by mass (computed: 2 x 1.10 : 1 x 0.95)', () => {
    expect(100 / massRatio(resinOf(2, 1))).toBeCloseTo(43.18, 2);
  });

  test('and the same resin, stated by mass, is 2:1 by volume again', () => {
    const byMass = resinOf(2 * 1.1, 0.95, 'mass');
    expect(volumeRatio(byMass)).toBeCloseTo(2, 12);
    expect(massRatio(byMass)).toBeCloseTo(2.2 / 0.95, 12);
  });

  test('a litre of it weighs 1050 g: two thirds at 1.10 and one third at 0.95', () => {
    expect(mixedDensityGPerMl(resinOf(2, 1))).toBeCloseTo(1.05, 12);
  });

  // Common practice, no source.
  test.each([
    [30, 2, 1, 20, 10],
    [24, 2, 1, 16, 8],
    [8, 1, 1, 4, 4],
  ])('%i fl oz at %i:%i is %i A and %i B', (amount, a, b, wantA, wantB) => {
    const parts = partsOf(amount, volumeRatio(resinOf(a, b)));
    expect(parts.a).toBeCloseTo(wantA, 12);
    expect(parts.b).toBeCloseTo(wantB, 12);
  });

  test('too much A is above 0: 21 to 10 instead of 20 to 10 is 5 % off', () => {
    expect(ratioErrorPercent({ a: 21, b: 10 }, 2)).toBeCloseTo(5, 12);
    expect(ratioErrorPercent({ a: 19, b: 10 }, 2)).toBeCloseTo(-5, 12);
  });
});

describe('what a cup or a scale can read', () => {
  const measure = { mark: 5, tolerancePercent: 3, most: 1e6 };

  test('what falls on the marks stays as it is', () => {
    expect(readableParts(60, 2, measure)).toEqual({ a: 40, b: 20, errorPercent: 0, isWithinTolerance: true });
  });

  test('604.8 mL at 2:1 on 5 mL marks is 410 and 205: the ratio is worth ten millilitres', () => {
    expect(readableParts(604.8, 2, measure)).toMatchObject({ a: 410, b: 205, errorPercent: 0 });
  });

  test('so little that no marks keep the ratio is told as an error, with how far it is off', () => {
    // 2.3158 : 1 by mass on a scale of 1 g: 2 : 1 is off by less than 3 : 1, and 7 : 3 would be four times too much.
    const little = readableParts(2.5, 2.2 / 0.95, { mark: 1, tolerancePercent: 3, most: 1e6 });
    expect(little).toMatchObject({ a: 2, b: 1, isWithinTolerance: false });
    expect(little.errorPercent).toBeCloseTo((2 / (2.2 / 0.95) - 1) * 100, 9);
  });

  test('of nothing, or on marks of nothing, it refuses to make parts', () => {
    expect(() => readableParts(0, 2, measure)).toThrow('all must be above 0');
    expect(() => readableParts(10, 2, { ...measure, mark: 0 })).toThrow('all must be above 0');
  });

  test('any mix: enough, on the marks, with its error told truly, and within tolerance whenever it says so', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20_000, noNaN: true }),
        fc.double({ min: 0.2, max: 10, noNaN: true }),
        fc.constantFrom(0.1, 1, 5, 7.39338239),
        fc.double({ min: 0.5, max: 5, noNaN: true }),
        (needed, ratio, mark, tolerancePercent) => {
          const { a, b, errorPercent, isWithinTolerance } = readableParts(needed, ratio, {
            mark,
            tolerancePercent,
            most: 1e9,
          });
          expect(a + b).toBeGreaterThanOrEqual(needed - 1e-6);
          for (const part of [a, b])
            expect(Math.abs(part / mark - Math.round(part / mark))).toBeLessThan(1e-6);
          expect(a / b / ratio - 1).toBeCloseTo(errorPercent / 100, 9);
          expect(isWithinTolerance).toBe(Math.abs(errorPercent) <= tolerancePercent + 1e-9);
          // Nothing is wasted for roundness when there is plenty of it.
          if (needed > 100 * mark * (ratio + 1)) expect(a + b).toBeLessThanOrEqual(needed * 1.1);
        },
      ),
      SEED,
    );
  });

  test('a large mix always keeps the ratio: on a thousand marks no part is off by more than its own mark', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 4, noNaN: true }),
        fc.integer({ min: 1000, max: 9000 }),
        (ratio, marks) => {
          const { errorPercent } = readableParts(marks, ratio, { mark: 1, tolerancePercent: 1, most: 1e9 });
          expect(Math.abs(errorPercent)).toBeLessThanOrEqual(0.5);
        },
      ),
      SEED,
    );
  });
});
