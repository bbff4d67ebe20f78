import { describe, expect, test } from 'vitest';
import {
  avoirdupoisOuncesOfG,
  CUBIC_INCHES_PER_US_FLUID_OUNCE,
  degCOfDegF,
  degFOfDegC,
  G_PER_AVOIRDUPOIS_OUNCE,
  gOfAvoirdupoisOunces,
  inchesOfMm,
  lengthText,
  massText,
  ML_PER_US_FLUID_OUNCE,
  ML_PER_US_GALLON,
  mlOfUsFluidOunces,
  MM_PER_INCH,
  mmOfInches,
  temperatureText,
  usFluidOuncesOfMl,
  volumeText,
} from '../../../src/engine/shop/index.ts';

describe('units are exact: NIST Handbook 44, Appendix C, and NIST SP 811', () => {
  test('an inch is 25.4 mm', () => expect(MM_PER_INCH).toBe(25.4));

  test('a US gallon is 231 cubic inches, which is 3.785411784 L', () => {
    expect(ML_PER_US_GALLON).toBe(3785.411784);
    expect((231 * MM_PER_INCH ** 3) / 1000).toBeCloseTo(ML_PER_US_GALLON, 9);
  });

  test('a US fluid ounce is a 128th of it: 29.5735295625 mL, 1.8046875 cubic inches', () => {
    expect(ML_PER_US_FLUID_OUNCE).toBe(29.5735295625);
    expect(ML_PER_US_FLUID_OUNCE * 128).toBe(ML_PER_US_GALLON);
    expect(CUBIC_INCHES_PER_US_FLUID_OUNCE).toBe(231 / 128);
  });

  test('an avoirdupois ounce is 28.349523125 g, a sixteenth of 453.59237 g', () => {
    expect(G_PER_AVOIRDUPOIS_OUNCE).toBe(28.349523125);
    expect(G_PER_AVOIRDUPOIS_OUNCE * 16).toBeCloseTo(453.59237, 12);
  });

  test('212 degF is 100 degC, 32 degF is 0, and -40 is the same on both', () => {
    expect(degCOfDegF(212)).toBeCloseTo(100, 12);
    expect(degFOfDegC(0)).toBe(32);
    expect(degFOfDegC(-40)).toBe(-40);
  });

  test('an amount comes back as it went', () => {
    expect(usFluidOuncesOfMl(mlOfUsFluidOunces(30))).toBeCloseTo(30, 12);
    expect(avoirdupoisOuncesOfG(gOfAvoirdupoisOunces(7))).toBeCloseTo(7, 12);
    expect(inchesOfMm(mmOfInches(0.5))).toBeCloseTo(0.5, 12);
  });
});

describe('amounts in words', () => {
  test('an ounce says whether it is of volume', () => {
    expect(volumeText(mlOfUsFluidOunces(14.25), 'us')).toBe('14.25 US fl oz');
    expect(volumeText(420, 'metric')).toBe('420 mL');
    expect(volumeText(0.04, 'metric')).toBe('0 mL');
  });

  test('mass is in grams whatever the units, since scales of a shop show grams', () => {
    expect(massText(462.04)).toBe('462 g');
    expect(massText(2.85)).toBe('2.9 g');
    expect(massText(462.4, 0)).toBe('462 g');
    expect(massText(100, 0)).toBe('100 g');
  });

  test('lengths and temperatures follow the units', () => {
    expect(lengthText(12.7, 'us')).toBe('0.5 in');
    expect(lengthText(12, 'metric')).toBe('12 mm');
    expect(temperatureText(20, 'us')).toBe('68 °F');
    expect(temperatureText(18.52, 'metric')).toBe('18.5 °C');
  });
});
