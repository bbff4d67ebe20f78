/** Recurring hours and time off, as open intervals in minutes of the clock, right across both clock changes. */
import { addDays, isDate, isTimeOfDay, localParts, minuteOfLocal, toMinute } from './clock.ts';
import type { Clock } from './clock.ts';
import { clip, subtract, tidy } from './intervals.ts';
import type { Intervals } from './intervals.ts';
import { datesOfRule, ruleFault } from './recurrence.ts';

export interface Hours {
  /** RFC 5545 RRULE for the days, like `FREQ=WEEKLY;BYDAY=MO,TU`. */
  readonly rule: string;
  /** Local `HH:MM`. */
  readonly from: string;
  /** Local `HH:MM`, up to `24:00`; at or before `from` it is meant on the next day. */
  readonly to: string;
  /** `YYYY-MM-DD`: the first day; a rule with COUNT, INTERVAL or without days counts from it. */
  readonly start?: string;
}

/** Dates, both inclusive, or local (or offset) date-times, half-open; each end may be either. */
export interface TimeOff {
  readonly from: string;
  readonly to: string;
}

/** What is wrong with these hours, in one sentence that says what would be right; null when they are fine. */
export function hoursFault(hours: Hours): string | null {
  for (const name of ['from', 'to'] as const) {
    if (!isTimeOfDay(hours[name]))
      return `${name} is "${hours[name]}"; right would be "HH:MM" from "00:00" to "24:00"`;
  }
  if (hours.from === '24:00') return 'from is "24:00"; right would be "00:00" of the day after';
  return ruleFault(hours.rule, hours.start);
}

const isAfterMidnight = (hours: Hours): boolean => hours.to <= hours.from;

/**
 * When someone is there, or a place is open.
 *
 * Hours are wall-clock times: 01:00 to 05:00 lasts three hours in the night the clocks jump ahead and five in the
 * night they are put back. An end that the clocks jump over moves ahead with them.
 * @param fromMinute the first minute asked for; may be before the epoch
 * @returns tidy intervals inside `[fromMinute, horizonMinutes)`
 * @throws RangeError naming the faulty rule or time
 */
export function openIntervals(
  hours: readonly Hours[],
  off: readonly TimeOff[],
  clock: Clock,
  horizonMinutes: number,
  fromMinute = 0,
): Intervals {
  if (horizonMinutes <= fromMinute) return new Int32Array(0);
  const first = addDays(localParts(clock, fromMinute).date, -1);
  const last = localParts(clock, horizonMinutes).date;
  const open: [number, number][] = [];
  for (const each of hours) {
    const fault = hoursFault(each);
    if (fault) throw new RangeError(`hours: ${fault}`);
    for (const date of datesOfRule(each.rule, first, last, each.start)) {
      const closing = isAfterMidnight(each) ? addDays(date, 1) : date;
      open.push([minuteOfLocal(clock, date, each.from), minuteOfLocal(clock, closing, each.to)]);
    }
  }
  return clip(
    subtract(tidy(open), tidy(off.map((each) => offMinutes(each, clock)))),
    fromMinute,
    horizonMinutes,
  );
}

function offMinutes(off: TimeOff, clock: Clock): [number, number] {
  const from = toMinute(clock, off.from);
  const to = isDate(off.to) ? toMinute(clock, addDays(off.to, 1)) : toMinute(clock, off.to);
  if (to <= from) throw new RangeError(`time off: it ends ("${off.to}") before it begins ("${off.from}")`);
  return [from, to];
}

/** The minutes in `[from, to)` at which a wall clock shows `time` (`HH:MM`), one a day, ascending. */
export function dailyMinutes(clock: Clock, time: string, from: number, to: number): Int32Array {
  const minutes: number[] = [];
  const last = localParts(clock, to).date;
  for (let date = localParts(clock, from).date; date <= last; date = addDays(date, 1)) {
    const minute = minuteOfLocal(clock, date, time);
    if (minute >= from && minute < to) minutes.push(minute);
  }
  return Int32Array.from(minutes);
}
