import { describe, expect, it } from 'vitest';
import { dewPointDegC, dewPointMarginK, equilibriumMoisturePercent } from '../../../src/engine/cure/index.ts';

const degCOf = (degF: number): number => (degF - 32) / 1.8;

describe('dew point', () => {
  // Magnus form of Alduchov and Eskridge 1996, J. Appl. Meteorol. 35:601-609.
  it.each([
    [20, 50, 9.26],
    [20, 80, 16.44],
    [25, 50, 13.86],
    [25, 60, 16.7],
    [30, 60, 21.39],
    [10, 70, 4.78],
    [15, 65, 8.47],
  ])('of air at %i degC and %i %% is %f degC (Alduchov and Eskridge 1996)', (degC, percent, dewPoint) => {
    expect(dewPointDegC(degC, percent / 100)).toBeCloseTo(dewPoint, 2);
  });

  // Saturated at 5 degC 872.6 Pa, at 25 degC 3169.7 Pa: ASHRAE Handbook Fundamentals 2017, ch. 1, Table 3, as quoted in the tests of psychrometrics/psychrolib.
  it('of air at 25 degC and 27.53 % is 5.0 degC (ASHRAE)', () => {
    expect(dewPointDegC(25, 0.2753)).toBeCloseTo(5, 1);
  });

  it('of saturated air is its own temperature, and a surface 3 K above it has that margin', () => {
    expect(dewPointDegC(18, 1)).toBeCloseTo(18, 12);
    expect(dewPointMarginK(dewPointDegC(18, 0.6) + 3, 18, 0.6)).toBeCloseTo(3, 12);
    expect(() => dewPointDegC(20, 55)).toThrow('relative humidity: 55; right would be a fraction');
    expect(() => dewPointDegC(20, 0)).toThrow('relative humidity: 0');
  });
});

describe('equilibrium moisture content of wood', () => {
  // USDA Forest Products Laboratory, Wood Handbook FPL-GTR-190 (2010), Table 4-2.
  it.each([
    [70, 20, 4.5],
    [70, 35, 6.9],
    [70, 50, 9.2],
    [70, 65, 12.0],
    [70, 80, 16.0],
    [70, 90, 20.5],
    [30, 50, 9.5],
  ])('at %i degF and %i %% is %f %% (Wood Handbook, Table 4-2)', (degF, percent, moisture) => {
    expect(Math.abs(equilibriumMoisturePercent(degCOf(degF), percent / 100) - moisture)).toBeLessThanOrEqual(
      0.0501,
    );
  });

  // Simpson, FPL-RN-0268 (1998), the same equation in degC.
  it('at 20 degC and 50 % is 9.27 % (Simpson 1998, the equation in degC)', () => {
    expect(equilibriumMoisturePercent(20, 0.5)).toBeCloseTo(9.2711, 1);
  });
  it('is nothing in air without water', () => {
    expect(equilibriumMoisturePercent(20, 0)).toBe(0);
    expect(() => equilibriumMoisturePercent(20, 50)).toThrow('right would be a fraction');
  });
});
