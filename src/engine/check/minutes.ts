/** Whole minutes since 1970-01-01T00:00Z, the checker's only clock, and the words in which it tells a time. */
import type { Zone } from './zone.ts';

/** Whole minutes since 1970-01-01T00:00Z. */
export type Minute = number;

export const MINUTES_A_DAY = 1440;

/** Reads a time of the plan document, such as "2026-11-25T14:30+01:00". */
export const readPlanTime = (text: string): Minute => Date.parse(text) / 60_000;

const MOMENT = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2})(?::(\d{2}))?(Z|[+-]\d{2}:\d{2})?)?$/;

/** True when a moment of the shop file is a day without a clock time. */
export const isWholeDay = (text: string): boolean => text.length === 10;

/** Days since 1970-01-01 of a calendar date. */
export const dayNumber = (year: number, month: number, day: number): number =>
  Math.floor(Date.UTC(year, month - 1, day) / 86_400_000);

/**
 * Reads a moment of the shop file: with an offset, or in the shop's zone; a bare date is its first minute.
 * Seconds are cut off: the shop counts in whole minutes.
 */
export function readMoment(text: string, zone: Zone): Minute {
  const found = MOMENT.exec(text);
  if (!found) return Number.NaN;
  const [, year, month, day, hour, minute, , offset] = found;
  if (offset) return Math.floor(Date.parse(text) / 60_000);
  const date = dayNumber(Number(year), Number(month), Number(day));
  return zone.fromLocal(date * MINUTES_A_DAY + Number(hour ?? 0) * 60 + Number(minute ?? 0));
}

/** The minute by which something due is to be ready: a bare date means the end of that day. */
export function readDeadline(text: string, zone: Zone): Minute {
  const found = MOMENT.exec(text);
  if (!found || found[4] !== undefined) return readMoment(text, zone);
  const [, year, month, day] = found;
  return zone.fromLocal((dayNumber(Number(year), Number(month), Number(day)) + 1) * MINUTES_A_DAY);
}

/** Minutes after midnight of a clock time "07:30"; "24:00" is 1440. */
export const clockMinutes = (clock: string): number =>
  Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** 0 for Monday to 6 for Sunday. */
export const weekdayOf = (day: number): number => (((day + 3) % 7) + 7) % 7;

/** A moment as a person reads it in the shop: "Thu 2026-11-26 03:10"; a plan may say something that is none. */
export function sayTime(at: Minute, zone: Zone): string {
  if (!Number.isFinite(at)) return 'at no time';
  const local = zone.toLocal(at);
  const day = Math.floor(local / MINUTES_A_DAY);
  const iso = new Date(local * 60_000).toISOString();
  return `${WEEKDAYS[weekdayOf(day)]} ${iso.slice(0, 10)} ${iso.slice(11, 16)}`;
}
