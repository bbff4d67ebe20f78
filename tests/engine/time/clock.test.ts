import { describe, expect, it } from 'vitest';
import {
  addDays,
  clockAt,
  formatDay,
  formatDuration,
  formatMoment,
  formatTime,
  localParts,
  makeClock,
  minuteOfLocal,
  toDeadline,
  toIso,
  toMinute,
} from '../../../src/engine/time/index.ts';

/** Offset changes of 2026 and 2027, IANA tz database. */
const CLOCK_CHANGES = [
  { zone: 'America/New_York', at: '2026-03-08T07:00Z', before: '01:59', after: '03:00', dayMinutes: 23 * 60 },
  { zone: 'America/New_York', at: '2026-11-01T06:00Z', before: '01:59', after: '01:00', dayMinutes: 25 * 60 },
  { zone: 'America/New_York', at: '2027-03-14T07:00Z', before: '01:59', after: '03:00', dayMinutes: 23 * 60 },
  { zone: 'Europe/Berlin', at: '2026-03-29T01:00Z', before: '01:59', after: '03:00', dayMinutes: 23 * 60 },
  { zone: 'Europe/Berlin', at: '2026-10-25T01:00Z', before: '02:59', after: '02:00', dayMinutes: 25 * 60 },
  { zone: 'Europe/Berlin', at: '2027-03-28T01:00Z', before: '01:59', after: '03:00', dayMinutes: 23 * 60 },
];

describe('the clock counts whole minutes through the changes of the wall clock (IANA tz database)', () => {
  it.each(CLOCK_CHANGES)(
    '$zone at $at shows $before, then $after',
    ({ zone, at, before, after, dayMinutes }) => {
      const clock = makeClock(zone, '2026-01-01T00:00');
      const change = toMinute(clock, at);
      expect(localParts(clock, change - 1).time).toBe(before);
      expect(localParts(clock, change).time).toBe(after);
      const { date } = localParts(clock, change);
      const day = minuteOfLocal(clock, date, '00:00');
      expect(minuteOfLocal(clock, addDays(date, 1), '00:00') - day).toBe(dayMinutes);
      expect(localParts(clock, day + dayMinutes - 1).date).toBe(date);
    },
  );

  it('writes every minute around a change so that reading it back gives the same minute', () => {
    for (const { zone, at } of CLOCK_CHANGES) {
      const clock = makeClock(zone, '2026-06-01T00:00');
      const change = toMinute(clock, at);
      for (let m = change - 200; m < change + 200; m++) expect(toMinute(clock, toIso(clock, m))).toBe(m);
    }
  });
});

describe('a local time without offset', () => {
  const clock = makeClock('America/New_York', '2026-01-01T00:00');
  // RFC 5545 section 3.3.5: a time that does not exist is read with the offset before the gap, one that occurs twice is the first.
  it('that the clocks skip moves forward (RFC 5545 section 3.3.5)', () => {
    expect(toIso(clock, toMinute(clock, '2026-03-08T02:30'))).toBe('2026-03-08T03:30-04:00');
  });
  it('that occurs twice is the first of the two (RFC 5545 section 3.3.5)', () => {
    expect(toIso(clock, toMinute(clock, '2026-11-01T01:30'))).toBe('2026-11-01T01:30-04:00');
    expect(toMinute(clock, '2026-11-01T01:30-05:00') - toMinute(clock, '2026-11-01T01:30')).toBe(60);
  });
  it('is found the same way from a date and a time of day, 24:00 being the next midnight', () => {
    expect(minuteOfLocal(clock, '2026-03-08', '02:30')).toBe(toMinute(clock, '2026-03-08T07:30Z'));
    expect(minuteOfLocal(clock, '2026-03-07', '24:00')).toBe(minuteOfLocal(clock, '2026-03-08', '00:00'));
  });
  it('of a bare date is its midnight, or the first minute there is where midnight is skipped', () => {
    expect(toMinute(clock, '2026-01-02')).toBe(1440);
    // Beirut skips midnight of 2026-03-29 (IANA tz database, Lebanon rules; from memory).
    const beirut = makeClock('Asia/Beirut', '2026-03-28T00:00');
    expect(toIso(beirut, toMinute(beirut, '2026-03-29'))).toBe('2026-03-29T01:00+03:00');
  });
});

describe('times as people and files write them', () => {
  const clock = makeClock('Europe/Berlin', '2026-11-26T14:20');
  it('counts from the epoch in both directions and drops seconds', () => {
    expect(toMinute(clock, '2026-11-26T14:20:59')).toBe(0);
    expect(toMinute(clock, '2026-11-26T13:19:30Z')).toBe(-1);
    expect(toMinute(clock, '2026-11-27 14:20')).toBe(1440);
    expect(clockAt('Europe/Berlin', clock.epochMs + 59_999)).toEqual(clock);
  });
  it('writes ISO 8601 with the offset of the season', () => {
    expect(toIso(clock, 0)).toBe('2026-11-26T14:20+01:00');
    expect(toIso(makeClock('UTC', '2026-07-01'), 75)).toBe('2026-07-01T01:15Z');
    expect(toIso(makeClock('Asia/Kathmandu', '2026-07-01'), 0)).toBe('2026-07-01T00:00+05:45');
  });
  it('speaks plainly to people', () => {
    expect(formatMoment(clock, 0)).toBe('Thu 26 Nov 14:20');
    expect(formatDay(clock, 1440)).toBe('Fri 27 Nov');
    expect(formatTime(clock, 60)).toBe('15:20');
    expect(formatMoment(clock, 36 * 1440)).toBe('Fri 1 Jan 2027 14:20');
    expect(formatDay(clock, 36 * 1440)).toBe('Fri 1 Jan 2027');
    expect([0, 35, 60, 260, 1440, 4560, -90].map(formatDuration)).toEqual([
      '0 min',
      '35 min',
      '1 h',
      '4 h 20 min',
      '24 h',
      '3 d 4 h',
      '-1 h 30 min',
    ]);
  });
  it('knows the date and the calendar around a leap day', () => {
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    expect(addDays('2027-03-01', -1)).toBe('2027-02-28');
    expect(localParts(clock, 0)).toEqual({ date: '2026-11-26', time: '14:20', weekday: 4 });
  });
  it('refuses what it cannot read and says what would be right', () => {
    expect(() => makeClock('Mars/Olympus', '2026-01-01')).toThrow(
      'zone: "Mars/Olympus" is not an IANA time zone',
    );
    expect(() => toMinute(clock, 'tomorrow')).toThrow('"tomorrow" cannot be read; right would be');
    expect(() => toMinute(clock, '2026-02-30T10:00')).toThrow('"2026-02-30T10:00" is not on the calendar');
    expect(() => minuteOfLocal(clock, '2026-02-03', '25:00')).toThrow('time of day: "25:00"');
    expect(() => minuteOfLocal(clock, '03.02.2026', '10:00')).toThrow('date: "03.02.2026"');
  });
});

describe('a date by which something is due', () => {
  const clock = makeClock('Europe/Berlin', '2026-03-28T00:00');

  it('is the end of that day when no time is given, the short day of the clock change included', () => {
    expect(toIso(clock, toDeadline(clock, '2026-03-29'))).toBe('2026-03-30T00:00+02:00');
  });

  it('is the time when one is given', () => {
    expect(toIso(clock, toDeadline(clock, '2026-03-28T17:30'))).toBe('2026-03-28T17:30+01:00');
  });
});
