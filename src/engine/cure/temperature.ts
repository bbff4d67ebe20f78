/** A room's temperature over time: knots joined by straight lines, constant before the first and after the last. */

export interface TemperatureReading {
  /** Minute of the clock; may be a fraction. */
  readonly minute: number;
  readonly degC: number;
}

export interface TemperatureSeries {
  /** Strictly ascending; at least one. */
  readonly minutes: Float64Array;
  readonly degC: Float64Array;
}

/** Readings more than this apart do not speak for the time between them; the next best source does. */
export const LONGEST_GAP_MINUTES = 12 * 60;

/**
 * A series through these readings, in any order; of several at one minute the last given counts.
 * @throws RangeError when there is none, or one is not a finite number
 */
export function temperatureSeries(readings: readonly TemperatureReading[]): TemperatureSeries {
  if (readings.length === 0) throw new RangeError('temperature: no reading at all; at least one is needed');
  const byMinute = new Map<number, number>();
  for (const { minute, degC } of readings) {
    if (!Number.isFinite(minute) || !Number.isFinite(degC) || degC <= -273.15) {
      throw new RangeError(
        `temperature: ${degC} degC at minute ${minute}; both must be numbers, above -273.15 degC`,
      );
    }
    byMinute.set(minute, degC);
  }
  const sorted = [...byMinute].sort((a, b) => a[0] - b[0]);
  return {
    minutes: Float64Array.from(sorted, ([minute]) => minute),
    degC: Float64Array.from(sorted, ([, degC]) => degC),
  };
}

export const constantTemperature = (degC: number): TemperatureSeries =>
  temperatureSeries([{ minute: 0, degC }]);

/** How many knots lie at or before the minute. */
export function knotsUntil(series: TemperatureSeries, minute: number): number {
  let low = 0;
  let high = series.minutes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (series.minutes[middle] <= minute) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** degC at the minute, given `knotsUntil(series, minute)`. */
export function between(series: TemperatureSeries, knots: number, minute: number): number {
  const { minutes, degC } = series;
  if (knots === 0) return degC[0];
  if (knots === minutes.length) return degC[knots - 1];
  const share = (minute - minutes[knots - 1]) / (minutes[knots] - minutes[knots - 1]);
  return degC[knots - 1] + share * (degC[knots] - degC[knots - 1]);
}

/** degC at the minute. */
export const temperatureAt = (series: TemperatureSeries, minute: number): number =>
  between(series, knotsUntil(series, minute), minute);

export interface RoomReadings {
  readonly measured?: readonly TemperatureReading[];
  readonly forecast?: readonly TemperatureReading[];
  /** The knots of `patternKnots`. */
  readonly pattern?: readonly TemperatureReading[];
}

/**
 * The room's temperature from all that is known of it. What was measured beats what is forecast, and that beats
 * the pattern: inside the span of a better source the knots of a lesser one are left out, and where one source ends
 * the line runs on to the next knot of the other. A stretch of more than `LONGEST_GAP_MINUTES` without a
 * measurement is no part of the measured span.
 * @throws RangeError when nothing at all is known
 */
export function roomTemperature({
  measured = [],
  forecast = [],
  pattern = [],
}: RoomReadings): TemperatureSeries {
  const expected = overlay(forecast, pattern, Infinity);
  return temperatureSeries(overlay(measured, expected, LONGEST_GAP_MINUTES));
}

function overlay(
  better: readonly TemperatureReading[],
  lesser: readonly TemperatureReading[],
  longestGap: number,
): readonly TemperatureReading[] {
  if (better.length === 0) return lesser;
  const { minutes } = temperatureSeries(better);
  const kept = lesser.filter(({ minute }) => {
    const after = minutes.findIndex((each) => each >= minute);
    if (after < 0) return true;
    if (minutes[after] === minute) return false;
    return after === 0 || minutes[after] - minutes[after - 1] > longestGap;
  });
  return [...kept, ...better];
}
