import { expect, test } from 'vitest';
import {
  composeMaps,
  constantLag,
  earlierOf,
  laterOf,
  nextOpen,
  NEVER,
  tableMap,
  workedBy,
  type MonotoneMap,
} from '../../../src/engine/schedule/index.ts';
import { leastGain } from '../../../src/engine/schedule/maps.ts';
import { randomFrom } from './tiny-models.ts';

const SPAN = 30;

function randomHours(random: (below: number) => number): Int32Array {
  const open: number[] = [];
  let at = random(6) - 3;
  for (let k = random(4); k >= 0; k--) {
    const to = at + 1 + random(6);
    open.push(at, to);
    at = to + random(5);
  }
  return Int32Array.from(open);
}

function randomMap(random: (below: number) => number, depth = 0): MonotoneMap {
  const kind = random(depth > 1 ? 4 : 7);
  if (kind === 0) return constantLag(random(15) - 7);
  if (kind === 1) {
    let value = random(10) - 5;
    const values = Int32Array.from({ length: 1 + random(20) }, () => (value += random(4)));
    if (random(4) === 0) values[values.length - 1] = NEVER;
    return tableMap(values, random(8) - 4, random(2) === 0 ? 'never' : 'last');
  }
  if (kind === 2) return nextOpen(randomHours(random));
  if (kind === 3) return workedBy(randomHours(random), 1 + random(8));
  const combine = [composeMaps, laterOf, earlierOf][kind - 4];
  return combine(randomMap(random, depth + 1), randomMap(random, depth + 1));
}

test('every map is non-decreasing, and its inverse is the least time that reaches a value', () => {
  const random = randomFrom(7);
  for (let round = 0; round < 4000; round++) {
    const map = randomMap(random);
    for (let s = -SPAN; s <= SPAN; s++) {
      expect(map.at(s + 1), `round ${round}`).toBeGreaterThanOrEqual(map.at(s));
      expect(map.at(s) - s).toBeGreaterThanOrEqual(Math.min(leastGain(map), NEVER - SPAN));
      for (const v of [s - 3, s, map.at(s), Math.min(NEVER, map.at(s) + 1), NEVER])
        if (map.at(s) >= v !== s >= map.leastReaching(v))
          throw new Error(
            `round ${round}: at(${s}) = ${map.at(s)}, leastReaching(${v}) = ${map.leastReaching(v)}`,
          );
    }
  }
});

test('work of three hours begun at 11:00 in hours 9 to 12 and 13 to 17 is done at 15:00', () => {
  const work = workedBy(Int32Array.of(9, 12, 13, 17), 3);
  expect(work.at(11)).toBe(15);
  expect(work.at(9)).toBe(12);
  expect(work.at(15)).toBe(NEVER);
  expect(work.leastReaching(13)).toBe(10);
});

test('a table that decreases, an empty one and hours that overlap are refused with what is wrong', () => {
  expect(() => tableMap(Int32Array.of(3, 2))).toThrow('values[1] = 2 < 3');
  expect(() => tableMap(new Int32Array(0))).toThrow('at least one value');
  expect(() => nextOpen(Int32Array.of(0, 5, 4, 6))).toThrow('interval 1');
  expect(() => nextOpen(Int32Array.of(0, 5, 8))).toThrow('pairs of a beginning and an end, not as 3 times');
  expect(() => workedBy(Int32Array.of(5, 1), 3)).toThrow('workedBy: interval 0 [5, 1)');
  expect(() => workedBy(Int32Array.of(0, 9), 1.5)).toThrow('a whole number from 1 on, not 1.5');
  expect(() => workedBy(Int32Array.of(0, 9), 0)).toThrow('not 0');
  expect(() => constantLag(0.5)).toThrow('0.5');
});
