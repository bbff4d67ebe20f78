/** The shop that a first start begins with: it must be a right shop file, and keep its first promise. */
import { describe, expect, test } from 'vitest';
import { checkPlan, parseShop, planShop, serializeShop } from '../../../src/engine/index.ts';
import {
  freshShop,
  HOURS,
  hoursChoice,
  unitsFor,
  withCoat,
  withForm,
  withLayers,
  withSheetTimes,
} from '../../../src/ui/first-start/fresh-shop.ts';
import { shownNumber } from '../../../src/ui/fields/measure.ts';

const begun = (units: 'metric' | 'us' = 'metric') =>
  freshShop({ zone: 'America/Chicago', units, due: '2026-12-16T17:00' });

describe('a shop of one’s own', () => {
  test.each(['metric', 'us'] as const)(
    'as it is offered in %s it is a right shop file with nothing odd in it',
    (units) => {
      const read = parseShop(serializeShop(begun(units)));
      expect(read).toEqual({ ok: true, shop: begun(units), warnings: [] });
    },
  );

  test('its first piece is ready in time, by a plan that breaks no rule', () => {
    const plan = planShop(begun(), { now: '2026-11-25T12:00-06:00', seed: 1, budget: 50_000 });
    expect(['optimal', 'feasible']).toContain(plan.status);
    expect(plan.pieces[0].lateMinutes).toBe(0);
    expect(checkPlan(begun(), plan)).toEqual([]);
  });

  test('in the US its numbers are round in inches and fluid ounces', () => {
    const shop = begun('us');
    const { inside } = shop.forms[0];
    expect(
      [inside.lengthMm, inside.widthMm, inside.depthMm].map((mm) => shownNumber(mm, 'length', 'us')),
    ).toEqual(['20', '12', '2.5']);
    expect(shownNumber(shop.resins[0].largestBatchMl, 'volume', 'us')).toBe('160');
    expect(shownNumber(shop.rooms[0].temperature.pattern.nightLowDegC, 'warmth', 'us')).toBe('65');
  });

  test('every choice of hours, number of layers and coat leaves a right shop file', () => {
    for (const hours of Object.values(HOURS)) {
      for (const layers of [1, 2, 3, 4]) {
        for (const coat of [true, false]) {
          const shop = withCoat(
            withLayers({ ...begun(), people: [{ ...begun().people[0], hours }] }, layers),
            coat,
          );
          const read = parseShop(serializeShop(shop));
          expect(read.ok ? [] : read.faults).toEqual([]);
          expect(shop.recipes[0].layers).toHaveLength(layers);
        }
      }
    }
  });

  test('more layers than the form is deep is said at the recipe, and not let through', () => {
    const read = parseShop(serializeShop(withLayers(begun(), 6)));
    expect(read.ok).toBe(false);
  });

  test('a short sheet is filled in: scuffing after the window, machining after demolding, never after full cure', () => {
    const [resin] = withSheetTimes(begun(), {
      tackOpensMinutes: 240,
      tackClosesMinutes: 600,
      demoldMinutes: 1440,
      fullCureMinutes: 1800,
    }).resins;
    expect(resin.scuffableMinutes).toBe(720);
    expect(resin.machinableMinutes).toBe(1800);
  });

  test('the first piece is as large as the form', () => {
    const shop = withForm(begun(), { lengthMm: 640, widthMm: 250, depthMm: 50 });
    expect(shop.pieces[0].size).toEqual({ lengthMm: 640, widthMm: 250 });
  });

  test('chosen hours are recognised, others are one’s own', () => {
    expect(hoursChoice(HOURS.weekends)).toBe('weekends');
    expect(hoursChoice([{ ...HOURS.weekends[0], from: '10:00' }])).toBeNull();
  });

  test('inches where they are usual', () => {
    expect(unitsFor('en-US')).toBe('us');
    expect(unitsFor('en-GB')).toBe('metric');
    expect(unitsFor('de')).toBe('metric');
  });
});
