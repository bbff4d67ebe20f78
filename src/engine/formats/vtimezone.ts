/**
 * A zone's VTIMEZONE (RFC 5545 section 3.6.5) for a span: one observance for every change of the clocks in it, from the
 * same time zone data by which the plan was made. No rule is guessed for years that the plan does not touch.
 */
import { luxonTime, utcOffsetMinutes, type Clock } from '../time/index.ts';

const DAY_MINUTES = 1440;

/** Lines ended by LF; the calendar's writer ends them as the standard wants. `from` and `to` are minutes of the clock. */
export function vtimezone(clock: Clock, from: number, to: number): string {
  const offset = (minute: number): number => utcOffsetMinutes(clock, minute);
  const changes: number[] = [];
  for (let day = from; day < to; day += DAY_MINUTES) {
    if (offset(day) !== offset(day + DAY_MINUTES))
      changes.push(firstMinuteOfChange(offset, day, day + DAY_MINUTES));
  }
  const standard = Math.min(offset(from), ...changes.map(offset));
  const observances = [from, ...changes].map((minute, i) => {
    const now = offset(minute);
    // What came before the span is not told: its first observance changes nothing.
    const before = i === 0 ? now : offset(minute - 1);
    const kind = now > standard ? 'DAYLIGHT' : 'STANDARD';
    // An observance begins at the local time that the clocks were about to show: in the offset from before.
    const onset = luxonTime({ ...clock, zone: 'UTC' }, minute + before).toFormat("yyyyMMdd'T'HHmmss");
    return [
      `BEGIN:${kind}`,
      `DTSTART:${onset}`,
      `TZOFFSETFROM:${offsetText(before)}`,
      `TZOFFSETTO:${offsetText(now)}`,
      `END:${kind}`,
    ];
  });
  return ['BEGIN:VTIMEZONE', `TZID:${clock.zone}`, ...observances.flat(), 'END:VTIMEZONE'].join('\n');
}

/** Whether a wall clock in the zone shows the reading of this minute at another minute too: then it does not say which. */
export function isShownTwice(clock: Clock, minute: number): boolean {
  const own = utcOffsetMinutes(clock, minute);
  return [minute - DAY_MINUTES, minute + DAY_MINUTES].some((around) => {
    const offset = utcOffsetMinutes(clock, around);
    return offset !== own && utcOffsetMinutes(clock, minute + own - offset) === offset;
  });
}

/** Between two minutes of different offsets, the first one that has the later offset. */
function firstMinuteOfChange(offset: (minute: number) => number, before: number, after: number): number {
  let [low, high] = [before, after];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offset(middle) === offset(after)) high = middle;
    else low = middle;
  }
  return high;
}

const offsetText = (minutes: number): string => {
  const size = Math.abs(minutes);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}${two(size % 60)}`;
};
