import { expect, test } from 'vitest';
import { Tolerance } from '../../../src/engine/schedule/tolerance.ts';

/** The shares borne in each of the first so many cycles. */
function cyclesOf(parts: number, count: number): number[][] {
  const tolerance = new Tolerance(parts);
  const cycles: number[][] = [];
  while (cycles.length <= count) {
    if (tolerance.isAtBeginning) cycles.push([]);
    cycles[cycles.length - 1].push(tolerance.next());
  }
  return cycles.slice(0, count);
}

test('within a cycle ever less is borne, at last next to nothing', () => {
  for (const cycle of cyclesOf(10, 8)) {
    for (let k = 1; k < cycle.length; k++) expect(cycle[k]).toBeLessThan(cycle[k - 1]);
    expect(cycle[cycle.length - 1]).toBeGreaterThan(0);
    expect(cycle[cycle.length - 1]).toBeLessThan(cycle[0] / 100);
  }
});

test('each cycle is longer than the one before and bears more, until the longest, which comes again and again', () => {
  const cycles = cyclesOf(10, 9);
  const lengths = cycles.map(({ length }) => length);
  const begins = cycles.map(([first]) => first);
  expect(lengths).toEqual([200, 300, 450, 675, 1013, 1200, 1200, 1200, 1200]);
  for (let k = 1; k < 6; k++) expect(begins[k]).toBeGreaterThan(begins[k - 1]);
  expect(begins.slice(5)).toEqual([0.02, 0.02, 0.02, 0.02]);
});

test('with more parts cycles are longer in proportion, and bear as much', () => {
  const [few, many] = [cyclesOf(10, 3), cyclesOf(30, 3)];
  many.forEach((cycle, k) => {
    expect(cycle.length).toBe(3 * few[k].length);
    expect(cycle[0]).toBeCloseTo(few[k][0], 12);
  });
});
