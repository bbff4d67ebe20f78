/**
 * How cured was it by then? Equivalent age (ASTM C1074) for the second time in this program, from the published
 * formula: the integral of exp(-(Ea/R) (1/T - 1/Tref)) over the temperature, T in kelvin, nothing below the
 * resin's lowest temperature. Simpson's rule on every minute or part of a minute in which the temperature is one
 * straight line.
 */
import type { Resin } from '../shop/index.ts';
import type { Minute } from './minutes.ts';
import type { Span } from './hours.ts';
import { degCAt, type Knot } from './temperature.ts';

/** J/(mol K), CODATA 2018. */
const GAS_CONSTANT = 8.314462618;
/** J/mol; where neither the sheet's energy nor a second point is given. */
const USUAL_ENERGY = 53_000;

/** Two ages that differ by less than this many equivalent minutes count as the same. */
export const AGE_TOLERANCE = 1e-5;

export interface Speed {
  /** Ea / R in kelvin. */
  readonly energyKelvin: number;
  readonly referenceDegC: number;
  /** Below this the cure stands still. */
  readonly lowestDegC: number;
}

const kelvin = (degC: number): number => degC + 273.15;

/** J/mol: as stated; else fitted so that the second point's tack opening is the same cure; else the usual. */
function activationEnergy(resin: Resin): number {
  if (resin.activationEnergyKJPerMol !== undefined) return resin.activationEnergyKJPerMol * 1000;
  const { secondPoint } = resin;
  if (!secondPoint) return USUAL_ENERGY;
  const ratio = resin.tackOpensMinutes / secondPoint.tackOpensMinutes;
  return (GAS_CONSTANT * Math.log(ratio)) / (1 / kelvin(resin.referenceDegC) - 1 / kelvin(secondPoint.degC));
}

/** The resin's speed; `stalls: false` for bounds that must not be overrun, since a stall is not to be relied on. */
export const speedOf = (resin: Resin, { stalls }: { readonly stalls: boolean }): Speed => ({
  energyKelvin: activationEnergy(resin) / GAS_CONSTANT,
  referenceDegC: resin.referenceDegC,
  lowestDegC: stalls ? resin.lowestDegC : Number.NEGATIVE_INFINITY,
});

const rate = (speed: Speed, degC: number): number =>
  Math.exp(-speed.energyKelvin * (1 / kelvin(degC) - 1 / kelvin(speed.referenceDegC)));

const simpson = (speed: Speed, a: number, b: number, length: number): number =>
  (length / 6) * (rate(speed, a) + 4 * rate(speed, (a + b) / 2) + rate(speed, b));

/** Equivalent minutes on a straight line of temperature from `a` to `b` degC over `length` (at most a few) minutes. */
export function ageOnLine(speed: Speed, a: number, b: number, length: number): number {
  const { lowestDegC } = speed;
  if (a >= lowestDegC && b >= lowestDegC) return simpson(speed, a, b, length);
  if (a < lowestDegC && b < lowestDegC) return 0;
  const crossing = (lowestDegC - a) / (b - a);
  return a < lowestDegC
    ? simpson(speed, lowestDegC, b, length * (1 - crossing))
    : simpson(speed, a, lowestDegC, length * crossing);
}

/** Equivalent minutes gathered from the span's first minute to each minute of it, in a room. */
export function agesInRoom(speed: Speed, knots: readonly Knot[], span: Span): Float64Array {
  const ages = new Float64Array(span.to - span.from + 1);
  let next = knots.findIndex((knot) => knot.minute > span.from);
  if (next < 0) next = knots.length;
  let age = 0;
  let at = span.from;
  let here = degCAt(knots, at);
  for (let minute = span.from + 1; minute <= span.to; minute++) {
    while (next < knots.length && knots[next].minute <= minute) {
      const knot = knots[next++];
      age += ageOnLine(speed, here, knot.degC, knot.minute - at);
      at = knot.minute;
      here = knot.degC;
    }
    if (at < minute) {
      const there = next < knots.length ? lineBetween(at, here, knots[next], minute) : here;
      age += ageOnLine(speed, here, there, minute - at);
      at = minute;
      here = there;
    }
    ages[minute - span.from] = age;
  }
  return ages;
}

const lineBetween = (at: Minute, degC: number, knot: Knot, minute: Minute): number =>
  degC + ((knot.degC - degC) * (minute - at)) / (knot.minute - at);

/** Equivalent minutes over the first `minutes` of a warm box's heating up, and then at its set temperature. */
export function ageInBox(
  speed: Speed,
  box: { readonly fromDegC: number; readonly setDegC: number; readonly heatUpMinutes: number },
  fromMinute: number,
  toMinute: number,
): number {
  const degC = (minute: number): number =>
    minute >= box.heatUpMinutes
      ? box.setDegC
      : box.fromDegC + ((box.setDegC - box.fromDegC) * minute) / box.heatUpMinutes;
  let age = 0;
  for (let minute = fromMinute; minute < toMinute; minute++)
    age += ageOnLine(speed, degC(minute), degC(minute + 1), 1);
  return age;
}
