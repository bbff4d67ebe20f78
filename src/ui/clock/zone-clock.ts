/**
 * The shop's wall clock for the screen: local parts, ticks and short texts, in the shop's zone and across its clock
 * changes. Days are cached, for a picture asks the same ones sixty times a second.
 */
import { DateTime } from 'luxon';
import { DAY, HOUR, type Minute } from './minute.ts';

export interface Day {
  readonly start: Minute;
  /** Start of the next day; 23 or 25 hours later when the clocks change. */
  readonly end: Minute;
  readonly weekday: string;
  readonly dayOfMonth: number;
  readonly month: string;
  /** 1 Monday to 7 Sunday. */
  readonly weekdayNumber: number;
  readonly isoDate: string;
}

export interface ZoneClock {
  readonly zone: string;
  /** The local day that holds this minute. */
  dayOf(minute: Minute): Day;
  /** Local days from the one that holds `from` up to the one that holds `to - 1`. */
  days(from: Minute, to: Minute): readonly Day[];
  /** `14:30`. */
  time(minute: Minute): string;
  /** `Thu 14:30`; `today 14:30`, `tomorrow 14:30`, `yesterday 14:30` near `now`; `Thu 3 Dec 14:30` beyond six days. */
  near(minute: Minute, now: Minute): string;
  /** `Thursday 26 November`. */
  date(minute: Minute): string;
  /** `2026-11-25T14:30+00:00`, as plan documents and pins are written. */
  iso(minute: Minute): string;
  /** The minute of a local date and time such as `2026-11-25T14:30` (an offset in it wins); null when unreadable. */
  parse(text: string): Minute | null;
  /** The minute at which the local clock of `day` shows `minutesOfDay`. */
  at(day: Day, minutesOfDay: number): Minute;
}

/** The clock of an IANA zone; throws RangeError for a name that is none. */
export const makeZoneClock = (zone: string): ZoneClock => {
  if (!DateTime.utc().setZone(zone).isValid) throw new RangeError(`"${zone}" is no time zone`);
  const local = (minute: Minute): DateTime => DateTime.fromMillis(minute * 60_000, { zone, locale: 'en-GB' });
  const cache = new Map<number, Day>();
  const makeDay = (minute: Minute): Day => {
    const start = local(minute).startOf('day');
    return {
      start: start.toMillis() / 60_000,
      end: start.plus({ days: 1 }).startOf('day').toMillis() / 60_000,
      weekday: start.toFormat('ccc'),
      dayOfMonth: start.day,
      month: start.toFormat('LLL'),
      weekdayNumber: start.weekday,
      isoDate: start.toFormat('yyyy-MM-dd'),
    };
  };
  const dayOf = (minute: Minute): Day => {
    // Keyed by UTC hour: a local day never begins inside one key twice, and each key belongs to at most two days.
    const key = Math.floor(minute / HOUR);
    const known = cache.get(key);
    if (known && minute >= known.start && minute < known.end) return known;
    const day = makeDay(minute);
    if (cache.size > 20_000) cache.clear();
    cache.set(key, day);
    for (let hour = Math.ceil(day.start / HOUR); (hour + 1) * HOUR <= day.end; hour++) cache.set(hour, day);
    return day;
  };
  const time = (minute: Minute): string => {
    const day = dayOf(minute);
    // On a day without a clock change the time is plain arithmetic.
    if (day.end - day.start === DAY) {
      const passed = minute - day.start;
      return `${two(Math.floor(passed / HOUR))}:${two(passed % HOUR)}`;
    }
    return local(minute).toFormat('HH:mm');
  };
  const self: ZoneClock = {
    zone,
    dayOf,
    days(from, to) {
      const list: Day[] = [];
      for (let day = dayOf(from); day.start < to; day = dayOf(day.end)) list.push(day);
      return list;
    },
    time,
    near(minute, now) {
      const day = dayOf(minute);
      const today = dayOf(now);
      if (day.start === today.start) return `today ${time(minute)}`;
      if (day.start === today.end) return `tomorrow ${time(minute)}`;
      if (day.end === today.start) return `yesterday ${time(minute)}`;
      const far = Math.abs(day.start - today.start) > 6.5 * DAY || minute < now;
      return `${day.weekday} ${far ? `${day.dayOfMonth} ${day.month} ` : ''}${time(minute)}`;
    },
    date: (minute) => local(minute).toFormat('cccc d LLLL'),
    iso: (minute) => local(minute).toFormat("yyyy-MM-dd'T'HH:mmZZ"),
    parse(text) {
      const read = DateTime.fromISO(text, { zone });
      return read.isValid ? Math.floor(read.toMillis() / 60_000) : null;
    },
    at: (day, minutesOfDay) =>
      local(day.start)
        .set({ hour: Math.floor(minutesOfDay / HOUR), minute: minutesOfDay % HOUR })
        .toMillis() / 60_000,
  };
  return self;
};

const two = (n: number): string => String(n).padStart(2, '0');
