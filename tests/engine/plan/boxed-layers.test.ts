/**
 * A slow layer under a quick one, in a warm box that stands in a cold room: for the second layer the form comes out of
 * the box, and the slow layer does not gain there what it would have gained inside. A random shop found this.
 */
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import { shopWhere } from '../check/plan-builder.ts';

test('a layer under another is not taken to be in the box while the other is poured', () => {
  const quick = shopWhere({}).resins[0];
  const slow = { ...quick, id: 'slow', name: 'Slow', demoldMinutes: 2000, machinableMinutes: 2000 };
  const swift = { ...quick, demoldMinutes: 300, machinableMinutes: 300 };
  const shop = shopWhere({
    room: { temperature: { pattern: { nightLowDegC: 16, dayHighDegC: 16 } } },
    recipe: {
      layers: [
        { resin: 'slow', depthMm: 5 },
        { resin: 'clear', depthMm: 5 },
      ],
      coats: [],
    },
    piece: { actuals: [{ step: 'prepare', started: '2026-03-02T06:00', warmBox: 'tent' }] },
    more: {
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }] }],
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 30, spots: 1, heatUpMinutes: 60 }],
    },
  });
  const both = { ...shop, resins: [swift, slow] };
  const plan = planShop(both, { now: '2026-03-02T06:00', seed: 1, budget: 5000 });
  expect(plan.steps.some((step) => step.step === 'cure' && step.warmBox === 'tent')).toBe(true);
  expect(checkPlan(both, plan)).toEqual([]);
});
