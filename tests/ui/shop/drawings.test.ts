/** The drawings of the Shop screen as plain geometry: recipe stack, resin curve, air of a room. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resinCurve } from '../../../src/engine/index.ts';
import { airPicture, hoursBelow } from '../../../src/ui/shop/model/air-picture.ts';
import { curvePicture, temperaturesBetween } from '../../../src/ui/shop/model/curve-picture.ts';
import {
  freshCoat,
  freshLayer,
  freshRecipe,
  freshResin,
  freshSeal,
} from '../../../src/ui/shop/model/fresh.ts';
import { recipeStack, THINNEST } from '../../../src/ui/shop/model/recipe-stack.ts';
import { putEntry, pathOf, withoutEntry } from '../../../src/ui/shop/model/sections.ts';
import { shopOf } from '../small-shop.ts';

const shop = shopOf();
const recipe = freshRecipe('board', shop);
const BOX = { width: 500, height: 200, left: 40, right: 10, top: 10, bottom: 20 };

describe('a recipe as a stack', () => {
  test('layers are to scale among each other, the first at the bottom', () => {
    const { slabs, depthMm } = recipeStack(
      { ...recipe, layers: [10, 20, 30].map((mm) => ({ ...freshLayer('slow'), depthMm: mm })) },
      120,
    );
    expect(slabs.map(({ height }) => height)).toEqual([20, 40, 60]);
    expect(slabs.map(({ top }) => top)).toEqual([100, 60, 0]);
    expect(depthMm).toBe(60);
  });

  test('seal below, coats on their faces, and 300 mL on a square metre are 0.3 mm', () => {
    const { slabs } = recipeStack(
      {
        ...recipe,
        seal: freshSeal('flood'),
        coats: [freshCoat('flood'), { ...freshCoat('flood'), face: 'bottom' }, freshCoat('flood')],
      },
      150,
    );
    expect(slabs.map(({ kind, number }) => `${kind} ${number}`)).toEqual([
      'bottom-coat 2',
      'seal 1',
      'layer 1',
      'top-coat 1',
      'top-coat 3',
    ]);
    expect(slabs[1].depthMm).toBeCloseTo(0.3, 12);
    expect(slabs[1]).toMatchObject({ height: THINNEST, thickened: true });
  });

  test('a layer by volume is as deep as its volume on the piece', () => {
    const layer = { ...freshLayer('slow'), depthMm: undefined, volumeMl: 1500 };
    const size = { lengthMm: 500, widthMm: 300 };
    expect(recipeStack({ ...recipe, layers: [layer] }, 100, size).slabs[0].depthMm).toBe(10);
    expect(recipeStack({ ...recipe, layers: [layer] }, 100).slabs[0].depthMm).toBeNaN();
  });

  test('wood takes its share: by percent, by pieces, by outline', () => {
    const size = { lengthMm: 500, widthMm: 200 };
    const share = (wood: NonNullable<(typeof recipe)['layers'][number]['wood']>): number =>
      recipeStack({ ...recipe, layers: [{ ...freshLayer('slow'), wood }] }, 100, size).slabs[0].woodShare;
    expect(share({ coverPercent: 55 })).toBeCloseTo(0.55, 12);
    expect(share({ pieces: [{ lengthMm: 250, widthMm: 100, thicknessMm: 12, count: 2 }] })).toBeCloseTo(
      0.5,
      12,
    );
    // A right triangle of 500 by 200 is half of the board.
    expect(
      share({
        outlines: [
          [
            [0, 0],
            [500, 0],
            [0, 200],
          ],
        ],
      }),
    ).toBeCloseTo(0.5, 12);
  });

  test('the slabs always fill the picture, without gap or overlap', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.5, max: 80, noNaN: true }), { minLength: 1, maxLength: 8 }),
        (depths) => {
          const { slabs } = recipeStack(
            { ...recipe, layers: depths.map((depthMm) => ({ ...freshLayer('slow'), depthMm })) },
            200,
          );
          let bottom = 200;
          for (const { top, height } of slabs) {
            expect(top + height).toBeCloseTo(bottom, 6);
            expect(height).toBeGreaterThanOrEqual(THINNEST - 1e-9);
            bottom = top;
          }
          expect(bottom).toBeCloseTo(0, 6);
        },
      ),
      { seed: 20261125 },
    );
  });
});

describe('a resin’s curve', () => {
  const times = resinCurve(freshResin('slow'), temperaturesBetween(5, 35));
  const picture = curvePicture(times, BOX);

  test('twice the time is the same step up anywhere on the axis', () => {
    const { y } = picture;
    expect(y(1000) - y(2000)).toBeCloseTo(y(3000) - y(6000), 9);
  });

  test('begins where the resin no longer stands still, and falls as it gets warmer', () => {
    const points = [...picture.opens.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    expect(points[0][0]).toBeCloseTo(picture.x(15), 0);
    // Down on the screen is less time.
    for (let at = 1; at < points.length; at++) expect(points[at][1]).toBeGreaterThan(points[at - 1][1]);
  });

  test('a rung stands where its time is', () => {
    for (const { minutes, y } of picture.rungs) expect(y).toBe(picture.y(minutes));
    expect(picture.rungs.length).toBeGreaterThan(2);
  });
});

describe('the air of a room', () => {
  const saw = [
    { at: 0, degC: 10 },
    { at: 600, degC: 20 },
    { at: 1200, degC: 10 },
  ];

  test('hours below a temperature count the share of each slope', () => {
    expect(hoursBelow(saw, 15)).toBeCloseTo(10, 9);
    expect(hoursBelow(saw, 12.5)).toBeCloseTo(5, 9);
    expect(hoursBelow(saw, 25)).toBe(20);
    expect(hoursBelow(saw, 10)).toBe(0);
  });

  test('an even room is drawn as an even line in the middle of the picture', () => {
    const picture = airPicture(
      [
        { at: 0, degC: 20 },
        { at: 100, degC: 20 },
      ],
      BOX,
    );
    expect(picture?.y(20)).toBeCloseTo((BOX.top + BOX.height - BOX.bottom) / 2, 9);
    expect(airPicture([], BOX)).toBeNull();
  });
});

describe('lists of the shop', () => {
  test('an entry is put in its place, a new one behind the last', () => {
    const [tray] = shop.forms;
    expect(putEntry(shop, 'forms', { ...tray, name: 'Tray' }).forms.map(({ name }) => name)).toEqual([
      'Tray',
      'Slab form',
    ]);
    expect(putEntry(shop, 'forms', { ...tray, id: 'new' }).forms.map(({ id }) => id)).toEqual([
      'tray',
      'slab',
      'new',
    ]);
    expect(pathOf(shop, 'forms', 'slab')).toBe('forms[1]');
    expect(pathOf(shop, 'forms', 'new')).toBe('forms[2]');
    expect(withoutEntry(shop, 'forms', 'tray').forms.map(({ id }) => id)).toEqual(['slab']);
  });
});
