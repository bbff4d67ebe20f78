import { describe, expect, it } from 'vitest';
import { checkPlan, planShop } from '../../../src/engine/index.ts';
import type { Plan, PlanStep, Shop } from '../../../src/engine/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { shifted } from '../../moments.ts';

const BUDGET = 200_000;
const plan = (shop: Shop, now = NOW, standing?: Plan): Plan =>
  planShop(shop, { now, seed: 1, budget: BUDGET, standing });
const step = (made: Plan, of: string, name: string): PlanStep => {
  const found = made.steps.find((s) => s.piece === of && s.step === name);
  if (!found) throw new Error(`the plan has no ${of} ${name}: ${made.status} ${made.clash.join('; ')}`);
  return found;
};
const minutesBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 60_000;
const planned = (made: Plan): boolean => made.status === 'optimal' || made.status === 'feasible';

describe('a plan of a shop', () => {
  it('holds a form for a three-layer board for at least 24 + 4 + 72 hours (common practice, no source)', () => {
    const shop = littleShop();
    const made = plan(shop);
    expect(checkPlan(shop, made)).toEqual([]);
    const held = made.holds.find((h) => h.what === 'form');
    expect(minutesBetween(held?.from ?? '', held?.to ?? '')).toBeGreaterThanOrEqual(100 * 60);
  });

  it('is the same to the byte for the same shop, now, seed and budget', () => {
    const shop = littleShop(
      (file) => (file.pieces = [piece('a'), piece('b'), piece('c', { recipe: 'coated' })]),
    );
    expect(JSON.stringify(plan(shop))).toBe(JSON.stringify(plan(shop)));
  });

  it('scuffs when a window falls into the night and nobody is there', () => {
    const shop = littleShop((file) => {
      // Poured in the only hour that there is, the fast layer is tacky only while nobody is there.
      file.people[0].hours = [{ rule: 'FREQ=DAILY', from: '08:00', to: '10:30' }];
      file.recipes[0].prepare.work.minutes = 30;
    });
    const made = plan(shop);
    expect(checkPlan(shop, made)).toEqual([]);
    expect(step(made, 'a', 'layer-3-pour').way).toBe('scuff');
    expect(Date.parse(step(made, 'a', 'layer-3-scuff').end)).toBeLessThanOrEqual(
      Date.parse(step(made, 'a', 'layer-3-mix').start),
    );
  });

  it('pours inside the window, well away from its edges, when somebody can be there', () => {
    const made = plan(littleShop());
    for (const name of ['layer-2-pour', 'layer-3-pour']) {
      const { window, start, end, way } = step(made, 'a', name);
      expect(way).toBe('recoat');
      expect(minutesBetween(window?.opens ?? '', start)).toBeGreaterThanOrEqual(30);
      expect(minutesBetween(end, window?.closes ?? '')).toBeGreaterThanOrEqual(30);
    }
    expect(made.levels.find((l) => l.name === 'windows')).toMatchObject({ value: 0, proven: true });
  });

  it('never casts two pieces in one form at a time', () => {
    const shop = littleShop((file) => (file.pieces = ['a', 'b', 'c', 'd'].map((id) => piece(id))));
    const made = plan(shop);
    expect(checkPlan(shop, made)).toEqual([]);
    for (const form of ['long', 'short']) {
      const holds = made.holds.filter((h) => h.what === 'form' && h.id === form).map((h) => [h.from, h.to]);
      holds.sort((x, y) => Date.parse(x[0]) - Date.parse(y[0]));
      holds
        .slice(1)
        .forEach(([from], i) => expect(Date.parse(from)).toBeGreaterThanOrEqual(Date.parse(holds[i][1])));
    }
  });

  it('turns a piece over only when the first face is hard, and coats the other face without a window', () => {
    const shop = littleShop((file) => (file.pieces = [piece('a', { recipe: 'coated' })]));
    const made = plan(shop);
    expect(checkPlan(shop, made)).toEqual([]);
    expect(step(made, 'a', 'coat-2').window?.of).toBe('coat-1');
    expect(step(made, 'a', 'coat-3').window).toBeUndefined();
    expect(
      minutesBetween(step(made, 'a', 'coat-2').start, step(made, 'a', 'flip-3').start),
    ).toBeGreaterThanOrEqual(16 * 60);
  });

  it('says that cure stands still in a room that is colder than the resin allows', () => {
    const shop = littleShop((file) => {
      file.rooms[0].temperature = { pattern: { nightLowDegC: 6, dayHighDegC: 20 } };
      file.pieces = [piece('a', { due: '2026-06-30' })];
    });
    const made = plan(shop);
    expect(planned(made)).toBe(true);
    expect(checkPlan(shop, made)).toEqual([]);
    expect(made.notes.map((n) => n.kind)).toContain('stall');
  });

  it('uses the warm box where the room is too cold for the date', () => {
    const cold = littleShop((file) => {
      file.rooms[0].temperature = { pattern: { nightLowDegC: 13, dayHighDegC: 15 } };
      file.warmBoxes = [
        { id: 'box', name: 'Warm box', room: 'shop', setDegC: 28, spots: 1, heatUpMinutes: 45 },
      ];
      file.recipes[0].layers = [{ resin: 'slow', depthMm: 12 }];
      file.pieces = [piece('a', { due: '2026-03-03' })];
    });
    const made = plan(cold);
    expect(checkPlan(cold, made)).toEqual([]);
    expect(made.holds.some((h) => h.what === 'warm-box')).toBe(true);
    const without = plan({ ...cold, warmBoxes: [] });
    expect(made.pieces[0].lateMinutes).toBeLessThan(without.pieces[0].lateMinutes);
  });

  it('keeps a pinned step where it was put, and a begun one where it began', () => {
    const shop = littleShop((file) => {
      file.pieces = [
        piece('a', { pins: [{ step: 'prepare', at: '2026-03-04T09:30' }] }),
        piece('b', {
          actuals: [
            { step: 'prepare', started: '2026-03-02T06:30', ended: '2026-03-02T07:45', form: 'short' },
          ],
        }),
      ];
    });
    const made = plan(shop, '2026-03-02T08:00');
    expect(checkPlan(shop, made)).toEqual([]);
    expect(step(made, 'a', 'prepare')).toMatchObject({ start: '2026-03-04T09:30+01:00', pinned: true });
    expect(step(made, 'b', 'prepare')).toMatchObject({
      start: '2026-03-02T06:30+01:00',
      end: '2026-03-02T07:45+01:00',
      state: 'done',
      form: { id: 'short' },
    });
  });

  it('lets a passed pin go and says so', () => {
    const shop = littleShop((file) => {
      file.pieces = [piece('a', { pins: [{ step: 'prepare', at: '2026-03-01T09:30' }] })];
    });
    const made = plan(shop);
    expect(planned(made)).toBe(true);
    expect(made.notes).toMatchObject([{ kind: 'passed-pin', piece: 'a', step: 'prepare' }]);
  });

  it('keeps a pour where it is pinned, and mixes before it', () => {
    const { start } = step(plan(littleShop()), 'a', 'layer-2-pour');
    const shop = littleShop((file) => {
      file.pieces = [piece('a', { pins: [{ step: 'layer-2-pour', at: start }] })];
    });
    const made = plan(shop);
    expect(step(made, 'a', 'layer-2-pour').start).toBe(start);
    expect(step(made, 'a', 'layer-2-mix').end).toBe(start);
  });

  it('keeps a pin for the present minute', () => {
    const shop = littleShop((file) => {
      file.pieces = [piece('a', { pins: [{ step: 'prepare', at: '2026-03-04T09:30' }] })];
    });
    const made = plan(shop, '2026-03-04T09:30');
    expect(step(made, 'a', 'prepare')).toMatchObject({ start: '2026-03-04T09:30+01:00', pinned: true });
    expect(made.notes).toEqual([]);
  });

  it('says which pins clash when no plan can exist, and blames no other piece', () => {
    const shop = littleShop((file) => {
      const at = '2026-03-04T09:30';
      file.pieces = [
        piece('a', { pins: [{ step: 'prepare', at }] }),
        piece('b', { pins: [{ step: 'prepare', at: '2026-03-04T10:00' }] }),
        piece('c'),
      ];
    });
    const made = plan(shop);
    expect(made.status).toBe('infeasible');
    expect(made.clash.join('\n')).toMatch(/Board a.*pinned/);
    expect(made.clash.join('\n')).toMatch(/Board b.*pinned/);
    expect(made.clash.join('\n')).not.toMatch(/Board c/);
  });

  it('says that a step pinned into the night cannot be done then', () => {
    const shop = littleShop((file) => {
      file.pieces = [piece('a', { pins: [{ step: 'prepare', at: '2026-03-04T03:00' }] })];
    });
    const made = plan(shop);
    expect(made.status).toBe('infeasible');
    expect(made.clash).toEqual([
      expect.stringMatching(/Board a.*someone is there for it.*pinned|pinned.*someone is there/),
    ]);
  });

  it('moves nothing when nothing has changed, and little when one step is pinned elsewhere', () => {
    const shop = littleShop((file) => (file.pieces = [piece('a'), piece('b'), piece('c')]));
    const first = plan(shop);
    const again = plan(shop, NOW, first);
    expect(again.steps).toEqual(first.steps);
    const start = step(first, 'b', 'finish').start;
    const nextDay = shifted(start, 1440);
    const pinned: Shop = {
      ...shop,
      pieces: shop.pieces.map((p) => (p.id === 'b' ? { ...p, pins: [{ step: 'finish', at: nextDay }] } : p)),
    };
    const moved = plan(pinned, NOW, first);
    expect(checkPlan(pinned, moved)).toEqual([]);
    expect(Date.parse(step(moved, 'b', 'finish').start)).toBe(Date.parse(nextDay));
    for (const each of ['a', 'c'])
      expect(step(moved, each, 'prepare').start).toBe(step(first, each, 'prepare').start);
  });

  it('waits longer for a layer that a finger found wet, and scuffs one that it found hard', () => {
    const poured = (found: 'wet' | 'hard', at: string): Shop =>
      littleShop((file) => {
        const done = (name: string, started: string, ended: string) => ({
          step: name,
          started,
          ended,
          form: 'long',
        });
        file.pieces = [
          piece('a', {
            actuals: [
              done('prepare', '2026-03-01T08:00', '2026-03-01T09:00'),
              done('layer-1-mix', '2026-03-01T09:00', '2026-03-01T09:05'),
              done('layer-1-pour', '2026-03-01T09:05', '2026-03-01T09:10'),
              done('layer-1-bubbles-1', '2026-03-01T09:25', '2026-03-01T09:30'),
            ],
            touchTests: [{ step: 'layer-1-pour', at, found }],
          }),
        ];
      });
    const untouched = plan(poured('wet', '2026-03-01T10:00'), '2026-03-02T14:00');
    expect(step(untouched, 'a', 'layer-2-pour').window?.opens).toBe('2026-03-02T09:05+01:00');
    // Still wet 28 h after the pour: everything is 28/24 of what the sheet says.
    const wet = plan(poured('wet', '2026-03-02T13:05'), '2026-03-02T14:00');
    expect(step(wet, 'a', 'layer-2-pour').window).toMatchObject({
      opens: '2026-03-02T13:05+01:00',
      closes: '2026-03-03T03:05+01:00',
    });
    const hard = plan(poured('hard', '2026-03-02T13:05'), '2026-03-02T14:00');
    expect(step(hard, 'a', 'layer-2-pour').way).toBe('scuff');
  });
});

describe('a form that is being cleaned', () => {
  it('is not free before the time its turnaround takes has passed', () => {
    const done = (step: string, started: string, ended: string) => ({ step, started, ended, form: 'long' });
    const shop = littleShop((file) => {
      file.forms = [{ ...file.forms[0], turnaroundMinutes: 120 }];
      file.recipes[0].layers = [{ resin: 'slow', depthMm: 12, bubblePasses: [] }];
      file.pieces = [
        piece('a', {
          actuals: [
            done('prepare', '2026-02-24T08:00', '2026-02-24T09:00'),
            done('layer-1-mix', '2026-02-24T09:00', '2026-02-24T09:05'),
            done('layer-1-pour', '2026-02-24T09:05', '2026-02-24T09:10'),
            done('demold', '2026-03-02T07:00', '2026-03-02T07:20'),
            { step: 'turnaround', started: '2026-03-02T07:30', form: 'long' },
          ],
        }),
        piece('b'),
      ];
    });
    const made = plan(shop, '2026-03-02T08:00');
    expect(checkPlan(shop, made)).toEqual([]);
    expect(step(made, 'a', 'turnaround')).toMatchObject({ state: 'begun', end: '2026-03-02T09:30+01:00' });
    expect(Date.parse(step(made, 'b', 'prepare').start)).toBeGreaterThanOrEqual(
      Date.parse('2026-03-02T09:30+01:00'),
    );
  });
});

describe('a pour larger than one cup', () => {
  it('takes the mixing of each further cup besides, and each cup is out within its own working time', () => {
    const shop = littleShop((file) => {
      // 0.08 m2 at 12 mm are 960 mL: four cups of 240 mL. Five minutes to mix each, eight to pour it all.
      file.resins[0] = {
        ...file.resins[0],
        largestBatchMl: 250,
        workingTime: { minutes: 10, batchMl: 250 },
      };
      file.recipes[0].layers[0].pour = { minutes: 8 };
    });
    const made = plan(shop);
    expect(checkPlan(shop, made)).toEqual([]);
    const { start, end } = step(made, 'a', 'layer-1-pour');
    expect(minutesBetween(start, end)).toBe(8 + 3 * 5);
    const shorter = littleShop((file) => {
      file.resins[0] = { ...file.resins[0], largestBatchMl: 250, workingTime: { minutes: 6, batchMl: 250 } };
      file.recipes[0].layers[0].pour = { minutes: 8 };
    });
    expect(plan(shorter).status).toBe('infeasible');
  });
});
