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

test.each([
  ['waited for its pour', '09:05', '09:20'],
  ['was still scraped together while it was poured', '09:12', '09:10'],
])('a mix that %s is told as it was written down, and so is the wait before it', (_, mixed, poured) => {
  const shop = littleShop((file) => {
    const day = '2026-03-02T';
    const first = '2026-03-01T';
    file.pieces = [
      piece('a', {
        actuals: [
          { step: 'prepare', started: `${first}07:00`, ended: `${first}08:00` },
          { step: 'layer-1-mix', started: `${first}08:00`, ended: `${first}08:05` },
          { step: 'layer-1-pour', started: `${first}08:05`, ended: `${first}08:30` },
          { step: 'layer-2-mix', started: `${day}09:00`, ended: `${day}${mixed}` },
          { step: 'layer-2-pour', started: `${day}${poured}`, ended: `${day}09:30` },
        ],
      }),
    ];
  });
  const plan = planShop(shop, { now: '2026-03-02T12:00', seed: 1, budget: 20_000 });
  const steps = new Map(plan.steps.map((step) => [step.step, step]));
  expect(steps.get('layer-2-mix')?.end).toBe(`2026-03-02T${mixed}+01:00`);
  expect(steps.get('layer-1-set')?.end).toBe('2026-03-02T09:00+01:00');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a piece rests until the mix of its first coat, however long that waited', () => {
  const shop = littleShop((file) => {
    const [recipe] = file.recipes;
    file.recipes = [
      {
        ...recipe,
        flatten: undefined,
        sand: undefined,
        coats: [{ resin: 'fast', face: 'top', work: { minutes: 5 } }],
      },
    ];
    const at = (step: string, started: string, ended: string) => ({
      step,
      started: `2026-03-${started}`,
      ended: `2026-03-${ended}`,
    });
    file.pieces = [
      piece('a', {
        recipe: recipe.id,
        actuals: [
          at('prepare', '01T07:00', '01T08:00'),
          at('layer-1-pour', '01T08:05', '01T08:30'),
          at('layer-2-pour', '02T12:05', '02T12:30'),
          at('layer-3-pour', '03T15:05', '03T15:30'),
          at('demold', '07T09:00', '07T09:30'),
          at('turnaround', '07T09:30', '07T10:00'),
          at('coat-1-mix', '10T09:00', '10T09:05'),
          at('coat-1', '10T09:40', '10T09:50'),
        ],
      }),
    ];
  });
  const plan = planShop(shop, { now: '2026-03-10T12:00', seed: 1, budget: 20_000 });
  expect(plan.steps.find(({ step }) => step === 'rest')?.end).toBe('2026-03-10T09:00+01:00');
  const onBench = plan.holds.filter(({ what }) => what === 'bench').map(({ from }) => from);
  expect(onBench).toContain('2026-03-10T09:00+01:00');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a pour of which only the mix was written down was over when its work was, and then it cured', () => {
  const shop = littleShop((file) => {
    file.pieces = [
      piece('a', {
        actuals: [
          { step: 'prepare', started: '2026-03-01T07:00', ended: '2026-03-01T08:00' },
          { step: 'layer-1-mix', started: '2026-03-01T08:00' },
          { step: 'layer-2-pour', started: '2026-03-02T10:00', ended: '2026-03-02T10:20' },
        ],
      }),
    ];
  });
  const plan = planShop(shop, { now: '2026-03-02T12:00', seed: 1, budget: 20_000 });
  const set = plan.steps.find(({ step }) => step === 'layer-1-set');
  expect(set?.start.slice(0, 13)).toBe('2026-03-01T08');
  expect(checkPlan(shop, plan)).toEqual([]);
});
