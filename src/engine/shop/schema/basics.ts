/**
 * The small building blocks of the shop file: names, numbers with units, local times and hands-on work.
 * Every number carries its unit in its key; the file is stored metric whatever the screen shows.
 */
import * as v from 'valibot';
import { isDate } from '../../time/index.ts';

/** Makes a parsed type deeply immutable. */
export type Frozen<T> = T extends readonly (infer U)[]
  ? readonly Frozen<U>[]
  : T extends object
    ? { readonly [K in keyof T]: Frozen<T[K]> }
    : T;

/** A short name by which other parts of the file refer to this one. */
export const id = v.pipe(
  v.string('must be a short name in quotes, such as "oak-tray"'),
  v.regex(/^[a-z0-9][a-z0-9-]*$/, 'must use small letters, digits and hyphens only, such as "oak-tray"'),
  v.maxLength(60, 'must be 60 characters at most'),
);

export const text = v.pipe(
  v.string('must be text in quotes'),
  v.nonEmpty('must not be empty'),
  v.maxLength(400, 'must be 400 characters at most'),
);

const number = v.pipe(v.number('must be a number, without quotes'), v.finite('must be a finite number'));

/** A number from `least` to `most` in `unit`. */
export const between = (least: number, most: number, unit: string) =>
  v.pipe(
    number,
    v.minValue(least, `must be at least ${least} ${unit}`),
    v.maxValue(most, `must be at most ${most} ${unit}`),
  );

/** A whole number from `least` to `most` of `what`. */
export const whole = (least: number, most: number, what: string) =>
  v.pipe(between(least, most, what), v.integer(`must be a whole number of ${what}`));

export const minutes = whole(0, 527_040, 'minutes');
export const someMinutes = whole(1, 527_040, 'minutes');
export const lengthMm = between(1, 20_000, 'mm');
export const depthMm = between(0.1, 500, 'mm');
export const degC = between(-40, 90, 'degC');
export const percent = between(0, 100, '%');
/** An amount in the shop's own money; nothing here knows which. */
export const money = between(0, 10_000_000, "of the shop's money");

/** `2026-11-25`, or `2026-11-25T14:30` in the shop's zone, or with an offset such as `Z` or `+01:00`. */
export const moment = v.pipe(
  v.string('must be a date and time in quotes, such as "2026-11-25T14:30"'),
  v.regex(
    /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?(Z|[+-](0\d|1[0-4]):[0-5]\d)?)?$/,
    'must be a date such as "2026-11-25" or a date and time such as "2026-11-25T14:30"',
  ),
  v.check((text) => isDate(text.slice(0, 10)), 'must be a day that the calendar has'),
);

/** A clock time of the shop's zone, `HH:MM`; `24:00` is the end of the day. */
export const clockTime = v.pipe(
  v.string('must be a clock time in quotes, such as "07:30"'),
  v.regex(
    /^(([01]\d|2[0-3]):[0-5]\d|24:00)$/,
    'must be a clock time from "00:00" to "24:00", such as "07:30"',
  ),
);

/**
 * Hours that come again: an RFC 5545 recurrence rule gives the days, `from` and `to` the clock times.
 * `to` at or before `from` means the next day.
 */
export const recurringHours = v.strictObject({
  rule: v.pipe(
    v.string('must be a recurrence rule in quotes, such as "FREQ=WEEKLY;BYDAY=MO,TU"'),
    v.regex(
      /^FREQ=[A-Z]+(;[A-Z]+=[A-Z0-9,+-]+)*$/,
      'must be an RFC 5545 rule such as "FREQ=WEEKLY;BYDAY=MO,TU"',
    ),
  ),
  from: clockTime,
  to: clockTime,
  /** First local day on which the rule counts (its DTSTART); matters for INTERVAL and COUNT. */
  start: v.optional(
    v.pipe(
      v.string('must be a date in quotes, such as "2026-11-25"'),
      v.isoDate('must be a date such as "2026-11-25"'),
      v.check(isDate, 'must be a day that the calendar has'),
    ),
    '2026-01-05',
  ),
});

/** A closure: days (both included) or moments (half-open). */
export const timeOff = v.strictObject({ from: moment, to: moment, why: v.optional(text) });

/** Hands-on work: fixed minutes plus minutes for every square metre of the piece; `hands` people at once. */
export const work = v.strictObject({
  minutes: v.optional(between(0, 6_000, 'minutes'), 0),
  minutesPerM2: v.optional(between(0, 6_000, 'minutes per square metre'), 0),
  hands: v.optional(whole(1, 6, 'people'), 1),
});
