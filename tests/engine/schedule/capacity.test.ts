/** How much there is of a resource over time. Reference: the steps counted minute by minute. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { Capacity, changesOf } from '../../../src/engine/schedule/capacity.ts';

const STEPS = fc
  .uniqueArray(fc.integer({ min: -20, max: 60 }), { minLength: 1, maxLength: 6 })
  .chain((times) =>
    fc
      .array(fc.nat(9), { minLength: times.length, maxLength: times.length })
      .map((amounts) => [...times].sort((a, b) => a - b).flatMap((time, k) => [time, amounts[k]])),
  );

/** What the steps say at a minute; the first holds before its time too. */
const byHand = (steps: readonly number[], minute: number): number => {
  let amount = steps[1];
  for (let k = 2; k < steps.length; k += 2) if (steps[k] <= minute) amount = steps[k + 1];
  return amount;
};

test('at every minute there is what the latest step says', () => {
  fc.assert(
    fc.property(STEPS, fc.integer({ min: -30, max: 70 }), (steps, minute) => {
      expect(new Capacity(Int32Array.from(steps)).at(minute)).toBe(byHand(steps, minute));
    }),
  );
});

test('the changes of several resources come in the order of time, and lead each from what there is first to what there is at any minute', () => {
  fc.assert(
    fc.property(
      fc.array(STEPS, { minLength: 1, maxLength: 3 }),
      fc.integer({ min: -30, max: 70 }),
      (all, minute) => {
        const capacities = all.map((steps) => new Capacity(Int32Array.from(steps)));
        const { at, of, by } = changesOf(capacities);
        expect([...at]).toEqual([...at].sort((a, b) => a - b));
        const there = capacities.map(({ first }) => first);
        for (let k = 0; k < at.length && at[k] <= minute; k++) there[of[k]] += by[k];
        expect(there).toEqual(all.map((steps) => byHand(steps, minute)));
      },
    ),
  );
});

test('the area over a span is the sum of its minutes', () => {
  fc.assert(
    fc.property(STEPS, fc.integer({ min: -30, max: 30 }), fc.nat(60), (steps, from, length) => {
      let sum = 0;
      for (let minute = from; minute < from + length; minute++) sum += byHand(steps, minute);
      expect(new Capacity(Int32Array.from(steps)).areaIn(from, from + length)).toBe(sum);
    }),
  );
});
