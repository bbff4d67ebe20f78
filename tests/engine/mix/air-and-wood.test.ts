import { describe, expect, test } from 'vitest';
import { airMargin, cupsOf, woodStates } from '../../../src/engine/mix/index.ts';
import type { Shop, ShopFile } from '../../../src/engine/shop/index.ts';
import { toMinute } from '../../../src/engine/time/index.ts';
import { at, mixingShop, planWith, pourSteps } from './bench-day.ts';

const pour = { piece: 'a', ml: 500, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:15') };
const prepare = {
  piece: 'a',
  step: 'prepare',
  kind: 'prepare',
  start: at(3, '07:00'),
  end: at(3, '08:00'),
  handsOnMinutes: 60,
  people: ['wren'],
  room: 'shop',
  state: 'planned',
  pinned: false,
} as const;

const steady = (degC: number, humidityPercent?: number) => (file: ShopFile) => {
  file.rooms[0].temperature.pattern = { nightLowDegC: degC, dayHighDegC: degC };
  file.rooms[0].humidityPercent = humidityPercent;
};

function marginOf(shop: Shop) {
  const all = cupsOf(shop, planWith(shop, pourSteps([pour])));
  return airMargin(all.pours[0], all.ground);
}

describe('the air at a pour', () => {
  // Alduchov and Eskridge 1996, J. Appl. Meteorol. 35:601-609, Magnus form.
  test.each([
    [20, 50, 9.26],
    [20, 80, 16.44],
    [25, 60, 16.7],
    [15, 65, 8.47],
  ])('%i degC at %i %% has its dew point at %f degC and is that far above it', (degC, percent, dewPoint) => {
    const air = marginOf(mixingShop(steady(degC, percent)));
    expect(air.dewPointDegC).toBeCloseTo(dewPoint, 2);
    expect(air.marginK).toBeCloseTo(degC - dewPoint, 2);
    // FHWA-RD-98-084: at least 3 degC above the dew point.
    expect(air.neededK).toBe(3);
  });

  test('without a hygrometer nothing is said of the dew point', () => {
    expect(marginOf(mixingShop(steady(20)))).toMatchObject({
      degC: 20,
      humidityPercent: null,
      marginK: null,
    });
  });

  test('the tightest minute counts: a room that cools while it is poured', () => {
    const shop = mixingShop((file) => {
      file.rooms[0].humidityPercent = 70;
      file.rooms[0].temperature.measured = [
        { at: '2026-03-03T08:00', degC: 22 },
        { at: '2026-03-03T08:15', degC: 16 },
      ];
    });
    expect(marginOf(shop).degC).toBeCloseTo(16, 9);
  });
});

describe('wood', () => {
  const woodIn = (edit: (file: ShopFile) => void) => {
    const shop = mixingShop((file) => {
      file.recipes[0].layers[0].wood = { coverPercent: 60 };
      edit(file);
    });
    const plan = planWith(shop, [prepare, ...pourSteps([pour])]);
    const { ground, clock } = cupsOf(shop, plan);
    return woodStates(shop, plan, ground, (iso) => toMinute(clock, iso));
  };
  const SEVENTY_F = (70 - 32) / 1.8;

  // USDA Forest Products Laboratory, Wood Handbook FPL-GTR-190 (2010), Table 4-2, at 70 degF.
  test.each([
    [20, 4.5],
    [50, 9.2],
    [65, 12.0],
    [80, 16.0],
  ])('settles at 70 degF and %i %% at %f %% (Wood Handbook, Table 4-2)', (percent, moisture) => {
    const [state] = woodIn(steady(SEVENTY_F, percent));
    expect(state.equilibriumPercent).toBeCloseTo(moisture, 0);
    expect(Math.abs((state.equilibriumPercent ?? 0) - moisture)).toBeLessThan(0.1);
  });

  test('up to two points above that it will do, and never above 12 % (common practice, no source)', () => {
    const moistureAt = (woodMoisturePercent: number, humidity: number): string => {
      const [state] = woodIn((file) => {
        steady(SEVENTY_F, humidity)(file);
        if (file.pieces) file.pieces[0].woodMoisturePercent = woodMoisturePercent;
      });
      return state.moisture;
    };
    expect(moistureAt(11, 50)).toBe('fits');
    expect(moistureAt(11.5, 50)).toBe('too wet');
    expect(moistureAt(12.5, 80)).toBe('too wet');
  });

  test('not measured, or in a room without a hygrometer, it asks for the measurement', () => {
    expect(woodIn(steady(20, 50))[0]).toMatchObject({ moisture: 'not measured', seal: 'missing' });
    expect(woodIn(steady(20))[0]).toMatchObject({ moisture: 'air not measured', equilibriumPercent: null });
  });

  test('a recipe with a seal has it planned; a piece without wood is not spoken of', () => {
    const sealed = woodIn((file) => {
      file.recipes[0].seal = { resin: 'fast', work: { minutes: 5 } };
    });
    expect(sealed[0].seal).toBe('planned');
    expect(sealed[0].text).not.toContain('no seal');
    expect(woodIn((file) => delete file.recipes[0].layers[0].wood)).toEqual([]);
  });
});
