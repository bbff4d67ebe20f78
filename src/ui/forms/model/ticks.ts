/** Where the time axis is marked, in the shop's zone and across its clock changes. */
import { DAY, HOUR, type Day, type Minute, type ZoneClock } from '../../clock/index.ts';
import { endOf, type Scale } from './scale.ts';

export interface Tick {
  readonly at: Minute;
  readonly text: string;
}

export interface Axis {
  readonly days: readonly Day[];
  /** How much of a day's name fits: all, weekday and number, number alone, or only Mondays. */
  readonly dayStyle: 'long' | 'short' | 'number' | 'monday';
  readonly hours: readonly Tick[];
}

const LEAST_HOUR_PX = 46;
const HOUR_STEPS = [1, 2, 3, 6, 12];

export const axisOf = (scale: Scale, clock: ZoneClock): Axis => {
  const days = clock.days(Math.floor(scale.from), Math.ceil(endOf(scale)));
  const dayPx = DAY / scale.minutesPerPixel;
  const step = HOUR_STEPS.find((hours) => (hours * HOUR) / scale.minutesPerPixel >= LEAST_HOUR_PX);
  return {
    days,
    dayStyle: dayPx >= 150 ? 'long' : dayPx >= 62 ? 'short' : dayPx >= 26 ? 'number' : 'monday',
    hours: step === undefined ? [] : days.flatMap((day) => hoursOf(day, step, clock)),
  };
};

const hoursOf = (day: Day, step: number, clock: ZoneClock): readonly Tick[] => {
  const ticks: Tick[] = [];
  // Stepping by the wall clock, so that 06:00 stays 06:00 on the day the clocks change.
  for (let hour = step; hour < 24; hour += step) {
    const at = day.end - day.start === DAY ? day.start + hour * HOUR : clock.at(day, hour * HOUR);
    ticks.push({ at, text: clock.time(at) });
  }
  return ticks;
};

/** The dark stretches of the days in sight, 22:00 to 06:00 on the wall. */
export const nightsOf = (days: readonly Day[], clock: ZoneClock): readonly (readonly [Minute, Minute])[] =>
  days.flatMap((day) => {
    const plain = day.end - day.start === DAY;
    const six = plain ? day.start + 6 * HOUR : clock.at(day, 6 * HOUR);
    const ten = plain ? day.start + 22 * HOUR : clock.at(day, 22 * HOUR);
    return [[day.start, six] as const, [ten, day.end] as const];
  });
