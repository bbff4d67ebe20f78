import { expect, test } from 'vitest';
import { Shares } from '../../../src/engine/schedule/shares.ts';

const fresh = (): Shares => new Shares(1, { quick: 1 / 8, exact: 1 / 4 });

test('two searches that do equally well share equally', () => {
  expect(fresh().ofQuick(1000)).toBe(500);
});

test('what finds nothing gets less and less, but never nothing; one find brings it back', () => {
  const shares = fresh();
  shares.quickClosed(100, 100);
  expect(shares.ofQuick(900)).toBe(300);
  for (let k = 0; k < 10; k++) shares.quickClosed(100, 100);
  expect(shares.ofQuick(900)).toBe(100);
  shares.quickClosed(100, 99);
  expect(shares.ofQuick(900)).toBe(450);
});

test('the exact search did well when it closed a quarter of the gap', () => {
  const shares = fresh();
  shares.exactClosed(100, 90);
  expect(shares.ofQuick(900)).toBe(600);
  for (let k = 0; k < 10; k++) shares.exactClosed(100, 100);
  expect(shares.ofQuick(1000)).toBe(800);
  shares.exactClosed(100, 70);
  expect(shares.ofQuick(1000)).toBe(500);
});
