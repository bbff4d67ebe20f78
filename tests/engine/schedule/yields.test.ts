import { expect, test } from 'vitest';
import { Yields } from '../../../src/engine/schedule/yields.ts';

test('the quick search begins with a quarter', () => {
  expect(new Yields().ofQuick(1000)).toBe(250);
});

test('who closes more of the gap for its work gets more, but never all', () => {
  const yields = new Yields();
  yields.ofQuick(1000);
  yields.quickClosed(100, 90);
  yields.exactClosed(90, 63);
  // A tenth for a quarter of the work, three tenths for three quarters.
  expect(yields.ofQuick(1000)).toBeCloseTo(500);
  for (let k = 0; k < 10; k++) {
    yields.ofQuick(1000);
    yields.quickClosed(63, 60);
    yields.exactClosed(60, 60);
  }
  expect(yields.ofQuick(1000)).toBeCloseTo(875);
});

test('at a proof, where neither finds anything, the work goes to the exact search', () => {
  const yields = new Yields();
  yields.ofQuick(1000);
  yields.quickClosed(100, 50);
  yields.exactClosed(50, 49);
  for (let k = 0; k < 20; k++) {
    yields.ofQuick(1000);
    yields.quickClosed(49, 49);
    yields.exactClosed(49, 49);
  }
  expect(yields.ofQuick(1000)).toBeCloseTo(125);
});
