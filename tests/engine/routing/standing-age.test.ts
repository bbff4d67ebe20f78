/** How cured something is where it really stood, held to the checker's own integral and to a plan that the checker reads. */
import { expect, test } from 'vitest';
import { ageInBox, speedOf } from '../../../src/engine/check/age.ts';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import { routeShop } from '../../../src/engine/routing/index.ts';
import { standingAge } from '../../../src/engine/routing/standing-age.ts';
import { shopWhere } from '../check/plan-builder.ts';

const COLD = { temperature: { pattern: { nightLowDegC: 10, dayHighDegC: 10 } } };
const tent = (heatUpMinutes: number, setDegC = 30) => ({
  id: 'tent',
  name: 'Tent',
  room: 'shed',
  setDegC,
  spots: 1,
  heatUpMinutes,
});

test.each([7, 60, 240])(
  'on a ramp of %i minutes out of the cold it agrees with the checker to a thousandth of a second',
  (heatUpMinutes) => {
    const shop = shopWhere({ room: COLD, more: { warmBoxes: [tent(heatUpMinutes)] } });
    const { ground } = routeShop(shop, { now: '2026-03-02T06:00', horizonMinutes: 14_400 });
    const [room] = ground.shop.rooms;
    const [box] = ground.shop.warmBoxes;
    const [resin] = shop.resins;
    const ours = standingAge(ground, { room, box, boxAfterMinutes: 0 }, resin, 100, 500);
    const speed = speedOf(resin, { stalls: true });
    expect(ours).toBeCloseTo(ageInBox(speed, { ...box, fromDegC: 10 }, 0, 400), 5);
  },
);

test('a layer that is touched after it came out of its box and form has cured in the room since', () => {
  const shop = shopWhere({
    room: { temperature: { pattern: { nightLowDegC: 27, dayHighDegC: 27 } } },
    recipe: { layers: [{ resin: 'clear', depthMm: 5 }], coats: [] },
    piece: {
      actuals: [
        { step: 'prepare', started: '2026-03-02T07:00', ended: '2026-03-02T07:30', warmBox: 'tent' },
        { step: 'layer-1-pour', started: '2026-03-02T08:05', ended: '2026-03-02T08:10' },
        { step: 'demold', started: '2026-03-02T18:00', ended: '2026-03-02T18:15' },
      ],
      touchTests: [{ step: 'layer-1-pour', at: '2026-03-03T18:00', found: 'tacky' }],
    },
    more: { warmBoxes: [tent(30, 17)] },
  });
  const plan = planShop(shop, { now: '2026-03-03T18:05', seed: 1, budget: 5000 });
  expect(plan.steps.some(({ step }) => step === 'flatten')).toBe(true);
  expect(checkPlan(shop, plan)).toEqual([]);
});
