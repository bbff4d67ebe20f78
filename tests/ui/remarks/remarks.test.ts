/** What the plan remarks, as it is told beside a step and a piece. */
import { expect, test } from 'vitest';
import { parseShop, planShop, type Shop } from '../../../src/engine/index.ts';
import { remarksOf, unpinPassed } from '../../../src/ui/remarks/remarks-of.ts';
import { NOW, shopText } from '../small-shop.ts';

const shopWith = (
  change: (file: {
    rooms: { temperature: Record<string, unknown> }[];
    pieces: Record<string, unknown>[];
  }) => void,
): Shop => {
  const file = JSON.parse(shopText);
  change(file);
  const parsed = parseShop(JSON.stringify(file));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults));
  return parsed.shop;
};

const planned = (shop: Shop) => planShop(shop, { now: NOW, seed: 1, budget: 20_000 });

test('a layer that will stand still in the cold is remarked on at its pour, in a sentence', () => {
  const shop = shopWith(({ rooms, pieces }) => {
    rooms[0].temperature.forecast = [
      { at: '2026-11-25T20:00', degC: 5 },
      { at: '2026-11-26T06:00', degC: 5 },
    ];
    pieces[0].actuals = [{ step: 'layer-1-pour', started: '2026-11-25T14:00', ended: '2026-11-25T14:05' }];
  });
  const plan = planned(shop);
  const [remark] = remarksOf(plan, 'wren', ['layer-1-mix', 'layer-1-pour']);
  expect(remark).toMatchObject({ kind: 'stall', step: 'layer-1-pour' });
  expect(remark.says).toMatch(/^Layer 1 stands still for .* below 10 °C in Cellar, first from .*\.$/);
  expect(remarksOf(plan, 'wren', ['demold'])).toEqual([]);
  expect(remarksOf(plan, 'wren')).toContainEqual(remark);
});

test('a shop in US units is told of the cold in degrees Fahrenheit', () => {
  const shop = shopWith((file) => {
    Object.assign(file, { units: 'us' });
    file.rooms[0].temperature.forecast = [
      { at: '2026-11-25T20:00', degC: 5 },
      { at: '2026-11-26T06:00', degC: 5 },
    ];
    file.pieces[0].actuals = [
      { step: 'layer-1-pour', started: '2026-11-25T14:00', ended: '2026-11-25T14:05' },
    ];
  });
  // 10 degC are 50 degF.
  expect(remarksOf(planned(shop), 'wren')[0].says).toContain('below 50 °F');
});

test('a stall that is over before now is no remark any more', () => {
  const shop = shopWith(({ rooms, pieces }) => {
    rooms[0].temperature.measured = [
      { at: '2026-11-23T20:00', degC: 5 },
      { at: '2026-11-24T06:00', degC: 5 },
      { at: '2026-11-24T08:00', degC: 20 },
    ];
    pieces[0].actuals = [
      { step: 'layer-1-pour', started: '2026-11-23T19:00', ended: '2026-11-23T19:05' },
      { step: 'layer-2-pour', started: '2026-11-25T13:00', ended: '2026-11-25T13:05' },
    ];
  });
  expect(remarksOf(planned(shop), 'wren', ['layer-1-pour'])).toEqual([]);
});

test.each(['layer-1-mix', 'layer-1-pour'])(
  'a pin at the %s that time has passed is remarked on, and can be let go',
  (step) => {
    const shop = shopWith(({ pieces }) => {
      pieces[0].pins = [
        { step, at: '2026-11-25T09:00' },
        { step: 'demold', at: '2026-12-01T10:00' },
      ];
    });
    const plan = planned(shop);
    const [remark] = remarksOf(plan, 'wren');
    expect(remark).toMatchObject({ kind: 'passed-pin', step: 'layer-1-pour' });
    expect(remark.says).toMatch(/^The time you pinned .* to has passed; it is planned afresh\.$/);
    const { pieces } = unpinPassed('wren', remark, 'unpin it').apply(shop);
    expect(pieces[0].pins).toEqual([{ step: 'demold', at: '2026-12-01T10:00' }]);
  },
);
