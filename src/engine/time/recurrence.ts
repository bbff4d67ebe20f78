/**
 * Recurrence rules of RFC 5545 section 3.3.10, for days only: the library (rrule) works on floating dates, as if
 * every day had 24 hours; the zone comes in later, day by day.
 */
import * as rrule from 'rrule';
import { isDate } from './clock.ts';

// Node reads the package as CommonJS and puts everything under `default`; a bundler reads its ES modules, without one.
const loaded: typeof rrule & { default?: typeof rrule } = { ...rrule };
const { RRule } = loaded.default ?? loaded;

const DAY_MS = 86_400_000;
const WEEKDAYS = /^[+-]?\d{0,2}(?:MO|TU|WE|TH|FR|SA|SU)$/;
const FREQUENCIES = ['DAILY', 'WEEKLY', 'MONTHLY', 'YEARLY'];
const PARTS = [
  'FREQ',
  'INTERVAL',
  'COUNT',
  'UNTIL',
  'WKST',
  'BYDAY',
  'BYMONTHDAY',
  'BYYEARDAY',
  'BYWEEKNO',
  'BYMONTH',
  'BYSETPOS',
];

function partsOf(rule: string): Map<string, string> {
  const parts = new Map<string, string>();
  for (const part of rule
    .toUpperCase()
    .replace(/^RRULE:/, '')
    .split(';')) {
    const equals = part.indexOf('=');
    parts.set(part.slice(0, Math.max(equals, 0)), part.slice(equals + 1));
  }
  return parts;
}

/**
 * What is wrong with a rule of days, in one sentence that says what would be right; null when it is fine.
 * @param rule the value of an RRULE, like `FREQ=WEEKLY;BYDAY=MO,TU`
 * @param start the first date it may fall on (`YYYY-MM-DD`); needed when the rule counts from somewhere
 */
export function ruleFault(rule: string, start?: string): string | null {
  if (start !== undefined && !isDate(start)) return `"${start}" is no date; right would be "2026-11-26"`;
  const parts = partsOf(rule);
  for (const [name, value] of parts) {
    if (!PARTS.includes(name)) {
      return `"${name === '' ? value : name}" in "${rule}" is no part of a rule of days; known are ${PARTS.join(', ')}`;
    }
    const fault = valueFault(name, value);
    if (fault) return `${name} in "${rule}" is "${value}"; right would be ${fault}`;
  }
  const frequency = parts.get('FREQ');
  if (frequency === undefined) return `"${rule}" has no FREQ; right would be "FREQ=WEEKLY;BYDAY=MO,TU"`;
  if (parts.has('COUNT') && parts.has('UNTIL'))
    return `"${rule}" has COUNT and UNTIL; at most one of them may stand`;
  const counts = parts.has('COUNT') || Number(parts.get('INTERVAL') ?? 1) > 1;
  if (start === undefined && (counts || !fixesDays(frequency, parts))) {
    return `"${rule}" needs a start date, for it counts from there; right would be a start like "2026-11-26"`;
  }
  return null;
}

/** Whether the rule says by itself on which days it falls; otherwise it takes them from its start. */
function fixesDays(frequency: string, parts: Map<string, string>): boolean {
  const has = (...names: string[]): boolean => names.some((name) => parts.has(name));
  if (frequency === 'DAILY') return true;
  if (frequency === 'WEEKLY') return has('BYDAY');
  if (frequency === 'MONTHLY') return has('BYDAY', 'BYMONTHDAY');
  return has('BYDAY', 'BYYEARDAY') || has('BYMONTHDAY');
}

function valueFault(name: string, value: string): string | null {
  const each = (test: (item: string) => boolean): boolean => value.split(',').every(test);
  const whole = (item: string, least: number, most: number): boolean =>
    /^[+-]?\d+$/.test(item) && Math.abs(Number(item)) >= 1 && Number(item) >= least && Number(item) <= most;
  switch (name) {
    case 'FREQ':
      return FREQUENCIES.includes(value) ? null : `one of ${FREQUENCIES.join(', ')}`;
    case 'INTERVAL':
    case 'COUNT':
      return whole(value, 1, 9999) ? null : 'a whole number from 1 on';
    case 'UNTIL':
      return /^\d{8}$/.test(value) && isDate(dashed(value))
        ? null
        : 'a date like 20261231 (the last day that counts)';
    case 'WKST':
      return /^(?:MO|TU|WE|TH|FR|SA|SU)$/.test(value) ? null : 'a day like MO';
    case 'BYDAY':
      return each((item) => WEEKDAYS.test(item) && !/^[+-]?0/.test(item)) ? null : 'days like MO,TU or 1FR';
    case 'BYMONTH':
      return each((item) => whole(item, 1, 12)) ? null : 'months from 1 to 12';
    case 'BYMONTHDAY':
      return each((item) => whole(item, -31, 31)) ? null : 'days from 1 to 31, or -1 for the last';
    case 'BYWEEKNO':
      return each((item) => whole(item, -53, 53)) ? null : 'weeks from 1 to 53';
    default:
      return each((item) => whole(item, -366, 366)) ? null : 'numbers from 1 to 366';
  }
}

const dashed = (digits: string): string =>
  `${digits.slice(0, 4)}-${digits.slice(4, 6)}-${digits.slice(6, 8)}`;
const utcMidnight = (date: string): Date =>
  new Date(Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10))));

/**
 * The dates (`YYYY-MM-DD`, ascending) from `first` to `last`, both inclusive, on which the rule falls.
 * @throws RangeError with the sentence of `ruleFault`.
 */
export function datesOfRule(rule: string, first: string, last: string, start?: string): string[] {
  const fault = ruleFault(rule, start);
  if (fault) throw new RangeError(`rule: ${fault}`);
  // A rule that does not count from a start may begin anywhere, as long as that is early enough.
  const dtstart = utcMidnight(start ?? first);
  const options = RRule.parseString(rule.toUpperCase().replace(/^RRULE:/, ''));
  const dates = new RRule({ ...options, dtstart }).between(
    utcMidnight(first),
    new Date(utcMidnight(last).getTime() + DAY_MS - 1),
    true,
  );
  return dates.map((date) => date.toISOString().slice(0, 10));
}
