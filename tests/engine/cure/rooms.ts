/** Rooms and resins for the tests of cure, and the plain arithmetic that they are held against. */
import * as fc from 'fast-check';
import { temperatureSeries } from '../../../src/engine/cure/index.ts';
import type { Kinetics, TemperatureReading, TemperatureSeries } from '../../../src/engine/cure/index.ts';

export const SEED = { seed: 20261126, numRuns: 60 };

const reading = (from: number, to: number): fc.Arbitrary<TemperatureReading> =>
  fc.record({
    minute: fc.integer({ min: from, max: to }),
    degC: fc.double({ min: 2, max: 38, noNaN: true }),
  });

/** A room of up to nine knots anywhere from `from` to `to`. */
export const rooms = (from: number, to: number): fc.Arbitrary<TemperatureSeries> =>
  fc.array(reading(from, to), { minLength: 1, maxLength: 9 }).map(temperatureSeries);

export const resins: fc.Arbitrary<Kinetics> = fc.record({
  activationEnergyJPerMol: fc.double({ min: 43_000, max: 60_000, noNaN: true }),
  referenceDegC: fc.double({ min: 20, max: 25, noNaN: true }),
  lowestDegC: fc.constantFrom(-Infinity, 10, 15),
});

/** The room's temperature, written a second time: the knots around the minute, looked for one by one. */
export function plainTemperature({ minutes, degC }: TemperatureSeries, minute: number): number {
  if (minute <= minutes[0]) return degC[0];
  for (let i = 1; i < minutes.length; i++) {
    if (minute <= minutes[i]) {
      return (
        degC[i - 1] + ((degC[i] - degC[i - 1]) * (minute - minutes[i - 1])) / (minutes[i] - minutes[i - 1])
      );
    }
  }
  return degC[degC.length - 1];
}

/** The rate factor, written a second time, with the value of the gas constant (CODATA 2018). */
export function plainRate(kinetics: Kinetics, degC: number): number {
  if (degC < kinetics.lowestDegC) return 0;
  const exponent =
    (kinetics.activationEnergyJPerMol / 8.314462618) *
    (1 / (kinetics.referenceDegC + 273.15) - 1 / (degC + 273.15));
  return Math.exp(exponent);
}

/** Equivalent minutes by the midpoint of every second. */
export function ageBySeconds(
  temperature: (minute: number) => number,
  kinetics: Kinetics,
  from: number,
  to: number,
): number {
  let sum = 0;
  for (let second = 0; second < (to - from) * 60; second++) {
    sum += plainRate(kinetics, temperature(from + (second + 0.5) / 60)) / 60;
  }
  return sum;
}
