import { expect, test } from 'vitest';
import type { Model } from '../../../src/engine/schedule/model.ts';
import { plainModel } from '../../../src/engine/schedule/plain-model.ts';
import { Standing } from '../../../src/engine/schedule/standing.ts';

/** Two starts, the lateness of each a level of its own. */
const model: Model = {
  ...plainModel(
    ['first', 'second'].map((name) => ({ name, earliest: 0, latest: 100 })),
    [],
    [],
  ),
  levels: [0, 1].map((start) => ({
    name: `level ${start}`,
    costs: [{ kind: 'late', start, after: 0, weight: 1 }],
  })),
};
const at = (...starts: number[]) => ({ starts, choices: [] });

test('only what is better at the first level that differs is kept, and told', () => {
  let told = 0;
  const standing = new Standing(model, () => told++);
  expect(standing.keep(at(5, 5))).toBe(true);
  expect(standing.keep(at(5, 5))).toBe(false);
  expect(standing.keep(at(6, 0))).toBe(false);
  expect(standing.keep(at(5, 4))).toBe(true);
  expect(standing.keep(at(4, 90))).toBe(true);
  expect(standing.values).toEqual([4, 90]);
  expect(told).toBe(3);
});

test('what is proved of a later level is forgotten when an earlier one gets better', () => {
  const standing = new Standing(model, () => {});
  standing.keep(at(5, 5));
  standing.raise(0, 3);
  standing.prove(1);
  standing.keep(at(4, 7));
  expect(standing.levels()).toEqual([
    { name: 'level 0', value: 4, bound: 3, proven: false },
    { name: 'level 1', value: 7, bound: 0, proven: false },
  ]);
});

test('a bound only rises, and is never told to be above the value', () => {
  let told = 0;
  const standing = new Standing(model, () => told++);
  standing.keep(at(5, 5));
  standing.raise(0, 4);
  standing.raise(0, 2);
  expect(standing.bounds[0]).toBe(4);
  expect(told).toBe(2);
  standing.raise(0, 9);
  expect(standing.levels()[0].bound).toBe(5);
});
