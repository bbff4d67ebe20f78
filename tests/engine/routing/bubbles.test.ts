/** A bubble pass that nobody recorded: made while the layer still flows, and left out once it has set. */
import { describe, expect, test } from 'vitest';
import { checkPlan, milestones, planShop } from '../../../src/engine/index.ts';
import type { Plan, PlanStep, Shop, ShopFile } from '../../../src/engine/index.ts';
import { littleShop, piece } from '../little-shop.ts';
import { shifted } from '../../moments.ts';

const PASS = 'layer-1-bubbles-1';

/** Layer 1 was on at 09:05 on Sunday 1 March. At its reference temperature the slow resin is tacky 24 h later. */
const poured = [
  { step: 'prepare', started: '2026-03-01T08:00', ended: '2026-03-01T09:00', form: 'long', bench: 'bench' },
  { step: 'layer-1-mix', started: '2026-03-01T09:00', ended: '2026-03-01T09:05' },
  { step: 'layer-1-pour', started: '2026-03-01T09:05', ended: '2026-03-01T09:10' },
];
type Actual = NonNullable<NonNullable<ShopFile['pieces']>[number]['actuals']>[number];

const shopPoured = (edit: (file: ShopFile) => void = () => undefined, more: readonly Actual[] = []): Shop =>
  littleShop((file) => {
    file.pieces = [piece('a', { actuals: [...poured, ...more] })];
    edit(file);
  });

/** The plan at that minute, which the checker must find nothing in. */
const planAt = (shop: Shop, now: string): Plan => {
  const plan = planShop(shop, { now, seed: 1, budget: 20_000 });
  expect(['optimal', 'feasible']).toContain(plan.status);
  expect(checkPlan(shop, plan)).toEqual([]);
  return plan;
};
const passOf = (plan: Plan): PlanStep | undefined =>
  plan.steps.find(({ piece: of, step }) => of === 'a' && step === PASS);
const told = ({ notes }: Plan): string[] => notes.filter((n) => n.kind === 'missed-pass').map((n) => n.text);

describe('a bubble pass that was not recorded', () => {
  test('is made as soon as it can be while the layer is wet, and nothing is said', () => {
    const plan = planAt(shopPoured(), '2026-03-02T08:00');
    expect(passOf(plan)).toMatchObject({ start: '2026-03-02T08:00+01:00', state: 'planned' });
    expect(told(plan)).toEqual([]);
  });

  test('comes within its minutes after a pour that is recorded, though other work waits', () => {
    const shop = shopPoured((file) => file.pieces?.push(piece('b', { due: '2026-03-01' })));
    const start = passOf(planAt(shop, '2026-03-01T09:12'))?.start ?? '';
    expect(start >= '2026-03-01T09:20' && start <= '2026-03-01T09:40+01:00').toBe(true);
  });

  test('is over by the minute in which its layer sets, or left out and spoken of once', () => {
    const last = planAt(shopPoured(), '2026-03-02T09:00');
    expect(passOf(last)).toMatchObject({ start: '2026-03-02T09:00+01:00', end: '2026-03-02T09:05+01:00' });
    const tooLate = planAt(shopPoured(), '2026-03-02T09:01');
    expect(passOf(tooLate)).toBeUndefined();
    expect(told(tooLate)).toHaveLength(1);
  });

  test('is not planned days later', () => {
    const plan = planAt(shopPoured(), '2026-03-05T07:00');
    expect(passOf(plan)).toBeUndefined();
    expect(told(plan)).toEqual([
      'the bubble pass of layer 1 was not recorded, and layer 1 has set: there is nothing to do about it now',
    ]);
    expect(plan.levels.map(({ name }) => name)).not.toContain('passes');
  });

  test.each([14, 19, 29])('stays possible as long as the layer is wet in a room of %i degC', (degC) => {
    const shop = shopPoured(({ rooms, people }) => {
      rooms[0].temperature = { pattern: { nightLowDegC: degC, dayHighDegC: degC } };
      people[0].hours = [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }];
    });
    const opens = milestones(shop, planAt(shop, '2026-03-01T10:00'))[0].opens ?? '';
    expect(passOf(planAt(shop, shifted(opens, -5)))?.end).toBe(opens);
    expect(passOf(planAt(shop, shifted(opens, -4)))).toBeUndefined();
  });

  test('is left out when nobody is there before the layer sets', () => {
    const late = shopPoured(({ people }) => {
      people[0].hours = [{ rule: 'FREQ=DAILY', from: '09:01', to: '21:00' }];
    });
    const plan = planAt(late, '2026-03-01T22:00');
    expect(passOf(plan)).toBeUndefined();
    expect(told(plan)).toEqual([
      'nobody is free for the bubble pass of layer 1 before it sets Mon 2 Mar 09:05: left out',
    ]);
    const early = shopPoured(({ people }) => {
      people[0].hours = [{ rule: 'FREQ=DAILY', from: '09:00', to: '21:00' }];
    });
    expect(passOf(planAt(early, '2026-03-01T22:00'))?.start).toBe('2026-03-02T09:00+01:00');
  });

  test('is left out rather than that a shop cannot be planned, when the only hands are pinned elsewhere', () => {
    /** Preparing b takes an hour. */
    const pinned = (at: string): Shop =>
      shopPoured((file) => file.pieces?.push(piece('b', { pins: [{ step: 'prepare', at }] })));
    const justInTime = planAt(pinned('2026-03-02T08:00'), '2026-03-02T08:00');
    expect(passOf(justInTime)?.start).toBe('2026-03-02T09:00+01:00');
    const plan = planAt(pinned('2026-03-02T08:01'), '2026-03-02T08:00');
    expect(passOf(plan)).toBeUndefined();
    expect(told(plan)).toHaveLength(1);
  });

  test('is left out when nobody is left who could make it, and the rest is planned', () => {
    const shop = shopPoured(({ people, recipes }) => {
      people[0].can = ['prepare', 'demold', 'flatten', 'sand', 'finish'];
      recipes[0].layers = recipes[0].layers.slice(0, 1);
    });
    expect(told(planAt(shop, '2026-03-01T10:00'))).toHaveLength(1);
  });

  test('is not given up for the sake of a date', () => {
    const shop = shopPoured((file) => file.pieces?.push(piece('b', { due: '2026-03-01', weight: 100 })));
    const plan = planAt(shop, '2026-03-02T08:30');
    expect(plan.pieces.find((each) => each.piece === 'b')?.lateMinutes).toBeGreaterThan(0);
    expect(passOf(plan)).toBeDefined();
    expect(plan.levels[0]).toEqual({ name: 'passes', value: 0, bound: 0, proven: true });
  });

  test('goes by what a finger found: longer while it is wet, no more when it is hard', () => {
    const touched = (found: 'wet' | 'hard', at: string): Shop =>
      shopPoured((file) => {
        file.pieces = [
          piece('a', { actuals: [...poured], touchTests: [{ step: 'layer-1-pour', at, found }] }),
        ];
      });
    expect(passOf(planAt(touched('wet', '2026-03-02T09:30'), '2026-03-02T09:25'))?.end).toBe(
      '2026-03-02T09:30+01:00',
    );
    expect(passOf(planAt(touched('hard', '2026-03-02T07:30'), '2026-03-02T07:40'))).toBeUndefined();
  });

  test('can be recorded later all the same, and then is done and no more spoken of', () => {
    const made = { step: PASS, started: '2026-03-01T09:25', ended: '2026-03-01T09:30' };
    const plan = planAt(
      shopPoured(() => undefined, [made]),
      '2026-03-05T07:00',
    );
    expect(passOf(plan)).toMatchObject({ start: '2026-03-01T09:25+01:00', state: 'done' });
    expect(told(plan)).toEqual([]);
  });

  test('counts as done once a later layer is recorded', () => {
    const more = [
      { step: 'layer-2-mix', started: '2026-03-02T12:00', ended: '2026-03-02T12:05' },
      { step: 'layer-2-pour', started: '2026-03-02T12:05', ended: '2026-03-02T12:10' },
    ];
    const plan = planAt(
      shopPoured(() => undefined, more),
      '2026-03-02T13:00',
    );
    expect(passOf(plan)).toMatchObject({ state: 'done' });
    expect(told(plan)).toEqual([]);
  });

  test('is spoken of with the others of its layer', () => {
    const shop = shopPoured(({ recipes }) => {
      recipes[0].layers[0].bubblePasses = [{}, { fromMinutes: 40, toMinutes: 60 }];
    });
    expect(told(planAt(shop, '2026-03-05T07:00'))).toEqual([
      'the bubble passes of layer 1 were not recorded, and layer 1 has set: there is nothing to do about it now',
    ]);
  });

  test('is not said to be planned afresh when it was pinned', () => {
    const shop = shopPoured((file) => {
      file.pieces = [piece('a', { actuals: [...poured], pins: [{ step: PASS, at: '2026-03-01T09:25' }] })];
    });
    const kinds = (now: string): string[] => planAt(shop, now).notes.map(({ kind }) => kind);
    expect(kinds('2026-03-02T08:00')).toEqual(['passed-pin']);
    expect(kinds('2026-03-05T07:00')).toEqual(['missed-pass']);
  });
});
