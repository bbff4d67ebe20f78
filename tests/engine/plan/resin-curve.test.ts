/** A resin's times against temperature, held to values computed from the published equation. */
import { describe, expect, test } from 'vitest';
import { resinCurve } from '../../../src/engine/plan/resin-curve.ts';
import { parseShop, type Resin } from '../../../src/engine/shop/index.ts';
import eveningBoard from '../../../examples/evening-board.shop.json?raw';

const slow = (change: Partial<Resin> = {}): Resin => {
  const read = parseShop(eveningBoard);
  if (!read.ok) throw new Error('the example cannot be read');
  return { ...read.shop.resins[0], ...change };
};

describe('a resin against temperature', () => {
  test('at its reference temperature it has the times of its sheet', () => {
    const [at] = resinCurve(slow(), [23]);
    expect(at).toEqual({
      degC: 23,
      pourByMinutes: 90,
      opensMinutes: 1440,
      closesMinutes: 2400,
      demoldMinutes: 4320,
      fullCureMinutes: 10_080,
    });
  });

  test('it cures at 0.550137 of its speed at 15 degC and 1.075124 at 24 degC', () => {
    // Computed from ASTM C1074's equation for 53 kJ/mol and 23 degC, gas constant of CODATA 2018.
    const [cold, warm] = resinCurve(slow(), [15, 24]);
    expect(cold.opensMinutes).toBeCloseTo(1440 / 0.550137, 1);
    expect(warm.demoldMinutes).toBeCloseTo(4320 / 1.075124, 1);
  });

  test('a second published time fixes the speed: it is met exactly', () => {
    const [at] = resinCurve(
      slow({ activationEnergyKJPerMol: undefined, secondPoint: { degC: 18, tackOpensMinutes: 2100 } }),
      [18],
    );
    expect(at.opensMinutes).toBeCloseTo(2100, 6);
  });

  test('below its lowest temperature nothing is reached, but a window still may close', () => {
    const [at] = resinCurve(slow(), [10]);
    expect(at.opensMinutes).toBeNull();
    expect(at.demoldMinutes).toBeNull();
    expect(at.closesMinutes).toBeGreaterThan(2400);
  });
});
