/**
 * Is this local day an occurrence of a recurrence rule? Day by day, slow and plain, for the rules makers write:
 * FREQ DAILY, WEEKLY, MONTHLY or YEARLY with INTERVAL, BYDAY, BYMONTHDAY, BYMONTH, WKST, COUNT and UNTIL
 * (RFC 5545, section 3.3.10).
 */
import { dayNumber, weekdayOf } from './minutes.ts';

const WEEKDAYS = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'];
const KNOWN = new Set(['FREQ', 'INTERVAL', 'BYDAY', 'BYMONTHDAY', 'BYMONTH', 'WKST', 'COUNT', 'UNTIL']);

interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly date: number;
  readonly monthLength: number;
}

const calendarDate = (day: number): CalendarDate => {
  const at = new Date(day * 86_400_000);
  const year = at.getUTCFullYear();
  const month = at.getUTCMonth() + 1;
  return { year, month, date: at.getUTCDate(), monthLength: new Date(Date.UTC(year, month, 0)).getUTCDate() };
};

/** "2MO" is the second Monday of the month, "-1FR" its last Friday, "TU" every Tuesday. */
function isNamedWeekday(day: number, names: readonly string[], insideMonth: boolean): boolean {
  const at = calendarDate(day);
  return names.some((name) => {
    if (name.slice(-2) !== WEEKDAYS[weekdayOf(day)]) return false;
    const nth = Number(name.slice(0, -2) || 0);
    if (nth === 0 || !insideMonth) return true;
    return nth > 0 ? Math.ceil(at.date / 7) === nth : Math.ceil((at.monthLength - at.date + 1) / 7) === -nth;
  });
}

/**
 * The days on which `rule` falls, as days since 1970-01-01, from `start` (its DTSTART) to `last` at most.
 * Null when the rule uses a part that is not read here.
 */
export function occurrenceDays(rule: string, start: string, last: number): ReadonlySet<number> | null {
  const parts = new Map<string, string>();
  for (const part of rule.split(';')) {
    const [key, value] = part.split('=');
    if (!KNOWN.has(key)) return null;
    parts.set(key, value);
  }
  const freq = parts.get('FREQ');
  const list = (key: string): string[] | undefined => parts.get(key)?.split(',');
  const byDay = list('BYDAY');
  const byMonthDay = list('BYMONTHDAY')?.map(Number);
  const byMonth = list('BYMONTH')?.map(Number);
  const interval = Number(parts.get('INTERVAL') ?? 1);
  const weekStart = Math.max(0, WEEKDAYS.indexOf(parts.get('WKST') ?? 'MO'));
  const [year, month, date] = start.split('-').map(Number);
  const first = dayNumber(year, month, date);
  const until = readUntil(parts.get('UNTIL'));
  const count = Number(parts.get('COUNT') ?? Number.POSITIVE_INFINITY);
  if (freq === 'YEARLY' && byDay && byDay.some((name) => name.length > 2)) return null;

  const weekOf = (day: number): number => Math.floor((day + 3 - weekStart) / 7);
  const matches = (day: number): boolean => {
    const at = calendarDate(day);
    const onMonthDay = (wanted: readonly number[]): boolean =>
      wanted.some((d) => d === at.date || d === at.date - at.monthLength - 1);
    if (byMonth && !byMonth.includes(at.month)) return false;
    if (byMonthDay && !onMonthDay(byMonthDay)) return false;
    if (byDay && !isNamedWeekday(day, byDay, freq === 'MONTHLY')) return false;
    switch (freq) {
      case 'DAILY':
        return (day - first) % interval === 0;
      case 'WEEKLY':
        if (!byDay && weekdayOf(day) !== weekdayOf(first)) return false;
        return (weekOf(day) - weekOf(first)) % interval === 0;
      case 'MONTHLY':
        if (!byDay && !byMonthDay && at.date !== date) return false;
        return (at.year * 12 + at.month - (year * 12 + month)) % interval === 0;
      default:
        if (!byDay && !byMonthDay && at.date !== date) return false;
        if (!byDay && !byMonth && !byMonthDay && at.month !== month) return false;
        return (at.year - year) % interval === 0;
    }
  };
  if (freq !== 'DAILY' && freq !== 'WEEKLY' && freq !== 'MONTHLY' && freq !== 'YEARLY') return null;

  const days = new Set<number>();
  for (let day = first; day <= Math.min(last, until) && days.size < count; day++)
    if (matches(day)) days.add(day);
  return days;
}

/** The last day that UNTIL still allows; its clock time, when given, is not looked at. */
function readUntil(until: string | undefined): number {
  if (!until) return Number.POSITIVE_INFINITY;
  return dayNumber(Number(until.slice(0, 4)), Number(until.slice(4, 6)), Number(until.slice(6, 8)));
}
