/** Moments in UTC, as the plan document writes them. */

/** Whole minutes since 1970. */
export const minuteOf = (iso: string): number => Date.parse(iso) / 60_000;

export const isoOf = (minute: number): string => `${new Date(minute * 60_000).toISOString().slice(0, 16)}Z`;

/** The moment so many minutes later; before it, where they are less than none. */
export const shifted = (iso: string, minutes: number): string => isoOf(minuteOf(iso) + minutes);
