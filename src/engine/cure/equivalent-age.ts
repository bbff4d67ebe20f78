/**
 * Equivalent age (ASTM C1074's term): the minutes at the reference temperature that give the same cure, as the
 * integral of the rate factor over the room's temperature.
 *
 * One sum per minute, so that the age of a piece between any two minutes is one subtraction. Every stretch between
 * two minutes is cut where the temperature bends or crosses the lowest temperature; on each part the integrand is
 * smooth and three Gauss-Legendre points leave an error of (change of ln k)^6 / 2,016,000 of the part: below 1e-12
 * for a room that changes by ten degrees an hour.
 */
import type { Kinetics } from './kinetics.ts';
import { rateFactor, withoutStall } from './kinetics.ts';
import type { TemperatureSeries } from './temperature.ts';
import { between, knotsUntil } from './temperature.ts';

/** Ages this close (60 microseconds of cure) count as equal: rounding must not cost a whole minute. */
export const AGE_TOLERANCE_MINUTES = 1e-6;

export interface EquivalentAge {
  readonly series: TemperatureSeries;
  readonly kinetics: Kinetics;
  /** First and last minute of `minutes`. */
  readonly from: number;
  readonly to: number;
  /** Equivalent minutes gathered from `from` until minute `from + i`; `to - from + 1` values, non-decreasing. */
  readonly minutes: Float64Array;
}

/** Gauss-Legendre with three points on the straight line from `fromDegC` to `toDegC`, `length` minutes long. */
export function ageOnLine(kinetics: Kinetics, fromDegC: number, toDegC: number, length: number): number {
  if (fromDegC === toDegC) return rateFactor(kinetics, fromDegC) * length;
  const middle = (fromDegC + toDegC) / 2;
  const reach = ((toDegC - fromDegC) / 2) * Math.sqrt(0.6);
  const sides = rateFactor(kinetics, middle - reach) + rateFactor(kinetics, middle + reach);
  return ((5 * sides + 8 * rateFactor(kinetics, middle)) / 18) * length;
}

/** As `ageOnLine`, for a line that may cross the lowest temperature. */
export function ageOnPart(kinetics: Kinetics, fromDegC: number, toDegC: number, length: number): number {
  const lowest = kinetics.lowestDegC;
  if (fromDegC >= lowest === toDegC >= lowest) return ageOnLine(kinetics, fromDegC, toDegC, length);
  const share = (lowest - fromDegC) / (toDegC - fromDegC);
  return fromDegC < lowest
    ? ageOnLine(kinetics, lowest, toDegC, (1 - share) * length)
    : ageOnLine(kinetics, fromDegC, lowest, share * length);
}

/**
 * The equivalent age that a resin gathers in a room, minute by minute over `[from, to]` (whole minutes; `from` may
 * lie before the epoch, for what was poured before now).
 * @throws RangeError when `to` is before `from`
 */
export function equivalentAge(
  series: TemperatureSeries,
  kinetics: Kinetics,
  from: number,
  to: number,
): EquivalentAge {
  if (!Number.isInteger(from) || !Number.isInteger(to) || to < from) {
    throw new RangeError(
      `equivalent age: from minute ${from} to ${to}; right would be whole minutes, ascending`,
    );
  }
  const minutes = new Float64Array(to - from + 1);
  let knots = knotsUntil(series, from);
  let position = from;
  let degC = between(series, knots, from);
  let age = 0;
  for (let end = from + 1; end <= to; end++) {
    while (position < end) {
      const nextKnot = knots < series.minutes.length ? series.minutes[knots] : Infinity;
      const next = Math.min(end, nextKnot);
      const nextDegC = next === nextKnot ? series.degC[knots] : between(series, knots, next);
      age += ageOnPart(kinetics, degC, nextDegC, next - position);
      if (next === nextKnot) knots++;
      position = next;
      degC = nextDegC;
    }
    minutes[end - from] = age;
  }
  return { series, kinetics, from, to, minutes };
}

/** Equivalent minutes gathered between two minutes; outside of the known span nothing is gathered. */
export function ageBetween(age: EquivalentAge, from: number, to: number): number {
  const index = (minute: number): number => Math.min(Math.max(minute, age.from), age.to) - age.from;
  return age.minutes[index(to)] - age.minutes[index(from)];
}

const unstalledOf = new WeakMap<EquivalentAge, EquivalentAge>();

/** The same room and resin, taken as never stalling (see `withoutStall`); the same object where that is no change. */
export function unstalled(age: EquivalentAge): EquivalentAge {
  if (age.series.degC.every((degC) => degC >= age.kinetics.lowestDegC)) return age;
  let found = unstalledOf.get(age);
  if (!found) {
    found = equivalentAge(age.series, withoutStall(age.kinetics), age.from, age.to);
    unstalledOf.set(age, found);
  }
  return found;
}

const stallsOf = new WeakMap<EquivalentAge, Int32Array>();

/** The stretches `[from0, to0, ...]` of whole minutes in which the cure stands still because it is too cold. */
export function stalls(age: EquivalentAge): Int32Array {
  let found = stallsOf.get(age);
  if (!found) stallsOf.set(age, (found = findStalls(age)));
  return found;
}

function findStalls({ minutes, from, to }: EquivalentAge): Int32Array {
  const out: number[] = [];
  for (let i = 1; i < minutes.length; i++) {
    const still = minutes[i] === minutes[i - 1];
    if (still !== (out.length % 2 === 1)) out.push(from + i - 1);
  }
  if (out.length % 2 === 1) out.push(to);
  return Int32Array.from(out);
}
