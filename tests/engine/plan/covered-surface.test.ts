/**
 * What is poured over is no surface any more: dust cannot settle on a seal that lies under a layer, however long it
 * stays soft there. The first writing let a seal shut in its room and the second in its box: in a box cooler than the
 * room they did not agree.
 */
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import type { Shop } from '../../../src/engine/shop/index.ts';
import { shopWhere } from '../check/plan-builder.ts';
import { shifted } from '../../moments.ts';

const NOW = '2026-03-02T06:00';
const SEAL_CLOSES_MINUTES = 3000;

/** One layer over a seal that stays open for longer than the layer; one person who is always there. */
function sealedShop(degC: number, piece: object): Shop {
  const shop = shopWhere({
    resin: { demoldMinutes: 600, machinableMinutes: 600 },
    room: { temperature: { pattern: { nightLowDegC: degC, dayHighDegC: degC } } },
    recipe: {
      seal: { resin: 'slow', work: { minutes: 5 } },
      layers: [{ resin: 'clear', depthMm: 5 }],
      coats: [],
    },
    piece,
    more: {
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }] }],
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 20, spots: 1, heatUpMinutes: 10 }],
    },
  });
  const slow = { ...shop.resins[0], id: 'slow', name: 'Slow', tackClosesMinutes: SEAL_CLOSES_MINUTES };
  return { ...shop, resins: [...shop.resins, slow] };
}

const planned = (shop: Shop): Plan => planShop(shop, { now: NOW, seed: 1, budget: 5000 });

const startOf = (plan: Plan, step: string, piece = 'oak'): number =>
  Date.parse(plan.steps.find((each) => each.piece === piece && each.step === step)!.start) / 60_000;

test('a piece is flattened while the seal under its layer would still be soft, and the checker finds nothing', () => {
  const shop = sealedShop(23, {});
  const plan = planned(shop);
  expect(startOf(plan, 'flatten') - startOf(plan, 'seal')).toBeLessThan(SEAL_CLOSES_MINUTES);
  expect(plan.steps.find(({ step }) => step === 'layer-1-pour')?.way).toBe('recoat');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('so is a piece whose seal cures more slowly in a box cooler than its room', () => {
  const shop = sealedShop(29, { actuals: [{ step: 'prepare', started: NOW, warmBox: 'tent' }] });
  const plan = planned(shop);
  expect(plan.steps.some((step) => step.step === 'cure' && step.warmBox === 'tent')).toBe(true);
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('while a seal waits for its layer nothing is flattened in the room', () => {
  const shop = sealedShop(23, {});
  const [oak] = shop.pieces;
  const poured = { step: 'layer-1-pour', started: '2026-03-01T16:10', ended: '2026-03-01T16:15' };
  // The elm can be flattened from 06:00 on, in the hours in which the oak is sealed and waits for its layer.
  const elm = { ...oak, id: 'elm', name: 'Elm', actuals: [poured], due: '2026-03-02T08:00' };
  const both = { ...shop, pieces: [{ ...oak, due: '2026-03-02T08:00' }, elm] };
  const plan = planned(both);
  const dust = startOf(plan, 'flatten', 'elm');
  const settled = startOf(plan, 'sand', 'elm') + 20 + 120;
  expect(settled <= startOf(plan, 'seal-mix') || dust >= startOf(plan, 'layer-1-pour')).toBe(true);
  expect(checkPlan(both, plan)).toEqual([]);
  const early = startOf(plan, 'seal') - dust + 10;
  const steps = plan.steps.map((step) =>
    step.piece === 'elm' && step.step === 'flatten'
      ? { ...step, start: shifted(step.start, early), end: shifted(step.end, early) }
      : step,
  );
  expect(checkPlan(both, { ...plan, steps }).map(({ rule }) => rule)).toContain('dust');
});
