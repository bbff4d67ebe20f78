import { describe, expect, test } from 'vitest';
import { costsOf, cupsOf, shoppingList, stockOf, wastedShare } from '../../../src/engine/mix/index.ts';
import type { ShopFile } from '../../../src/engine/shop/index.ts';
import { at, mixingShop, planWith, pourSteps } from './bench-day.ts';

/** 600 mL on the 3rd, 900 on the 12th, 300 on the 14th, all of the slow resin; 5 mL marks divide them. */
const POURS = [
  { piece: 'a', ml: 600, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:15') },
  { piece: 'b', ml: 900, mix: at(12, '08:00'), pour: at(12, '08:05'), end: at(12, '08:15') },
  { piece: 'c', ml: 300, mix: at(14, '08:00'), pour: at(14, '08:05'), end: at(14, '08:15') },
];

function reckoned(edit: (file: ShopFile) => void = () => undefined, pours = POURS) {
  const shop = mixingShop((file) => {
    file.resins[0].stock = { ml: 1000, deliveryDays: 4, pricePerLitre: 20 };
    edit(file);
  });
  const plan = planWith(shop, pourSteps(pours));
  const cups = cupsOf(shop, plan);
  const stock = stockOf(shop, plan, cups);
  return { shop, plan, cups, slow: stock[0], fast: stock[1], stock };
}

describe('what is in the cans', () => {
  test('goes down day by day, A and B by the ratio', () => {
    const { slow } = reckoned();
    expect(slow.days).toEqual([
      { date: '2026-03-03', mixedMl: 600, aMl: 400, bMl: 200, leftMl: 400 },
      { date: '2026-03-12', mixedMl: 900, aMl: 600, bMl: 300, leftMl: -500 },
      { date: '2026-03-14', mixedMl: 300, aMl: 200, bMl: 100, leftMl: -800 },
    ]);
    expect(slow).toMatchObject({ neededMl: 1800, shortMl: 800, runsOutOn: '2026-03-12' });
  });

  test('names what cannot be mixed, and the last day to order: four days of delivery, there the day before', () => {
    const { slow } = reckoned();
    expect(slow.lacking.map(({ piece }) => piece)).toEqual(['b', 'c']);
    expect(slow).toMatchObject({ orderBy: '2026-03-07', isLate: false });
  });

  test('says when the order is late already', () => {
    expect(reckoned((file) => (file.resins[0].stock = { ml: 1000, deliveryDays: 12 })).slow).toMatchObject({
      orderBy: '2026-02-27',
      isLate: true,
    });
  });

  test('is not short when it suffices to the last drop, and says nothing where nobody counted', () => {
    const { slow, fast } = reckoned((file) => (file.resins[0].stock = { ml: 1800 }));
    expect(slow).toMatchObject({ shortMl: 0, runsOutOn: null, orderBy: null, lacking: [] });
    expect(fast).toMatchObject({ haveMl: null, neededMl: 0, days: [] });
  });

  test('what is being mixed has left its can', () => {
    const [first, ...rest] = POURS;
    const { slow } = reckoned(undefined, [{ ...first, state: 'begun' }, ...rest] as typeof POURS);
    expect(slow.neededMl).toBe(1200);
  });

  test('opened on 1 January and good for 70 days, it is stale for what comes after 12 March', () => {
    const { slow } = reckoned((file) => {
      file.resins[0].stock = { ml: 5000, openedAt: '2026-01-01', keepsDaysOpened: 70 };
    });
    expect(slow.goodUntil).toBe('2026-03-12');
    expect(slow.stale.map(({ piece }) => piece)).toEqual(['c']);
  });
});

describe('the shopping list', () => {
  test('has the missing resin in parts with its price, and the tint that the plan weighs out', () => {
    const { stock, cups } = reckoned((file) => {
      file.recipes[0].layers[0].tint = { name: 'blue', gPerL: 2 };
    });
    expect(shoppingList(stock, cups)).toEqual([
      {
        what: 'Slow cast',
        amount: 800,
        unit: 'mL',
        parts: { aMl: expect.closeTo(1600 / 3, 9), bMl: expect.closeTo(800 / 3, 9) },
        orderBy: '2026-03-07',
        isLate: false,
        price: 16,
      },
      // 600, 900 and 300 mL at 2 g per litre.
      expect.objectContaining({
        what: 'blue',
        amount: expect.closeTo(1.2 + 1.8 + 0.6, 9),
        unit: 'g',
        orderBy: null,
      }),
    ]);
  });
});

describe('cost', () => {
  test('of a piece is resin, wood, consumables and hands-on hours', () => {
    const { shop, plan, cups } = reckoned((file) => {
      file.costs = { currency: 'EUR', perHour: 30 };
      file.recipes[0].costs = { wood: 12, consumables: 3.5 };
    });
    // 600 mL at 20 a litre; ten minutes of hands at 30 an hour.
    expect(costsOf(shop, plan, cups)[0]).toMatchObject({
      piece: 'a',
      resin: 12,
      wood: 12,
      consumables: 3.5,
      work: 5,
      total: 32.5,
      notGiven: [],
    });
  });

  test('says what the file leaves out instead of counting it as nothing', () => {
    const { shop, plan, cups } = reckoned((file) => delete file.resins[0].stock);
    expect(costsOf(shop, plan, cups)[0]).toMatchObject({
      resin: null,
      work: null,
      total: 0,
      notGiven: ['the price of Slow cast', 'its wood', 'its consumables', 'an hour of work'],
    });
  });

  test('the share that stays in the cups is told: 5 % of what is mixed, and what rounding adds', () => {
    const { cups } = reckoned((file) => (file.mixing = { cupLossPercent: 5 }));
    expect(wastedShare(cups)).toBeGreaterThanOrEqual(0.05);
    expect(wastedShare(cups)).toBeLessThan(0.07);
    expect(wastedShare(reckoned().cups)).toBeCloseTo(0, 9);
  });
});
