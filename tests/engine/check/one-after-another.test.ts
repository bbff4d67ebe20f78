/**
 * The checker keeps what it last read of rooms and people. Whatever it checked before, it says the same of a plan.
 */
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import type { Shop } from '../../../src/engine/shop/index.ts';
import { planOf, shopWith } from './plan-builder.ts';

const board = shopWith();
const plan = planOf();

const cold: Shop = {
  ...board,
  rooms: board.rooms.map((room) => ({
    ...room,
    temperature: {
      ...room.temperature,
      pattern: { ...room.temperature.pattern, nightLowDegC: 17, dayHighDegC: 17 },
    },
  })),
};
const slow: Shop = {
  ...board,
  resins: board.resins.map((resin) => ({ ...resin, referenceDegC: resin.referenceDegC + 6 })),
};
const away: Shop = { ...board, closures: [{ from: '2026-03-03', to: '2026-03-03' }] };
const off: Shop = {
  ...board,
  people: board.people.map((person) => ({ ...person, off: [{ from: '2026-03-03', to: '2026-03-03' }] })),
};
const elsewhere: Shop = { ...board, zone: 'Asia/Tokyo' };

const rulesOf = (shop: Shop): readonly string[] => checkPlan(shop, plan).map(({ rule }) => rule);

test('a plan is judged by its own shop alone, in whatever order shops are checked', () => {
  const shops = [board, cold, slow, away, elsewhere, off];
  const alone = shops.map(rulesOf);
  expect(alone[0]).toEqual([]);
  expect(alone[1]).toContain('cure');
  expect(alone[2]).toContain('cure');
  expect(alone[3]).toContain('hours');
  expect(alone[4]).toContain('hours');
  expect(alone[5]).toContain('hours');
  for (const first of shops) {
    for (const [i, second] of shops.entries()) {
      checkPlan(first, plan);
      expect(rulesOf(second)).toEqual(alone[i]);
    }
  }
});
