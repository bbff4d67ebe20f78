import { describe, expect, it } from 'vitest';
import { itinerary, layerVolumeMl, thinVolumeMl, workMinutes } from '../../../src/engine/routing/index.ts';
import type { Layer } from '../../../src/engine/index.ts';
import { littleShop, piece } from '../little-shop.ts';

/** NIST Handbook 44, Appendix C: exact. */
const INCH_MM = 25.4;
const FLUID_OUNCE_ML = 29.5735295625;

describe('the way of a piece through the shop', () => {
  it('goes layer by layer, each mixed, poured and passed for bubbles, then demold, machine and finish', () => {
    const shop = littleShop();
    const steps = itinerary(shop, shop.pieces[0]).blocks.flatMap((b) => b.steps.map((s) => s.id));
    expect(steps).toEqual([
      'prepare',
      'layer-1-mix',
      'layer-1-pour',
      'layer-1-bubbles-1',
      'layer-2-scuff',
      'layer-2-mix',
      'layer-2-pour',
      'layer-2-bubbles-1',
      'layer-3-scuff',
      'layer-3-mix',
      'layer-3-pour',
      'layer-3-bubbles-1',
      'demold',
      'turnaround',
      'flatten',
      'sand',
      'finish',
      'ready',
    ]);
  });

  it('seals first where the recipe says so, and turns over between the faces', () => {
    const shop = littleShop((file) => (file.pieces = [piece('a', { recipe: 'coated' })]));
    const { blocks } = itinerary(shop, shop.pieces[0]);
    expect(blocks.map((b) => b.id)).toEqual([
      'prepare',
      'seal',
      'layer-1-scuff',
      'layer-1-pour',
      'layer-1-bubbles-1',
      'demold',
      'turnaround',
      'sand',
      'coat-1',
      'coat-2-scuff',
      'coat-2',
      'flip-3',
      'coat-3',
      'finish',
      'ready',
    ]);
    const over = Object.fromEntries(
      blocks.flatMap((b) => (b.application ? [[b.application.id, b.application.over]] : [])),
    );
    expect(over).toEqual({
      seal: null,
      'layer-1': 'seal',
      'coat-1': null,
      'coat-2': 'coat-1',
      'coat-3': null,
    });
  });

  it('rounds hands-on work up to whole minutes, never down to none', () => {
    expect(workMinutes({ minutes: 10, minutesPerM2: 100, hands: 1 }, 0.08)).toBe(18);
    expect(workMinutes({ minutes: 0, minutesPerM2: 1, hands: 1 }, 0.001)).toBe(1);
    expect(workMinutes({ minutes: 10, minutesPerM2: 100, hands: 1 }, 0.081)).toBe(19);
  });

  it('refuses a recipe that the shop does not have, by name', () => {
    const shop = littleShop();
    expect(() => itinerary(shop, { ...shop.pieces[0], recipe: 'lost' })).toThrow(/"a".*"lost"/);
  });
});

describe('how much resin a layer takes', () => {
  const layer = (depthMm: number, wood?: Layer['wood']): Layer => ({
    ...littleShop().recipes[0].layers[0],
    depthMm,
    wood,
  });

  it('is its box: 108.28125 square inches at half an inch are 30 US fluid ounces (NIST Handbook 44, Appendix C)', () => {
    const size = { lengthMm: 10 * INCH_MM, widthMm: 10.828125 * INCH_MM };
    expect(layerVolumeMl(layer(0.5 * INCH_MM), size)).toBeCloseTo(30 * FLUID_OUNCE_ML, 9);
  });

  it('is less the wood, whether its share, its pieces or its outline is known', () => {
    const size = { lengthMm: 400, widthMm: 200 };
    const full = layerVolumeMl(layer(10), size);
    expect(full).toBeCloseTo(800, 9);
    expect(layerVolumeMl(layer(10, { coverPercent: 25 }), size)).toBeCloseTo(600, 9);
    const pieces = [{ lengthMm: 400, widthMm: 50, thicknessMm: 10, count: 1 }];
    expect(layerVolumeMl(layer(10, { pieces }), size)).toBeCloseTo(600, 9);
    const outlines = [
      [
        [0, 0],
        [400, 0],
        [400, 50],
        [0, 50],
      ],
    ];
    expect(layerVolumeMl(layer(10, { outlines }), size)).toBeCloseTo(600, 9);
    const proud = [{ lengthMm: 400, widthMm: 50, thicknessMm: 30, count: 1 }];
    expect(layerVolumeMl(layer(10, { pieces: proud }), size)).toBeCloseTo(600, 9);
  });

  it('is never below nothing', () => {
    const size = { lengthMm: 100, widthMm: 100 };
    const pieces = [{ lengthMm: 400, widthMm: 50, thicknessMm: 10, count: 4 }];
    expect(layerVolumeMl(layer(10, { pieces }), size)).toBe(0);
  });

  it('is its cover times its area for a seal or a coat', () => {
    expect(thinVolumeMl(300, { lengthMm: 500, widthMm: 400 })).toBeCloseTo(60, 12);
  });
});
