/** What was written down, as the plan takes it. */
import { expect, test } from 'vitest';
import { checkPlan, planShop } from '../../../src/engine/index.ts';
import { littleShop, piece } from '../little-shop.ts';

test.each(['09:02', '09:05', '09:20'])(
  'a layer cures from its pour at %s on, however long its mix took',
  (at) => {
    const shop = littleShop((file) => {
      file.pieces = [
        piece('a', {
          actuals: [
            { step: 'prepare', started: '2026-03-01T08:00', ended: '2026-03-01T09:00' },
            { step: 'layer-1-mix', started: '2026-03-01T09:00', ended: `2026-03-01T${at}` },
            { step: 'layer-1-pour', started: `2026-03-01T${at}`, ended: '2026-03-01T09:30' },
          ],
        }),
      ];
    });
    const plan = planShop(shop, { now: '2026-03-01T12:00', seed: 1, budget: 20_000 });
    expect(checkPlan(shop, plan)).toEqual([]);
    const steps = new Map(plan.steps.map((step) => [step.step, step]));
    // At its reference temperature the slow resin is tacky after 24 h.
    expect(steps.get('layer-2-pour')?.window?.opens).toBe(`2026-03-02T${at}+01:00`);
    expect(steps.get('layer-1-mix')?.start).toBe('2026-03-01T09:00+01:00');
  },
);
