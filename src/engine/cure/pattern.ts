/** The temperature that a room usually has, day by day: a night low, a day high and, if any, heating hours. */
import type { Clock, Intervals } from '../time/index.ts';
import { dailyMinutes } from '../time/index.ts';
import type { TemperatureReading, TemperatureSeries } from './temperature.ts';
import { temperatureAt, temperatureSeries } from './temperature.ts';

const DAY = 24 * 60;

export interface Heating {
  /** When the heating is on: half-open intervals in minutes of the clock. */
  readonly open: Intervals;
  /** The room has at least this while the heating is on and warm. */
  readonly degC: number;
  /** From switched on until warm, and from switched off until as cold as without; 60 when not given. */
  readonly warmUpMinutes?: number;
}

export interface TemperaturePattern {
  readonly nightLowDegC: number;
  /** Local `HH:MM` at which it is coldest. */
  readonly nightLowAt: string;
  readonly dayHighDegC: number;
  /** Local `HH:MM` at which it is warmest. */
  readonly dayHighAt: string;
  /** Each lifts the room towards its own temperature. */
  readonly heating?: readonly Heating[];
}

/**
 * The pattern as knots of temperature from a day before `fromMinute` to a day after `horizonMinutes`: straight from
 * low to high and back, lifted towards the heating's temperature while it is on, with straight ramps.
 * @throws RangeError when low and high are at the same time of day, or a time cannot be read
 */
export function patternKnots(
  pattern: TemperaturePattern,
  clock: Clock,
  horizonMinutes: number,
  fromMinute = 0,
): TemperatureReading[] {
  if (pattern.nightLowAt === pattern.dayHighAt) {
    throw new RangeError(
      `temperature pattern: low and high are both at ${pattern.nightLowAt}; they must differ`,
    );
  }
  const daily = (time: string, degC: number): TemperatureReading[] =>
    Array.from(dailyMinutes(clock, time, fromMinute - DAY, horizonMinutes + DAY), (minute) => ({
      minute,
      degC,
    }));
  const unheated = temperatureSeries([
    ...daily(pattern.nightLowAt, pattern.nightLowDegC),
    ...daily(pattern.dayHighAt, pattern.dayHighDegC),
  ]);
  return knotsOf(
    (pattern.heating ?? []).reduce((series, heating) => temperatureSeries(heated(series, heating)), unheated),
  );
}

const knotsOf = (series: TemperatureSeries): TemperatureReading[] =>
  Array.from(series.minutes, (minute, i) => ({ minute, degC: series.degC[i] }));

function heated(unheated: TemperatureSeries, heating: Heating): TemperatureReading[] {
  const share = heatingShare(heating.open, Math.max(1, heating.warmUpMinutes ?? 60));
  if (share.length === 0) return knotsOf(unheated);
  const shares = temperatureSeries(share);
  const minutes = new Set([...unheated.minutes, ...shares.minutes, ...crossings(unheated, heating.degC)]);
  return [...minutes]
    .sort((a, b) => a - b)
    .map((minute) => {
      const base = temperatureAt(unheated, minute);
      return { minute, degC: base + temperatureAt(shares, minute) * Math.max(0, heating.degC - base) };
    });
}

/** How far the heating has come, 0 (cold) to 1 (warm), as knots: up while it is on, down while it is off. */
function heatingShare(open: Intervals, warmUp: number): { minute: number; degC: number }[] {
  const knots: { minute: number; degC: number }[] = [];
  const add = (minute: number, share: number): void => void knots.push({ minute, degC: share });
  let share = 0;
  let off = -Infinity;
  for (let i = 0; i < open.length; i += 2) {
    const [on, nextOff] = [open[i], open[i + 1]];
    const cold = off + share * warmUp;
    if (cold < on && share > 0) add(cold, 0);
    share = cold < on || share === 0 ? 0 : share - (on - off) / warmUp;
    add(on, share);
    const warm = on + (1 - share) * warmUp;
    if (warm < nextOff) add(warm, 1);
    share = Math.min(1, share + (nextOff - on) / warmUp);
    add(nextOff, share);
    off = nextOff;
  }
  if (knots.length > 0) add(off + share * warmUp, 0);
  return knots;
}

/** Minutes at which the line crosses this temperature. */
function crossings({ minutes, degC }: TemperatureSeries, level: number): number[] {
  const out: number[] = [];
  for (let i = 1; i < minutes.length; i++) {
    const [before, after] = [degC[i - 1] - level, degC[i] - level];
    if (before * after < 0)
      out.push(minutes[i - 1] + (before / (before - after)) * (minutes[i] - minutes[i - 1]));
  }
  return out;
}
