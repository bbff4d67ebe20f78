/**
 * One clock: whole minutes since the plan's epoch, UTC underneath, read and written in the shop's zone.
 *
 * How a local time without offset is read (RFC 5545 section 3.3.5 says the same): a time that does not exist,
 * because the clocks jumped over it, is moved forward by the jump; a time that occurs twice is the first of the
 * two. The offset is settled here and not left to luxon, whose choice between two offsets depends on today's date.
 */
import { DateTime, FixedOffsetZone, IANAZone } from 'luxon';
import { offsetMinutes } from './offsets.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;
/** Names of days and months are written in one language, whatever machine runs this. */
const LOCALE = 'en-US';

export interface Clock {
  /** Milliseconds since 1970-01-01T00:00Z of minute 0; a whole minute. */
  readonly epochMs: number;
  /** IANA name, like `Europe/Berlin`. */
  readonly zone: string;
}

export interface LocalParts {
  /** `YYYY-MM-DD` */
  readonly date: string;
  /** `HH:MM`, 00:00 to 23:59 */
  readonly time: string;
  /** 1 Monday to 7 Sunday (ISO 8601). */
  readonly weekday: number;
}

const TIMESTAMP = /^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?(Z|[+-]\d{2}:?\d{2})?)?$/i;
const DATE = /^\d{4}-\d{2}-\d{2}$/;
const TIME = /^(?:[01]\d|2[0-3]):[0-5]\d$|^24:00$/;

function zoneOf(name: string): IANAZone {
  const zone = IANAZone.create(name);
  if (!zone.isValid) {
    throw new RangeError(
      `zone: "${name}" is not an IANA time zone; right would be a name like "America/New_York"`,
    );
  }
  return zone;
}

export const isZone = (name: string): boolean => IANAZone.isValidZone(name);
export const isDate = (text: string): boolean =>
  DATE.test(text) && DateTime.fromISO(text, { zone: 'utc' }).isValid;
/** `HH:MM`, 00:00 to 24:00. */
export const isTimeOfDay = (text: string): boolean => TIME.test(text);

/** What was read of late: a shop's few thousand times are read again with every plan. */
const read = new Map<string, number>();
const MOST_READ = 20_000;

/** Milliseconds since 1970 of a wall clock's reading, as if it hung in Greenwich; of the moment where it has an offset. */
function floatingMs(text: string, what: string): number {
  let ms = read.get(text);
  if (ms === undefined) {
    if (read.size >= MOST_READ) read.clear();
    read.set(text, (ms = readFloating(text, what)));
  }
  return ms;
}

function readFloating(text: string, what: string): number {
  const found = DateTime.fromISO(text.replace(' ', 'T'), { zone: 'utc' });
  if (!found.isValid) {
    throw new RangeError(
      `${what}: "${text}" is not on the calendar; right would be a date like "2026-11-26"`,
    );
  }
  return found.toMillis();
}

/** The moment at which a wall clock in the zone shows this reading; see the head of this file. */
function resolveLocal(floating: number, zone: IANAZone): number {
  const before = offsetMinutes(zone, floating - DAY_MS) * MINUTE_MS;
  const after = offsetMinutes(zone, floating + DAY_MS) * MINUTE_MS;
  const first = floating - before;
  if (before === after || offsetMinutes(zone, first) * MINUTE_MS === before) return first;
  const second = floating - after;
  return offsetMinutes(zone, second) * MINUTE_MS === after ? second : first;
}

function parseMs(text: string, zone: IANAZone): number {
  const match = TIMESTAMP.exec(text);
  if (!match) {
    throw new RangeError(
      `time: "${text}" cannot be read; right would be "2026-11-26T14:20", with or without an offset like "-05:00" or "Z"`,
    );
  }
  const offset = match[1];
  return offset === undefined ? resolveLocal(floatingMs(text, 'time'), zone) : floatingMs(text, 'time');
}

/**
 * A clock that counts from `epoch` (an ISO date or time; without offset read in the zone; seconds are dropped).
 * @throws RangeError for an unknown zone or an unreadable epoch.
 */
export function makeClock(zone: string, epoch: string): Clock {
  const known = zoneOf(zone);
  return { epochMs: Math.floor(parseMs(epoch, known) / MINUTE_MS) * MINUTE_MS, zone };
}

/** A clock whose minute 0 is the whole minute at or before `ms` (milliseconds since 1970-01-01T00:00Z). */
export function clockAt(zone: string, ms: number): Clock {
  zoneOf(zone);
  return { epochMs: Math.floor(ms / MINUTE_MS) * MINUTE_MS, zone };
}

/**
 * The whole minute that holds the given ISO date or time (seconds are dropped). With an offset or `Z` it is that
 * moment; without, it is read in the clock's zone as the head of this file says; a bare date is its midnight.
 * @throws RangeError when the text is no such time.
 */
export function toMinute(clock: Clock, text: string): number {
  return Math.floor((parseMs(text, zoneOf(clock.zone)) - clock.epochMs) / MINUTE_MS);
}

/**
 * The minute by which something due at `text` has to be ready: as `toMinute`, but a bare date means the end of that
 * day, as people mean it.
 */
export const toDeadline = (clock: Clock, text: string): number =>
  DATE.test(text) ? minuteOfLocal(clock, text, '24:00') : toMinute(clock, text);

/** The minute at which a wall clock shows `time` (`HH:MM`, 24:00 is the next midnight) on `date` (`YYYY-MM-DD`). */
export function minuteOfLocal(clock: Clock, date: string, time: string): number {
  if (!DATE.test(date)) throw new RangeError(`date: "${date}" cannot be read; right would be "2026-11-26"`);
  if (!TIME.test(time)) {
    throw new RangeError(
      `time of day: "${time}" cannot be read; right would be "HH:MM" from "00:00" to "24:00"`,
    );
  }
  const floating = floatingMs(date, 'date') + minutesOfDay(time) * MINUTE_MS;
  return Math.floor((resolveLocal(floating, zoneOf(clock.zone)) - clock.epochMs) / MINUTE_MS);
}

/** Minutes on the dial since 00:00 of an `HH:MM`. */
export const minutesOfDay = (time: string): number =>
  Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

/** For libraries that read luxon's own times; everything else has `toIso` and its like. */
export const luxonTime = (clock: Clock, minute: number): DateTime => dateTime(clock, minute);

/** How far local time is ahead of UTC, minutes; it changes with the clocks. */
export const utcOffsetMinutes = (clock: Clock, minute: number): number =>
  offsetMinutes(zoneOf(clock.zone), clock.epochMs + minute * MINUTE_MS);

function dateTime(clock: Clock, minute: number): DateTime {
  return DateTime.fromMillis(clock.epochMs + minute * MINUTE_MS, {
    zone: zoneOf(clock.zone),
    locale: LOCALE,
  });
}

/** A wall clock's reading at the minute, `YYYY-MM-DDTHH:MM`. */
function reading(clock: Clock, minute: number): string {
  const ahead = utcOffsetMinutes(clock, minute);
  return new Date(clock.epochMs + (minute + ahead) * MINUTE_MS).toISOString().slice(0, 16);
}

/** ISO 8601 to the minute with the zone's offset, like `2026-11-26T14:20-05:00`; UTC has `Z`. */
export function toIso(clock: Clock, minute: number): string {
  const ahead = utcOffsetMinutes(clock, minute);
  if (ahead === 0) return `${reading(clock, minute)}Z`;
  return reading(clock, minute) + FixedOffsetZone.instance(ahead).formatOffset(0, 'short');
}

export function localParts(clock: Clock, minute: number): LocalParts {
  const at = reading(clock, minute);
  const date = at.slice(0, 10);
  // 0 is Sunday there, 7 in ISO 8601.
  return { date, time: at.slice(11), weekday: new Date(`${date}T00:00Z`).getUTCDay() || 7 };
}

/** The date `days` later (earlier if negative) on the calendar. */
export const addDays = (date: string, days: number): string =>
  new Date(floatingMs(date, 'date') + days * DAY_MS).toISOString().slice(0, 10);

/** `Thu 26 Nov 14:20`, for people; with its year in another one than that of the clock's epoch. */
export const formatMoment = (clock: Clock, minute: number): string =>
  `${formatDay(clock, minute)} ${formatTime(clock, minute)}`;

/** `Thu 26 Nov`, for people; `Sat 2 Jan 2027` in another year than that of the clock's epoch. */
export function formatDay(clock: Clock, minute: number): string {
  const day = dateTime(clock, minute);
  return day.toFormat(day.year === dateTime(clock, 0).year ? 'ccc d LLL' : 'ccc d LLL yyyy');
}

/** `14:20`, for people. */
export const formatTime = (clock: Clock, minute: number): string => localParts(clock, minute).time;

/** `3 d 4 h`, `4 h 20 min`, `35 min`: the two largest parts at most, minutes dropped from two days on. */
export function formatDuration(minutes: number): string {
  const sign = minutes < 0 ? '-' : '';
  const whole = Math.round(Math.abs(minutes));
  const days = whole >= 48 * 60 ? Math.floor(whole / 1440) : 0;
  const hours = Math.floor((whole - days * 1440) / 60);
  const rest = days > 0 ? 0 : whole % 60;
  const parts = [
    ...(days > 0 ? [`${days} d`] : []),
    ...(hours > 0 ? [`${hours} h`] : []),
    ...(rest > 0 ? [`${rest} min`] : []),
  ];
  return parts.length === 0 ? '0 min' : sign + parts.join(' ');
}
