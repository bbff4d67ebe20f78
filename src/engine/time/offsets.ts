/** How far a zone's clocks are ahead of UTC, asked thousands of times a plan: luxon is asked once for each day. */
import type { IANAZone } from 'luxon';

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;

/** Offsets by UTC day; NaN where the clocks change within it. */
const known = new Map<string, Map<number, number>>();

function offsetOfDay(zone: IANAZone, day: number): number {
  const first = zone.offset(day * DAY_MS);
  return zone.offset((day + 1) * DAY_MS) === first ? first : Number.NaN;
}

/** Minutes ahead of UTC at `ms` since 1970. No zone changes its clocks back and forth within a day. */
export function offsetMinutes(zone: IANAZone, ms: number): number {
  let days = known.get(zone.name);
  if (days === undefined) known.set(zone.name, (days = new Map()));
  const day = Math.floor(ms / DAY_MS);
  let offset = days.get(day);
  if (offset === undefined) days.set(day, (offset = offsetOfDay(zone, day)));
  return Number.isNaN(offset) ? zone.offset(ms) : offset;
}
