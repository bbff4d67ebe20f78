/**
 * Milestones of a piece that goes into a warm box some minutes after its pour: the room's temperature until then,
 * a straight ramp to the box's while it heats up, the box's from then on.
 *
 * In the box only the ramp's first temperature differs from one start to the next. With G the integral of the rate
 * factor over temperature, a ramp from T0 towards T1 over H minutes has gathered `H/(T1-T0) (G(T)-G(T0))` by the
 * time it is at T; G is one small table, and afterwards the age grows by the same amount every minute.
 *
 * A piece poured later can be done sooner here: it meets the box from a warmer room. The maps must not fall, so they
 * are the closest monotone ones on the safe side: never earlier than the truth for what must have been reached,
 * never later for what must not be passed; and exact wherever the truth does not fall.
 */
import type { MonotoneMap } from '../schedule/model.ts';
import { NEVER } from '../schedule/model.ts';
import type { EquivalentAge } from './equivalent-age.ts';
import { AGE_TOLERANCE_MINUTES, ageOnLine, ageOnPart } from './equivalent-age.ts';
import type { Kinetics } from './kinetics.ts';
import { rateFactor } from './kinetics.ts';
import { TableMap } from './table-map.ts';
import { between } from './temperature.ts';

export interface WarmBoxClimate {
  readonly setDegC: number;
  /** Whole minutes from the room's temperature to the box's. */
  readonly heatUpMinutes: number;
}

const STEP_DEGC = 0.05;

/**
 * The integral of the rate factor from the coldest temperature in question up: nodes every `STEP_DEGC`, and between
 * them the cubic that has the right value and slope at both ends (error below 1e-11 of a degree-minute).
 */
class RateIntegral {
  private readonly coldest: number;
  private readonly value: Float64Array;
  private readonly slope: Float64Array;

  constructor(kinetics: Kinetics, coldestDegC: number, warmestDegC: number) {
    this.coldest = Math.max(coldestDegC, kinetics.lowestDegC);
    const nodes = Math.max(1, Math.ceil((warmestDegC - this.coldest) / STEP_DEGC)) + 1;
    this.value = new Float64Array(nodes);
    this.slope = new Float64Array(nodes);
    for (let i = 0; i < nodes; i++) {
      const degC = this.coldest + i * STEP_DEGC;
      this.slope[i] = rateFactor(kinetics, degC);
      if (i > 0) this.value[i] = this.value[i - 1] + ageOnLine(kinetics, degC - STEP_DEGC, degC, STEP_DEGC);
    }
  }

  until(degC: number): number {
    const steps = (degC - this.coldest) / STEP_DEGC;
    if (steps <= 0) return 0;
    const i = Math.min(Math.floor(steps), this.value.length - 2);
    const x = steps - i;
    const rise = this.value[i + 1] - this.value[i];
    const start = this.slope[i] * STEP_DEGC;
    const end = this.slope[i + 1] * STEP_DEGC;
    return this.value[i] + x * (start + x * (3 * rise - 2 * start - end + x * (start + end - 2 * rise)));
  }
}

/** The true first minute at which `needed` is gathered, for every start in the span; may fall. */
export function firstMinutes(
  age: EquivalentAge,
  box: WarmBoxClimate,
  offset: number,
  needed: number,
): Int32Array {
  const { minutes, from, to, kinetics, series } = age;
  const { setDegC, heatUpMinutes: heatUp } = box;
  const coldest = Math.min(
    setDegC,
    series.degC.reduce((a, b) => Math.min(a, b)),
  );
  const warmest = Math.max(
    setDegC,
    series.degC.reduce((a, b) => Math.max(a, b)),
  );
  const integral = new RateIntegral(kinetics, coldest, warmest);
  const boxRate = rateFactor(kinetics, setDegC);

  const onRamp = (roomDegC: number, elapsed: number): number => {
    const rise = setDegC - roomDegC;
    const degC = elapsed === heatUp ? setDegC : roomDegC + (rise * elapsed) / heatUp;
    // Close to the box's temperature the quotient would lose its digits, and the short line needs no table.
    if (Math.abs(rise) < 1) return ageOnPart(kinetics, roomDegC, degC, elapsed);
    return (heatUp / rise) * (integral.until(degC) - integral.until(roomDegC));
  };
  const inBox = (roomDegC: number, wanted: number): number => {
    const ramp = heatUp === 0 ? 0 : onRamp(roomDegC, heatUp);
    if (wanted > ramp) return boxRate === 0 ? NEVER : heatUp + Math.ceil((wanted - ramp) / boxRate);
    let low = 0;
    let high = heatUp;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (onRamp(roomDegC, middle) >= wanted) high = middle;
      else low = middle + 1;
    }
    return low;
  };

  const table = new Int32Array(minutes.length).fill(NEVER);
  let inRoom = 0;
  let knots = 0;
  for (let start = 0; start < minutes.length; start++) {
    const entry = start + offset;
    const lastInRoom = Math.min(entry, minutes.length - 1);
    if (inRoom < start) inRoom = start;
    while (inRoom < lastInRoom && minutes[inRoom] - minutes[start] < needed) inRoom++;
    if (minutes[inRoom] - minutes[start] >= needed) {
      table[start] = from + inRoom;
    } else if (entry < minutes.length) {
      while (knots < series.minutes.length && series.minutes[knots] <= from + entry) knots++;
      const roomDegC = between(series, knots, from + entry);
      const minute = from + entry + inBox(roomDegC, needed - (minutes[entry] - minutes[start]));
      if (minute <= to) table[start] = minute;
    }
  }
  return table;
}

function check(box: WarmBoxClimate, offset: number, needed: number): void {
  if (!Number.isInteger(offset) || offset < 0) {
    throw new RangeError(
      `warm box: ${offset} minutes after the pour; right would be a whole number from 0 on`,
    );
  }
  if (!Number.isInteger(box.heatUpMinutes) || box.heatUpMinutes < 0) {
    throw new RangeError(
      `warm box: heats up in ${box.heatUpMinutes} minutes; right would be a whole number from 0 on`,
    );
  }
  if (!(needed >= 0))
    throw new RangeError(`milestone: ${needed} equivalent minutes; right would be 0 or more`);
}

/**
 * As `reachMap`, for a piece that goes into the box `offsetMinutes` after its pour; never earlier than the truth.
 * @param age the room's, over a span that holds pour and milestone
 */
export function warmBoxReachMap(
  age: EquivalentAge,
  box: WarmBoxClimate,
  offsetMinutes: number,
  needed: number,
): MonotoneMap {
  check(box, offsetMinutes, needed);
  return new TableMap(age.from, () => {
    const table = firstMinutes(age, box, offsetMinutes, needed - AGE_TOLERANCE_MINUTES);
    for (let i = 1; i < table.length; i++) table[i] = Math.max(table[i], table[i - 1]);
    return table;
  });
}

/** As `lastWithinMap`, for a piece that goes into the box `offsetMinutes` after its pour; never later than the truth. */
export function warmBoxLastWithinMap(
  age: EquivalentAge,
  box: WarmBoxClimate,
  offsetMinutes: number,
  needed: number,
): MonotoneMap {
  check(box, offsetMinutes, needed);
  return new TableMap(age.from, () => {
    const table = firstMinutes(age, box, offsetMinutes, needed + AGE_TOLERANCE_MINUTES);
    for (let i = 0; i < table.length; i++) if (table[i] < NEVER) table[i]--;
    for (let i = table.length - 2; i >= 0; i--) table[i] = Math.min(table[i], table[i + 1]);
    return table;
  });
}
