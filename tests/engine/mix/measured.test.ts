import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { instrumentsOf, measured, tintFor } from '../../../src/engine/mix/measured.ts';
import { massRatio, volumeRatio } from '../../../src/engine/mix/ratio.ts';
import { layerVolumeMl } from '../../../src/engine/routing/index.ts';
import { ML_PER_US_FLUID_OUNCE, MM_PER_INCH } from '../../../src/engine/shop/index.ts';
import { mixingShop, resinOf } from './bench-day.ts';

const SEED = { seed: 20261126, numRuns: 400 };
const flOz = (fluidOunces: number): number => fluidOunces * ML_PER_US_FLUID_OUNCE;

describe('one cup', () => {
  test('8 fl oz at 1:1, portioned 2 and 1: 4 A and 4 B, and 5 fl oz are left in the first cup (common practice, no source)', () => {
    const instruments = instrumentsOf(
      mixingShop((file) => {
        file.units = 'us';
        file.mixing = { cupLossPercent: 0, cupReadsMl: ML_PER_US_FLUID_OUNCE };
      }),
    );
    const { byVolume } = measured(resinOf(1, 1), [flOz(2), flOz(1), flOz(5)], null, instruments);
    expect(byVolume.aMl / ML_PER_US_FLUID_OUNCE).toBeCloseTo(4, 9);
    expect(byVolume.bMl / ML_PER_US_FLUID_OUNCE).toBeCloseTo(4, 9);
    expect(byVolume.portionsMl.map((ml) => ml / ML_PER_US_FLUID_OUNCE)).toEqual([
      expect.closeTo(2, 9),
      expect.closeTo(1, 9),
      expect.closeTo(5, 9),
    ]);
  });

  test('about 2.5 g of powder in 30 fl oz for a see-through tint is 2.8 g per litre (common practice, no source)', () => {
    expect(tintFor(flOz(30), { name: 'mica', gPerL: 2.8 }, 0.1)).toBe(2.5);
  });

  test('30 fl oz at 1/2 in covers 108.3 sq in (NIST: 1.8046875 cubic inches a fluid ounce)', () => {
    const lengthMm = 108.28125 * MM_PER_INCH;
    const size = { lengthMm, widthMm: MM_PER_INCH };
    const [{ layers }] = mixingShop().recipes;
    expect(layerVolumeMl({ ...layers[0], depthMm: 0.5 * MM_PER_INCH }, size)).toBeCloseTo(flOz(30), 9);
  });

  test('the scale counts on: A, then A and B, then all with the tint', () => {
    const { byMass } = measured(
      resinOf(2, 1),
      [1000],
      { name: 'blue', gPerL: 2.8 },
      instrumentsOf(mixingShop()),
    );
    const { aG, bG, tintG, showsG, mixedG } = byMass;
    expect(showsG).toEqual({ a: aG, b: aG + bG, tint: aG + bG + tintG });
    expect(mixedG).toBe(showsG.tint);
    expect(tintG).toBe(2.8);
    // 1000 mL at 1.05 g/mL, rounded up to the scale.
    expect(aG + bG).toBeGreaterThanOrEqual(1050);
    expect(aG + bG).toBeLessThanOrEqual(1054);
  });

  test('what stays in the cup is mixed on top: 950 mL with a loss of 5 % need 1000', () => {
    const shop = mixingShop((file) => (file.mixing = { cupLossPercent: 5 }));
    const { byVolume } = measured(resinOf(1, 1), [950], null, instrumentsOf(shop));
    expect(byVolume.mixedMl).toBe(1000);
  });

  test("the resin's own tolerance beats the shop's", () => {
    const resin = resinOf(2, 1);
    const strict = { ...resin, mix: { ...resin.mix, tolerancePercent: 0.5 } };
    const instruments = instrumentsOf(mixingShop());
    expect(instruments.tolerancePercent(resin)).toBe(3);
    expect(instruments.tolerancePercent(strict)).toBe(0.5);
    expect(Math.abs(measured(strict, [604.8], null, instruments).byVolume.errorPercent)).toBeLessThanOrEqual(
      0.5,
    );
  });

  test('where the shop counts in US units, its cups have quarter fluid ounce marks unless it says otherwise', () => {
    const us = instrumentsOf(mixingShop((file) => (file.units = 'us')));
    expect(us.cupReadsMl).toBeCloseTo(ML_PER_US_FLUID_OUNCE / 4, 12);
    expect(instrumentsOf(mixingShop()).cupReadsMl).toBe(5);
  });

  test('any portions: they add up to the batch, each gets enough, and both parts keep the ratio', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 5, max: 1500, noNaN: true }), { minLength: 1, maxLength: 5 }),
        fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 })),
        fc.constantFrom('volume' as const, 'mass' as const),
        fc.integer({ min: 0, max: 20 }),
        fc.option(fc.double({ min: 0.2, max: 40, noNaN: true })),
        (needs, [a, b], by, cupLossPercent, gPerL) => {
          const shop = mixingShop(
            (file) => (file.mixing = { cupLossPercent, cupReadsMl: 1, scaleReadsG: 0.1 }),
          );
          const resin = resinOf(a, b, by);
          const tint = gPerL === null ? null : { name: 'tint', gPerL };
          const { byVolume, byMass } = measured(resin, needs, tint, instrumentsOf(shop));
          const sum = (numbers: readonly number[]): number => numbers.reduce((x, y) => x + y, 0);
          expect(sum(byVolume.portionsMl)).toBeCloseTo(byVolume.mixedMl, 6);
          expect(sum(byMass.portionsG)).toBeCloseTo(byMass.mixedG, 6);
          expect(byVolume.aMl + byVolume.bMl).toBeCloseTo(byVolume.mixedMl, 6);
          needs.forEach((ml, i) => {
            const stays = i === needs.length - 1 ? (byVolume.mixedMl * cupLossPercent) / 100 : 0;
            expect(byVolume.portionsMl[i]).toBeGreaterThanOrEqual(ml + stays - 1e-6);
          });
          expect((byVolume.aMl / byVolume.bMl / volumeRatio(resin) - 1) * 100).toBeCloseTo(
            byVolume.errorPercent,
            6,
          );
          expect((byMass.aG / byMass.bG / massRatio(resin) - 1) * 100).toBeCloseTo(byMass.errorPercent, 6);
          if (byVolume.isWithinTolerance)
            expect(Math.abs(byVolume.errorPercent)).toBeLessThanOrEqual(3 + 1e-6);
          if (byMass.isWithinTolerance) expect(Math.abs(byMass.errorPercent)).toBeLessThanOrEqual(3 + 1e-6);
        },
      ),
      SEED,
    );
  });
});
