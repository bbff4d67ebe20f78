import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heatRemark, splitDeepLayers, splitDepth, splitLayer } from '../../../src/engine/mix/index.ts';
import { layerVolumeMl } from '../../../src/engine/routing/index.ts';
import { parseShop, type ShopFile } from '../../../src/engine/shop/index.ts';
import { littleShopFile } from '../little-shop.ts';
import { mixingShop } from './bench-day.ts';

const [slow] = mixingShop().resins;
const [{ layers }] = mixingShop().recipes;
const size = { lengthMm: 400, widthMm: 200 };
const limits = { id: 'slow', smallestDepthMm: 6, largestDepthMm: 25 };

describe('a deep layer', () => {
  test('60 mm, at most 25 a pour, are three pours of 20', () => {
    expect(splitDepth(limits, 60)).toEqual([20, 20, 20]);
  });

  test('25 mm are one pour', () => expect(splitDepth(limits, 25)).toEqual([25]));

  test('too shallow a layer, and one whose parts would be, are refused with the limits', () => {
    expect(() => splitDepth(limits, 5)).toThrow('a pour of it is 6 to 25 mm deep');
    expect(() => splitDepth({ ...limits, smallestDepthMm: 20 }, 30)).toThrow(
      '30 mm of "slow" cannot be poured',
    );
  });

  test('any depth: no pour deeper than allowed, none missing, none more than 0.1 mm from the others', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 5000 }).map((tenths) => tenths / 10),
        fc.integer({ min: 10, max: 1000 }).map((tenths) => tenths / 10),
        (depthMm, largestDepthMm) => {
          const depths = splitDepth({ id: 'any', smallestDepthMm: 0.1, largestDepthMm }, depthMm);
          expect(depths.reduce((sum, mm) => sum + mm, 0)).toBeCloseTo(depthMm, 6);
          for (const mm of depths) expect(mm).toBeLessThanOrEqual(largestDepthMm + 1e-9);
          expect(Math.max(...depths) - Math.min(...depths)).toBeLessThanOrEqual(0.1 + 1e-9);
          // One pour fewer would be too deep.
          if (depths.length > 1) expect(depthMm / (depths.length - 1)).toBeGreaterThan(largestDepthMm);
        },
      ),
      { seed: 20261126, numRuns: 500 },
    );
  });

  test('keeps its resin: wood that ends inside it is in the lower pours only', () => {
    const deep = {
      ...layers[0],
      depthMm: 60,
      wood: { pieces: [{ lengthMm: 300, widthMm: 100, thicknessMm: 30, count: 1 }] },
    };
    const pours = splitLayer(deep, slow, size);
    expect(pours.map(({ depthMm }) => depthMm)).toEqual([20, 20, 20]);
    expect(pours.map(({ wood }) => wood && 'pieces' in wood && wood.pieces[0].thicknessMm)).toEqual([
      20,
      10,
      undefined,
    ]);
    const whole = layerVolumeMl(deep, size);
    expect(pours.reduce((sum, layer) => sum + layerVolumeMl(layer, size), 0)).toBeCloseTo(whole, 6);
  });

  test('stated as a volume, each pour has its share of it', () => {
    const { depthMm: _, ...rest } = layers[0];
    const pours = splitLayer({ ...rest, volumeMl: 4000 }, slow, size);
    expect(pours.map(({ volumeMl }) => volumeMl)).toEqual([2000, 2000]);
  });
});

describe('heat', () => {
  test('is spoken of from 80 % of the maker’s depth or batch on (common practice, no source)', () => {
    expect(heatRemark(slow, { depthMm: 19, batchMl: 3000 })).toBeNull();
    expect(heatRemark(slow, { depthMm: 20, batchMl: 3000 })).toContain('80 % of the largest depth');
    expect(heatRemark(slow, { depthMm: 10, batchMl: 3600 })).toContain('90 % of the largest batch');
  });
});

describe('a shop file with layers too deep', () => {
  const deep = (): ShopFile => {
    const file = littleShopFile();
    file.forms[0].inside.depthMm = 100;
    file.recipes[0].layers[0] = {
      resin: 'slow',
      depthMm: 60,
      wood: { pieces: [{ lengthMm: 300, widthMm: 100, thicknessMm: 30 }] },
      tint: { name: 'blue', gPerL: 2 },
    };
    return file;
  };

  test('is refused as it is, and read once it is split, with the same resin in it and no defaults written down', () => {
    const text = JSON.stringify(deep());
    expect(parseShop(text).ok).toBe(false);
    const made = splitDeepLayers(text);
    expect(made?.split).toEqual([{ recipe: 'three-layer', layer: 1, depthsMm: [20, 20, 20] }]);
    const read = parseShop(made?.text ?? '');
    expect(read).toMatchObject({ ok: true });
    if (!read.ok) return;
    const poured = read.shop.recipes[0].layers.slice(0, 3);
    expect(poured.reduce((sum, layer) => sum + layerVolumeMl(layer, size), 0)).toBeCloseTo(
      layerVolumeMl({ ...poured[0], depthMm: 60, wood: undefined }, size) - 900,
      6,
    );
    expect(poured.map(({ tint }) => tint?.name)).toEqual(['blue', 'blue', 'blue']);
    expect(made?.text).not.toContain('mixMinutes');
  });

  test('stays as it is, byte for byte, when no layer is too deep; what is no shop file is nobody’s to split', () => {
    const text = JSON.stringify(littleShopFile());
    expect(splitDeepLayers(text)).toEqual({ text, split: [] });
    expect(splitDeepLayers('{')).toBeNull();
    expect(splitDeepLayers('{"format": "other"}')).toBeNull();
  });
});
