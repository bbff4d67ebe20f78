/**
 * A time zone read straight from the platform's own zone tables, minute by minute. The planner uses a date
 * library; the checker does not, so that a mistake about a clock change would have to be made twice.
 */
import type { Minute } from './minutes.ts';

export interface Zone {
  readonly name: string;
  /** Local wall-clock minutes (as if the zone were UTC) at a minute. */
  toLocal(at: Minute): number;
  /**
   * The minute at which the wall clock shows `local`. A time that happens twice is the first of the two; a time
   * that is skipped is read with the offset before the change (RFC 5545, section 3.3.5).
   */
  fromLocal(local: number): Minute;
}

const known = new Map<string, Zone>();

/** The zone of an IANA name, made once. Throws a RangeError, as the platform does, for a name it does not know. */
export function makeZone(name: string): Zone {
  let zone = known.get(name);
  if (!zone) known.set(name, (zone = readZone(name)));
  return zone;
}

function readZone(name: string): Zone {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: name,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  });

  const readOffset = (at: Minute): number => {
    const shown: Record<string, number> = {};
    for (const part of format.formatToParts(new Date(at * 60_000))) shown[part.type] = Number(part.value);
    return Date.UTC(shown.year, shown.month - 1, shown.day, shown.hour, shown.minute) / 60_000 - at;
  };

  const offsets = new Map<Minute, number>();
  const exactOffset = (at: Minute): number => {
    const found = offsets.get(at);
    if (found !== undefined) return found;
    const offset = readOffset(at);
    offsets.set(at, offset);
    return offset;
  };

  // A day whose two ends differ holds a clock change: only there is every minute looked up by itself.
  const offsetAt = (at: Minute): number => {
    const day = Math.floor(at / 1440) * 1440;
    const first = exactOffset(day);
    return first === exactOffset(day + 1440) ? first : exactOffset(at);
  };

  return {
    name,
    toLocal: (at) => at + offsetAt(at),
    fromLocal: (local) => {
      const before = offsetAt(local - 1440);
      if (offsetAt(local - before) === before) return local - before;
      const after = offsetAt(local + 1440);
      if (offsetAt(local - after) === after) return local - after;
      return local - before;
    },
  };
}
