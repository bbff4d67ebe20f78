import { DateTime, IANAZone } from 'luxon';
import { assert, constantFrom, integer, nat, oneof, pre, property, record, tuple } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  clockAt,
  localParts,
  toIso,
  toMinute,
  utcOffsetMinutes,
} from '../../../src/engine/time/index.ts';

/** With half-hour summer time, changes at 00:01, a skipped calendar day, changes around Ramadan, two hours at once. */
const ZONES = [
  'UTC',
  'America/New_York',
  'America/St_Johns',
  'Europe/Berlin',
  'Europe/Dublin',
  'Africa/Casablanca',
  'Antarctica/Troll',
  'Asia/Kathmandu',
  'Australia/Lord_Howe',
  'Pacific/Apia',
];
const zone = constantFrom(...ZONES);
/** Minutes since 1970: 1975 to 2099. */
const minute = integer({
  min: Date.UTC(1975, 0) / 60_000,
  max: Date.UTC(2099, 0) / 60_000,
});
/** Luxon's own changes of the clock, found by its offsets day by day, and the minutes around them. */
const nearChange = tuple(zone, integer({ min: 1975, max: 2037 }), integer({ min: -90, max: 90 }), nat()).map(
  ([name, year, around, pick]) => {
    const offset = (ms: number): number => IANAZone.create(name).offset(ms);
    const days = Array.from({ length: 365 }, (_, day) => Date.UTC(year, 0, 1 + day));
    const changing = days.filter((ms) => offset(ms) !== offset(ms + 86_400_000));
    if (changing.length === 0) return { name, at: Date.UTC(year, 6) / 60_000 + around };
    let [before, after] = [changing[pick % changing.length], changing[pick % changing.length] + 86_400_000];
    while (after - before > 60_000) {
      const middle = Math.floor((before + after) / 120_000) * 60_000;
      if (offset(middle) === offset(before)) before = middle;
      else after = middle;
    }
    return { name, at: after / 60_000 + around };
  },
);
const anyMoment = oneof(record({ name: zone, at: minute }), nearChange);

describe('the clock reads and writes as luxon does, in every zone and season', () => {
  it('writes the same time and offset, and names the same day', () => {
    assert(
      property(anyMoment, ({ name, at }) => {
        const clock = clockAt(name, 0);
        const luxon = DateTime.fromMillis(at * 60_000, { zone: name });
        expect(toIso(clock, at)).toBe(luxon.toFormat("yyyy-MM-dd'T'HH:mmZZ").replace(/\+00:00$/, 'Z'));
        expect(localParts(clock, at)).toEqual({
          date: luxon.toFormat('yyyy-MM-dd'),
          time: luxon.toFormat('HH:mm'),
          weekday: luxon.weekday,
        });
        expect(utcOffsetMinutes(clock, at)).toBe(luxon.offset);
      }),
      { seed: 20261125, numRuns: 600 },
    );
  });

  it('reads back what it wrote, whatever the form', () => {
    const forms = [
      "yyyy-MM-dd'T'HH:mmZZ",
      'yyyy-MM-dd HH:mm:ssZZ',
      "yyyy-MM-dd'T'HH:mm:ss.SSSZZ",
      "yyyy-MM-dd'T'HH:mmZZZ",
    ];
    assert(
      property(anyMoment, constantFrom(...forms), ({ name, at }, form) => {
        const text = DateTime.fromMillis(at * 60_000, { zone: name }).toFormat(form);
        expect(toMinute(clockAt('UTC', 0), text)).toBe(at);
      }),
      { seed: 20261125, numRuns: 600 },
    );
  });

  it('counts days on the calendar as luxon does, and refuses the dates that luxon refuses', () => {
    const two = (n: number): string => String(n).padStart(2, '0');
    assert(
      property(
        integer({ min: 1, max: 9999 }),
        integer({ min: 0, max: 13 }),
        integer({ min: 0, max: 32 }),
        integer({ min: -800, max: 800 }),
        (year, month, day, days) => {
          const date = `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
          const luxon = DateTime.fromISO(date, { zone: 'utc' });
          const later = luxon.plus({ days });
          pre(!later.isValid || (later.year >= 0 && later.year <= 9999));
          if (luxon.isValid) expect(addDays(date, days)).toBe(later.toFormat('yyyy-MM-dd'));
          else expect(() => addDays(date, days)).toThrow('is not on the calendar');
        },
      ),
      { seed: 20261125, numRuns: 600 },
    );
  });
});
