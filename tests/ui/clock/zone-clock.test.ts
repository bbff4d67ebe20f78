import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { countdownText, durationText, makeZoneClock, minuteOf } from '../../../src/ui/clock/index.ts';

const at = (iso: string): number => minuteOf(iso);

describe('the shop clock on the screen', () => {
  // IANA tz database, as in the project's list of published values: New York changes at 2026-11-01T06:00Z.
  test('the day New York puts its clocks back has 25 hours, and 06:00 is 06:00 on it', () => {
    const clock = makeZoneClock('America/New_York');
    const day = clock.dayOf(at('2026-11-01T15:00Z'));
    expect(day.end - day.start).toBe(25 * 60);
    expect(clock.time(clock.at(day, 6 * 60))).toBe('06:00');
    expect(clock.iso(at('2026-11-01T05:59Z'))).toBe('2026-11-01T01:59-04:00');
    expect(clock.iso(at('2026-11-01T06:00Z'))).toBe('2026-11-01T01:00-05:00');
  });

  // IANA tz database: Berlin changes at 2026-03-29T01:00Z.
  test('the day Berlin puts its clocks forward has 23 hours', () => {
    const clock = makeZoneClock('Europe/Berlin');
    const day = clock.dayOf(at('2026-03-29T12:00Z'));
    expect(day.end - day.start).toBe(23 * 60);
    expect(clock.time(at('2026-03-29T01:00Z'))).toBe('03:00');
  });

  test('days run without a gap through a clock change', () => {
    const clock = makeZoneClock('America/New_York');
    const days = clock.days(at('2026-10-30T12:00Z'), at('2026-11-04T12:00Z'));
    expect(days.map((day) => day.isoDate)).toEqual([
      '2026-10-30',
      '2026-10-31',
      '2026-11-01',
      '2026-11-02',
      '2026-11-03',
      '2026-11-04',
    ]);
    days.slice(1).forEach((day, index) => expect(day.start).toBe(days[index].end));
  });

  test('a minute lies in its own day, in whichever order days are asked for, also where midnight is no full hour in UTC', () => {
    for (const zone of ['Asia/Kathmandu', 'Australia/Lord_Howe', 'America/New_York', 'Etc/UTC']) {
      const clock = makeZoneClock(zone);
      const midnight = DateTime.fromISO('2026-10-04', { zone });
      for (const minutes of [-1, 0, 30, 1500, -60, -1, 59, 0, 1439, 1440, -1440]) {
        const minute = midnight.toMillis() / 60_000 + minutes;
        const local = DateTime.fromMillis(minute * 60_000, { zone });
        expect(clock.dayOf(minute)).toMatchObject({
          isoDate: local.toISODate(),
          start: local.startOf('day').toMillis() / 60_000,
        });
        expect(clock.time(minute)).toBe(local.toFormat('HH:mm'));
      }
    }
  });

  test('a time is called by today, tomorrow, its weekday or its date, as it is near or far', () => {
    const clock = makeZoneClock('UTC');
    const now = at('2026-11-25T14:30Z');
    expect(clock.near(at('2026-11-25T18:05Z'), now)).toBe('today 18:05');
    expect(clock.near(at('2026-11-26T07:10Z'), now)).toBe('tomorrow 07:10');
    expect(clock.near(at('2026-11-24T07:10Z'), now)).toBe('yesterday 07:10');
    expect(clock.near(at('2026-11-29T09:00Z'), now)).toBe('Sun 09:00');
    expect(clock.near(at('2026-12-03T09:00Z'), now)).toBe('Thu 3 Dec 09:00');
  });

  test('a local time without offset is read in the shop zone, and what is no time is null', () => {
    const clock = makeZoneClock('Asia/Kolkata');
    expect(clock.parse('2026-11-25T14:30')).toBe(at('2026-11-25T09:00Z'));
    expect(clock.parse('2026-11-25T14:30+01:00')).toBe(at('2026-11-25T13:30Z'));
    expect(clock.parse('soon')).toBeNull();
  });

  test('a zone that does not exist is refused by name', () => {
    expect(() => makeZoneClock('Mars/Olympus')).toThrow('"Mars/Olympus" is no time zone');
  });
});

describe('lengths of time in words', () => {
  test.each([
    [0, '0 min'],
    [59, '59 min'],
    [60, '1 h'],
    [80, '1 h 20 min'],
    [2879, '47 h 59 min'],
    [2880, '2 days'],
    [3120, '2 days 4 h'],
  ])('%i minutes are "%s"', (minutes, words) => expect(durationText(minutes)).toBe(words));

  test('a countdown never shows less than nothing and does not reach 0:00 early', () => {
    expect(countdownText(724.2)).toBe('12:05');
    expect(countdownText(0.4)).toBe('0:01');
    expect(countdownText(-5)).toBe('0:00');
  });
});
