import { expect, test } from 'vitest';
import type { Plan } from '../../../src/engine/index.ts';
import { makeShown } from '../../../src/ui/engine/shown.ts';
import { planned } from '../small-shop.ts';

const { plan } = planned();
const attended = plan.steps.filter(({ handsOnMinutes }) => handsOnMinutes > 0);

/** The plan with so many of its attended steps at another time. */
const withMoved = (count: number): Plan => ({
  ...plan,
  steps: plan.steps.map((step) =>
    attended.slice(0, count).includes(step) ? { ...step, start: step.end } : step,
  ),
});

test('a plan is shown at once, the next ones no more often than anyone can look', () => {
  const isShown = makeShown(undefined, 0);
  expect([5, 20, 110, 126, 200, 260].filter((ms) => isShown(plan, ms))).toEqual([5, 126, 260]);
});

test('one that moves most of what stood waits for a calmer one, but not for ever', () => {
  const isShown = makeShown(plan, 1000);
  const most = withMoved(Math.floor(attended.length / 2) + 1);
  expect(isShown(most, 1020)).toBe(false);
  expect(isShown(withMoved(Math.floor(attended.length / 2)), 1060)).toBe(true);
  expect(isShown(most, 1190)).toBe(false);
  expect(isShown(most, 1250)).toBe(true);
});

test('without a plan that stood nothing is too much', () => {
  expect(makeShown(undefined, 1000)(withMoved(attended.length), 1001)).toBe(true);
});
