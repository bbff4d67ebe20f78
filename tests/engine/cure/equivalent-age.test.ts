import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ageBetween,
  constantTemperature,
  equivalentAge,
  stalls,
  temperatureSeries,
  unstalled,
} from '../../../src/engine/cure/index.ts';
import { ageBySeconds, plainTemperature, resins, rooms, SEED } from './rooms.ts';

const RESIN = { activationEnergyJPerMol: 53_000, referenceDegC: 23, lowestDegC: 12 };

describe('equivalent age', () => {
  it('agrees with a sum over every second, in any room, through stalls', () => {
    fc.assert(
      fc.property(rooms(-200, 1200), resins, (room, resin) => {
        const age = equivalentAge(room, resin, -100, 1000);
        const seconds = ageBySeconds((minute) => plainTemperature(room, minute), resin, -100, 1000);
        // The sum itself errs by up to half a second of cure at each of the (at most 18) crossings of the lowest temperature.
        const crossings = resin.lowestDegC === -Infinity ? 0 : 9 * 0.01;
        expect(Math.abs(ageBetween(age, -100, 1000) - seconds)).toBeLessThan(1e-3 + crossings);
      }),
      SEED,
    );
  });

  it('of sixty days in a garage, split at no knot or at every hour, is the same to a millionth of a minute', () => {
    const swing = Array.from({ length: 121 }, (_, i) => ({
      minute: i * 720 - 360,
      degC: i % 2 === 0 ? 4.5 : 21.25,
    }));
    const coarse = temperatureSeries(swing);
    const hours = Array.from({ length: 1441 }, (_, h) => ({
      minute: h * 60,
      degC: plainTemperature(coarse, h * 60),
    }));
    const fine = temperatureSeries([...swing, ...hours]);
    const span = 60 * 1440;
    const a = equivalentAge(coarse, RESIN, 0, span);
    const b = equivalentAge(fine, RESIN, 0, span);
    expect(Math.abs(ageBetween(a, 0, span) - ageBetween(b, 0, span))).toBeLessThan(1e-6);
  });

  it('never falls, and stands still exactly while it is too cold', () => {
    const night = temperatureSeries([
      { minute: 0, degC: 16 },
      { minute: 400, degC: 8 },
      { minute: 800, degC: 16 },
    ]);
    const age = equivalentAge(night, RESIN, 0, 1000);
    // 12 degC is passed at minute 200 and again at minute 600.
    expect([...stalls(age)]).toEqual([200, 600]);
    expect(ageBetween(age, 200, 600)).toBe(0);
    expect(ageBetween(age, 600, 601)).toBeGreaterThan(0.4);
    expect([...stalls(equivalentAge(constantTemperature(5), RESIN, 0, 90))]).toEqual([0, 90]);
    expect(age.minutes.every((value, i) => i === 0 || value >= age.minutes[i - 1])).toBe(true);
  });

  it('without relying on the stall goes on in the cold', () => {
    const cold = equivalentAge(constantTemperature(8), RESIN, 0, 100);
    expect(ageBetween(cold, 0, 100)).toBe(0);
    expect(ageBetween(unstalled(cold), 0, 100)).toBeGreaterThan(30);
    const warm = equivalentAge(constantTemperature(20), RESIN, 0, 100);
    expect(unstalled(warm)).toBe(warm);
    const evening = temperatureSeries([
      { minute: 0, degC: 20 },
      { minute: 50, degC: 20 },
      { minute: 51, degC: 8 },
    ]);
    expect(ageBetween(unstalled(equivalentAge(evening, RESIN, 0, 100)), 60, 100)).toBeGreaterThan(10);
  });

  it('is counted in whole minutes at the reference temperature, without a trace of rounding', () => {
    const age = equivalentAge(constantTemperature(23), RESIN, -60, 86_400);
    expect(ageBetween(age, -60, 86_400)).toBe(86_460);
    expect(ageBetween(age, -1000, 0)).toBe(60);
  });

  it('refuses a span that runs backwards', () => {
    expect(() => equivalentAge(constantTemperature(20), RESIN, 10, 0)).toThrow('from minute 10 to 0');
  });
});
