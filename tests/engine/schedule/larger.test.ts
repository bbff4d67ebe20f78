import { expect, test } from 'vitest';
import { larger } from '../../../src/engine/schedule/larger.ts';
import { randomFrom } from './tiny-models.ts';

test('the larger of two whole numbers is what Math.max says, whichever comes first and whatever their signs', () => {
  const random = randomFrom(1);
  const edges = [0, 1, -1, 7, -0x3fffffff, 0x3fffffff];
  const pairs = edges.flatMap((a) => edges.map((b) => [a, b]));
  for (let k = 0; k < 1000; k++) pairs.push([random(2000) - 1000, random(2000) - 1000]);
  for (const [a, b] of pairs) expect(larger(a, b), `${a}, ${b}`).toBe(Math.max(a, b));
});
