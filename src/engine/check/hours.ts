/** Which minutes someone is there: one mark a minute, filled day by day from the recurrence rules. */
import type { RecurringHours, TimeOff } from '../shop/index.ts';
import { clockAt, openIntervals } from '../time/index.ts';
import { clockMinutes, isWholeDay, MINUTES_A_DAY, readMoment } from './minutes.ts';
import type { Minute } from './minutes.ts';
import { occurrenceDays } from './recurrence.ts';
import type { Zone } from './zone.ts';

/** The stretch of time that a check looks at, both ends generous. */
export interface Span {
  readonly from: Minute;
  readonly to: Minute;
}

/** A half-open stretch of minutes. */
export type Stretch = readonly [from: Minute, to: Minute];

/** The stretches of these hours that touch the span, in no order, perhaps overlapping. */
export function hourStretches(hours: RecurringHours, zone: Zone, span: Span): Stretch[] {
  const firstDay = Math.floor(zone.toLocal(span.from) / MINUTES_A_DAY) - 1;
  const lastDay = Math.floor(zone.toLocal(span.to) / MINUTES_A_DAY) + 1;
  const days = occurrenceDays(hours.rule, hours.start, lastDay);
  if (!days) return unreadRule(hours, zone, span);
  const from = clockMinutes(hours.from);
  const sameDay = clockMinutes(hours.to);
  const to = sameDay <= from ? sameDay + MINUTES_A_DAY : sameDay;
  const stretches: Stretch[] = [];
  for (const day of days) {
    if (day < firstDay) continue;
    stretches.push([zone.fromLocal(day * MINUTES_A_DAY + from), zone.fromLocal(day * MINUTES_A_DAY + to)]);
  }
  return stretches;
}

/** Rules that the checker does not read for itself are taken from the shop's calendar. */
function unreadRule(hours: RecurringHours, zone: Zone, span: Span): Stretch[] {
  const clock = clockAt(zone.name, 0);
  const open = openIntervals([hours], [], clock, span.to, span.from);
  const stretches: Stretch[] = [];
  for (let i = 0; i < open.length; i += 2) stretches.push([open[i], open[i + 1]]);
  return stretches;
}

/** Days with both ends included, or moments, half-open. */
function offStretch(off: TimeOff, zone: Zone): Stretch {
  if (!isWholeDay(off.to)) return [readMoment(off.from, zone), readMoment(off.to, zone)];
  const midday = readMoment(`${off.to}T12:00`, zone);
  const lastDay = Math.floor(zone.toLocal(midday) / MINUTES_A_DAY);
  return [readMoment(off.from, zone), zone.fromLocal((lastDay + 1) * MINUTES_A_DAY)];
}

/** One mark a minute of the span: 1 where the hours are open and no time off covers it. */
export function openMinutes(
  hours: readonly RecurringHours[],
  off: readonly TimeOff[],
  zone: Zone,
  span: Span,
): Uint8Array {
  const marks = new Uint8Array(span.to - span.from);
  const mark = ([from, to]: Stretch, value: number): void => {
    const first = Math.max(0, from - span.from);
    const end = Math.min(marks.length, to - span.from);
    if (first < end) marks.fill(value, first, end);
  };
  for (const each of hours) for (const stretch of hourStretches(each, zone, span)) mark(stretch, 1);
  for (const each of off) mark(offStretch(each, zone), 0);
  return marks;
}
