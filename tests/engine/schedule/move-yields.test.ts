import { expect, test } from 'vitest';
import { MoveYields } from '../../../src/engine/schedule/move-yields.ts';

const KINDS = ['one', 'another', 'third'];

/** How the work is shared when each kind gains so much a step of work. */
function sharesOf(yields: MoveYields<string>, gains: readonly number[], asked = KINDS): number[] {
  const worked = gains.map(() => 0);
  for (let n = 0; n < 3000; n++) {
    const kind = yields.next(asked);
    const k = KINDS.indexOf(kind);
    const work = 10 * (k + 1);
    worked[k] += work;
    yields.note(kind, work, work * gains[k]);
  }
  const all = worked.reduce((sum, work) => sum + work, 0);
  return worked.map((work) => work / all);
}

test('while nothing is gained each kind of move has as much of the work, however long a move takes', () => {
  for (const share of sharesOf(new MoveYields(KINDS), [0, 0, 0])) expect(share).toBeCloseTo(1 / 3, 1);
});

test('what gains more for its work gets more, and nothing less than a third of an equal share', () => {
  const [little, much, nothing] = sharesOf(new MoveYields(KINDS), [0.001, 0.003, 0]);
  expect(nothing).toBeCloseTo(1 / 9, 1);
  expect(little).toBeGreaterThan(0.18);
  expect(much).toBeGreaterThan(0.5);
});

test('what gained in the past is forgotten', () => {
  const two = KINDS.slice(0, 2);
  const yields = new MoveYields(two);
  expect(sharesOf(yields, [0.01, 0], two)[0]).toBeGreaterThan(0.8);
  expect(sharesOf(yields, [0, 0.01], two)[1]).toBeGreaterThan(0.6);
});

test('a kind that is not asked for now gets nothing', () => {
  expect(sharesOf(new MoveYields(KINDS), [0, 0, 0], KINDS.slice(0, 2))[2]).toBe(0);
});
