/**
 * The examples are written for one week. Shifted by whole weeks they are about to begin whenever they are shown, and
 * weekdays stay weekdays.
 */

/** The day for which the examples are written. */
const WRITTEN_FOR = Date.UTC(2026, 10, 25);
const WEEK_MS = 7 * 86_400_000;

/** A date in quotes, perhaps with a time after it. */
const DATE = /"(\d{4}-\d{2}-\d{2})((?:T[\d:]+(?:Z|[+-]\d{2}:\d{2})?)?)"/g;

/** The text of an example as if it had been written for the week of `nowMs` (milliseconds since 1970, UTC). */
export const forTheWeekOf = (text: string, nowMs: number): string =>
  shiftDates(text, Math.floor((nowMs - WRITTEN_FOR) / WEEK_MS));

/** Moves every date in the text of a shop file by whole weeks. */
export const shiftDates = (text: string, weeks: number): string =>
  text.replaceAll(DATE, (_, date: string, rest: string) => {
    const moved = new Date(Date.parse(`${date}T00:00Z`) + weeks * WEEK_MS);
    return `"${moved.toISOString().slice(0, 10)}${rest}"`;
  });
