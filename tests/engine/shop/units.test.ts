import { describe, expect, test } from 'vitest';
import {
  degCOfDegF,
  degFOfDegC,
  massText,
  ML_PER_US_FLUID_OUNCE,
  MM_PER_INCH,
  temperatureText,
  volumeText,
} from '../../../src/engine/shop/index.ts';

describe('units are exact: NIST Handbook 44, Appendix C, and NIST SP 811', () => {
  test('an inch is 25.4 mm', () => expect(MM_PER_INCH).toBe(25.4));

  test('a US fluid ounce is a 128th of a gallon of 231 cubic inches: 29.5735295625 mL', () => {
    expect(ML_PER_US_FLUID_OUNCE).toBe(29.5735295625);
    expect((231 * MM_PER_INCH ** 3) / 1000 / 128).toBeCloseTo(ML_PER_US_FLUID_OUNCE, 9);
  });

  test('212 degF is 100 degC, 32 degF is 0, and -40 is the same on both', () => {
    expect(degCOfDegF(212)).toBeCloseTo(100, 12);
    expect(degFOfDegC(0)).toBe(32);
    expect(degFOfDegC(-40)).toBe(-40);
  });
});

describe('amounts in words', () => {
  test('an ounce says whether it is of volume', () => {
    expect(volumeText(14.25 * ML_PER_US_FLUID_OUNCE, 'us')).toBe('14.25 US fl oz');
    expect(volumeText(420, 'metric')).toBe('420 mL');
    expect(volumeText(0.04, 'metric')).toBe('0 mL');
  });

  test('mass is in grams whatever the units, since scales of a shop show grams', () => {
    expect(massText(462.04)).toBe('462 g');
    expect(massText(2.85)).toBe('2.9 g');
    expect(massText(462.4, 0)).toBe('462 g');
    expect(massText(100, 0)).toBe('100 g');
  });

  test('temperatures follow the units', () => {
    expect(temperatureText(20, 'us')).toBe('68 °F');
    expect(temperatureText(18.52, 'metric')).toBe('18.5 °C');
  });
});
