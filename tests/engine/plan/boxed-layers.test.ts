/**
 * For every layer after the first the form comes out of its warm box. Under a cold room a slow layer does not gain there
 * what it would have gained inside; in a room warmer than the box it gains more. Random shops found both.
 */
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import { shopWhere } from '../check/plan-builder.ts';
import { shifted } from '../../moments.ts';

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

/** Begun with the tent in mind, with somebody there at any hour. */
const inTheTent = {
  piece: { actuals: [{ step: 'prepare', started: '2026-03-02T06:00', warmBox: 'tent' }] },
  more: {
    people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }] }],
    warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 20, spots: 1, heatUpMinutes: 10 }],
  },
};

test('a box cooler than its room does not hold a window open while the next layer is poured outside', () => {
  // Ten minutes at 29 degC are more than the ten minutes of cure that this window is wide; at 20 degC they are fewer.
  const shop = shopWhere({
    resin: { tackOpensMinutes: 240, tackClosesMinutes: 250 },
    room: { temperature: { pattern: { nightLowDegC: 29, dayHighDegC: 29 } } },
    recipe: {
      layers: [
        { resin: 'clear', depthMm: 5, pour: { minutes: 10 } },
        { resin: 'clear', depthMm: 5, pour: { minutes: 10 } },
      ],
      coats: [],
    },
    ...inTheTent,
  });
  const plan = planShop(shop, { now: '2026-03-02T06:00', seed: 1, budget: 5000 });
  expect(plan.steps.find((step) => step.step === 'layer-2-pour')?.way).toBe('scuff');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a layer that is hard before it is in the box is demolded out of the box all the same', () => {
  const shop = shopWhere({
    resin: { tackOpensMinutes: 2, tackClosesMinutes: 3, demoldMinutes: 4, machinableMinutes: 5 },
    recipe: {
      layers: [
        {
          resin: 'clear',
          depthMm: 5,
          pour: { minutes: 10 },
          bubblePasses: [{ fromMinutes: 5, toMinutes: 20, minutes: 4 }],
        },
      ],
      coats: [],
    },
    ...inTheTent,
  });
  const plan = planShop(shop, { now: '2026-03-02T06:00', seed: 1, budget: 5000 });
  const startOf = (id: string): number => Date.parse(plan.steps.find(({ step }) => step === id)!.start);
  expect(startOf('demold') - startOf('layer-1-pour')).toBeGreaterThan((10 + 20 + 4) * 60_000);
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a layer that leaves its box while it is open still is kept from dust until it has hardened in the room', () => {
  // At 23 degC inside and outside a minute is a minute: out of the form after 4 h, its window closed after 8.
  const shop = shopWhere({
    resin: { demoldMinutes: 240 },
    recipe: { layers: [{ resin: 'clear', depthMm: 5 }], coats: [] },
    piece: {
      due: '2026-03-04',
      actuals: [
        { step: 'prepare', started: '2026-03-02T06:00', ended: '2026-03-02T06:05', warmBox: 'tent' },
        { step: 'layer-1-pour', started: '2026-03-02T06:10', ended: '2026-03-02T06:15' },
        { step: 'layer-1-bubbles-1', started: '2026-03-02T06:25', ended: '2026-03-02T06:30' },
      ],
    },
  });
  const [oak] = shop.pieces;
  const done = (step: string, from: string, to: string) => ({
    step,
    started: `2026-03-${from}`,
    ended: `2026-03-${to}`,
  });
  const elm = {
    ...oak,
    id: 'elm',
    name: 'Elm',
    due: '2026-03-02T10:00',
    actuals: [
      done('layer-1-pour', '01T07:00', '01T07:05'),
      done('demold', '02T08:00', '02T08:15'),
      done('turnaround', '02T08:15', '02T09:00'),
    ],
  };
  const both = { ...shop, pieces: [{ ...oak, due: '2026-03-02T10:00' }, elm] };
  const plan = planShop(both, { now: '2026-03-02T09:55', seed: 1, budget: 5000 });
  const startOf = (piece: string, step: string): number =>
    Date.parse(plan.steps.find((each) => each.piece === piece && each.step === step)!.start) / 60_000;
  const closes = startOf('oak', 'layer-1-pour') + 480;
  const dust = startOf('elm', 'flatten');
  const settled = startOf('elm', 'sand') + 20 + 120;
  expect(settled <= startOf('oak', 'demold') || dust >= closes).toBe(true);
  expect(checkPlan(both, plan)).toEqual([]);

  // The same plan with the elm flattened a quarter of an hour after the oak has left its box.
  const late = startOf('oak', 'demold') + 15 - dust;
  const steps = plan.steps.map((step) =>
    step.piece === 'elm' && step.step === 'flatten'
      ? { ...step, start: shifted(step.start, late), end: shifted(step.end, late) }
      : step,
  );
  expect(checkPlan(both, { ...plan, steps }).map(({ rule }) => rule)).toContain('dust');
});

test('a layer that the record has poured after the one over it is hard before it is demolded all the same', () => {
  const done = (step: string, from: string, to: string) => ({
    step,
    started: `2026-03-02T${from}`,
    ended: `2026-03-02T${to}`,
    warmBox: 'tent',
  });
  const shop = shopWhere({
    piece: {
      due: '2026-03-03T06:00',
      actuals: [
        done('prepare', '06:00', '06:30'),
        done('layer-2-pour', '07:05', '07:10'),
        done('layer-1-pour', '12:05', '12:10'),
      ],
    },
    more: {
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }] }],
    },
  });
  const plan = planShop(shop, { now: '2026-03-02T13:00', seed: 1, budget: 5000 });
  // A day after its pour: room and box have the reference temperature.
  expect(plan.steps.find(({ step }) => step === 'demold')?.start).toBe('2026-03-03T12:05Z');
  expect(checkPlan(shop, plan)).toEqual([]);
});
