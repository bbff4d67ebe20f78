/** Times as files and plans write them, read without a library wherever nothing about them is odd. */

const USUAL = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2}))?(?:Z|([+-])(\d{2}):(\d{2}))?)?$/;

const daysIn = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

/**
 * Milliseconds since 1970 of `2026-11-26`, `2026-11-26T14:20`, with seconds, `Z` or an offset; without an offset as if the clock hung in
 * Greenwich. Null for what is written another way or is not on the calendar: that is luxon's to judge.
 */
export function readFloating(text: string): number | null {
  const found = USUAL.exec(text);
  if (!found) return null;
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  const [hour, minute, second] = [Number(found[4] ?? 0), Number(found[5] ?? 0), Number(found[6] ?? 0)];
  const [offsetHour, offsetMinute] = [Number(found[8] ?? 0), Number(found[9] ?? 0)];
  if (year < 1000 || month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59 || offsetHour > 23 || offsetMinute > 59) return null;
  const ahead = (offsetHour * 60 + offsetMinute) * (found[7] === '-' ? -1 : 1);
  return Date.UTC(year, month - 1, day, hour, minute - ahead, second);
}
