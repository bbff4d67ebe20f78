import { describe, expect, test } from 'vitest';
import { applyStepOf, batchOf, massText, stepTitle, volumeText } from '../../../src/ui/words/index.ts';
import { shopOf } from '../small-shop.ts';

const resin = shopOf().resins[0];
const ML_PER_FL_OZ = 29.5735295625; // NIST Handbook 44, Appendix C: 231/128 cubic inches

describe('amounts to measure', () => {
  // Common practice, no source: 2:1 by volume, 30 fl oz are 20 A and 10 B; 24 fl oz are 16 A and 8 B.
  test.each([
    [30, '20.0 US fl oz', '10.0 US fl oz'],
    [24, '16.0 US fl oz', '8.0 US fl oz'],
  ])('%i fl oz at 2:1 by volume', (ounces, a, b) => {
    const batch = batchOf({ ...resin, largestBatchMl: 10_000 }, ounces * ML_PER_FL_OZ);
    expect(batch.parts.map((part) => volumeText(part.ml, 'us'))).toEqual([a, b]);
  });

  // Computed: 2:1 by volume at 1.10 and 0.95 g/mL is 100 : 43.18 by mass.
  test('2:1 by volume at 1.10 and 0.95 g/mL is 100 to 43.18 by mass', () => {
    const [a, b] = batchOf(resin, 900).parts;
    expect((b.g / a.g) * 100).toBeCloseTo(43.18, 2);
    expect(a.ml + b.ml).toBeCloseTo(900, 9);
  });

  test('a ratio by mass gives that ratio on the scales', () => {
    const byMass = { ...resin, mix: { ...resin.mix, by: 'mass' as const, a: 100, b: 40 } };
    const [a, b] = batchOf(byMass, 700).parts;
    expect(a.g / b.g).toBeCloseTo(2.5, 9);
    expect(a.ml + b.ml).toBeCloseTo(700, 9);
  });

  test('more than the largest batch is split into equal cups that each hold no more', () => {
    const batch = batchOf({ ...resin, largestBatchMl: 500 }, 1200);
    expect([batch.cups, batch.ml]).toEqual([3, 400]);
    expect(batchOf({ ...resin, largestBatchMl: 500 }, 1500).cups).toBe(3);
  });

  test('amounts are written in the size that is read off', () => {
    expect(volumeText(420.4, 'metric')).toBe('420 mL');
    expect(volumeText(1250, 'metric')).toBe('1.25 L');
    expect(massText(4.26)).toBe('4.3 g');
    expect(massText(462.4)).toBe('462 g');
  });
});

describe('steps in words', () => {
  test.each([
    ['prepare', 'prepare', 'Prepare wood and form'],
    ['seal-mix', 'mix', 'Mix the seal'],
    ['layer-2-mix', 'mix', 'Mix layer 2'],
    ['layer-2-pour', 'pour', 'Pour layer 2'],
    ['layer-1-bubbles-1', 'bubbles', 'Bubbles out of layer 1'],
    ['layer-1-bubbles-2', 'bubbles', 'Bubbles out of layer 1, pass 2'],
    ['coat-2', 'coat', 'Put on coat 2'],
    ['flip-2', 'flip', 'Flip for coat 2'],
  ] as const)('%s, a step of kind %s, is "%s"', (step, kind, title) => {
    expect(stepTitle({ step, kind })).toBe(title);
  });

  test('every step around an application leads to it', () => {
    expect(['seal-mix', 'layer-2-mix', 'layer-2-scuff', 'coat-1-mix', 'coat-1'].map(applyStepOf)).toEqual([
      'seal',
      'layer-2-pour',
      'layer-2-pour',
      'coat-1',
      'coat-1',
    ]);
  });
});
