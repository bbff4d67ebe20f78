/** Times on the screen: whole minutes since 1970-01-01T00:00Z. */
export type Minute = number;

/** The minute of an ISO moment of a plan document, such as `2026-11-25T14:30+00:00`. */
export const minuteOf = (iso: string): Minute => Math.floor(Date.parse(iso) / 60_000);

export const HOUR = 60;
export const DAY = 1440;
export const WEEK = 7 * DAY;
