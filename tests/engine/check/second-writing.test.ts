/**
 * What the checker writes a second time, held to published values, and to the first writing on thousands of random
 * cases: two hands that share no code and give the same answer.
 */
import { assert, constantFrom, double, integer, property, record, array } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ageInBox, agesInRoom, speedOf } from '../../../src/engine/check/age.ts';
import { openMinutes } from '../../../src/engine/check/hours.ts';
import { dayNumber, readMoment } from '../../../src/engine/check/minutes.ts';
import { occurrenceDays } from '../../../src/engine/check/recurrence.ts';
import { degCAt, roomKnots } from '../../../src/engine/check/temperature.ts';
import { makeZone } from '../../../src/engine/check/zone.ts';
import {
  equivalentAge,
  patternKnots,
  roomTemperature,
  temperatureAt,
} from '../../../src/engine/cure/index.ts';
import { clockAt, openIntervals, toMinute } from '../../../src/engine/time/index.ts';
import { shopWhere } from './plan-builder.ts';
import { isoOf } from '../../moments.ts';

const SEED = { seed: 20261125 } as const;

describe('equivalent age', () => {
  const resin = shopWhere({}).resins[0];
  const speed = speedOf(resin, { stalls: true });
  const over = (knots: { minute: number; degC: number }[], hours: number): number =>
    agesInRoom(speed, knots, { from: 0, to: hours * 60 })[hours * 60] / 60;

  test('12 hours at 15 degC and 12 at 24 are 19.503136 hours at 23 (53 kJ/mol, computed from ASTM C1074)', () => {
    const knots = [
      { minute: 0, degC: 15 },
      { minute: 720, degC: 15 },
      { minute: 720.000001, degC: 24 },
    ];
    expect(over(knots, 24)).toBeCloseTo(19.503136, 5);
  });

  test('an even rise from 10 to 20 degC in 10 hours is 5.62479 hours at 23, if nothing stalls', () => {
    const rising = [
      { minute: 0, degC: 10 },
      { minute: 600, degC: 20 },
    ];
    const unstalled = agesInRoom(speedOf(resin, { stalls: false }), rising, { from: 0, to: 600 });
    expect(unstalled[600] / 60).toBeCloseTo(5.62479, 5);
    // With 15 degC as the lowest temperature only the second half counts.
    const stalled = agesInRoom(speed, rising, { from: 0, to: 600 });
    expect(stalled[300]).toBeCloseTo(0, 9);
    expect(stalled[600]).toBeCloseTo(unstalled[600] - unstalled[300], 9);
  });

  test('the last reading there is goes on', () => {
    const hour = agesInRoom(speed, [{ minute: -100, degC: 23 }], { from: 0, to: 60 });
    expect(hour[60]).toBeCloseTo(60, 9);
  });

  test('a box at the reference temperature, warm at once, gathers a minute a minute', () => {
    expect(ageInBox(speed, { fromDegC: 23, setDegC: 23, heatUpMinutes: 0 }, 0, 90)).toBeCloseTo(90, 9);
  });

  test('a box that warms up evenly from 10 to 20 degC in 10 hours gathers the same 5.62479 hours', () => {
    const box = { fromDegC: 10, setDegC: 20, heatUpMinutes: 600 };
    const unstalled = speedOf(resin, { stalls: false });
    expect(ageInBox(unstalled, box, 0, 600) / 60).toBeCloseTo(5.62479, 5);
  });

  test('a sheet without an energy has 53 kJ/mol, or what its second point says', () => {
    // At 15 degC and 53 kJ/mol the rate is 0.550137 of that at 23 (computed from ASTM C1074): 240 minutes take 436.255.
    const bare = { ...resin, activationEnergyKJPerMol: undefined };
    const sheets = [bare, { ...bare, secondPoint: { degC: 15, tackOpensMinutes: 240 / 0.550137 } }];
    for (const sheet of sheets)
      expect(speedOf(sheet, { stalls: true }).energyKelvin * 8.314462618).toBeCloseTo(53_000, -1);
  });

  test('agrees with the planner’s own integral in any room, to a millionth of a minute', () => {
    const anyKnots = array(
      record({ minute: integer({ min: 0, max: 250 }), degC: double({ min: 2, max: 38, noNaN: true }) }),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    assert(
      property(anyKnots, integer({ min: 43, max: 60 }), (readings, energy) => {
        const measured = readings.map(({ minute, degC }) => ({
          minute: minute * 20 + (minute % 16) / 16,
          degC,
        }));
        const series = roomTemperature({ forecast: measured });
        const kinetics = { activationEnergyJPerMol: energy * 1000, referenceDegC: 23, lowestDegC: 15 };
        const first = equivalentAge(series, kinetics, 0, 5000).minutes;
        const ours = { ...resin, activationEnergyKJPerMol: energy };
        const knots = [...series.minutes].map((minute, i) => ({ minute, degC: series.degC[i] }));
        const second = agesInRoom(speedOf(ours, { stalls: true }), knots, { from: 0, to: 5000 });
        for (let m = 0; m <= 5000; m += 97) expect(Math.abs(first[m] - second[m])).toBeLessThan(1e-6);
      }),
      { ...SEED, numRuns: 100 },
    );
  });
});

describe('recurrence rules', () => {
  const days = (rule: string, start: string, last: string): string[] => {
    const [year, month, day] = last.split('-').map(Number);
    return [...(occurrenceDays(rule, start, dayNumber(year, month, day)) ?? [])].map((each) =>
      new Date(each * 86_400_000).toISOString().slice(0, 10),
    );
  };

  test('fall on the days of RFC 5545, section 3.8.5.3', () => {
    expect(days('FREQ=DAILY;COUNT=3', '1997-09-02', '1998-01-01')).toEqual([
      '1997-09-02',
      '1997-09-03',
      '1997-09-04',
    ]);
    expect(days('FREQ=WEEKLY;INTERVAL=2;WKST=SU', '1997-09-02', '1997-11-26')).toEqual([
      '1997-09-02',
      '1997-09-16',
      '1997-09-30',
      '1997-10-14',
      '1997-10-28',
      '1997-11-11',
      '1997-11-25',
    ]);
    expect(days('FREQ=YEARLY;COUNT=4;BYMONTH=6,7', '1997-06-10', '2000-12-31')).toEqual([
      '1997-06-10',
      '1997-07-10',
      '1998-06-10',
      '1998-07-10',
    ]);
    const twice = (wkst: string): string[] =>
      days(`FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=${wkst}`, '1997-08-05', '1998-01-01').map((d) =>
        d.slice(5),
      );
    expect(twice('MO')).toEqual(['08-05', '08-10', '08-19', '08-24']);
    expect(twice('SU')).toEqual(['08-05', '08-17', '08-19', '08-31']);
    expect(days('FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13', '1997-09-02', '2000-12-31')).toEqual([
      '1998-02-13',
      '1998-03-13',
      '1998-11-13',
      '1999-08-13',
      '2000-10-13',
    ]);
  });

  test('that this reading does not know are told apart from days that never come', () => {
    expect(occurrenceDays('FREQ=YEARLY;BYDAY=1MO', '1997-09-02', 15_000)).toBeNull();
  });

  test('open the same minutes as the planner’s calendar, in any zone and week', () => {
    const rules = constantFrom(
      'FREQ=DAILY',
      'FREQ=DAILY;INTERVAL=3',
      'FREQ=DAILY;COUNT=70',
      'FREQ=WEEKLY;BYDAY=MO,WE,SU',
      'FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SA;WKST=SU',
      'FREQ=WEEKLY',
      'FREQ=WEEKLY;BYDAY=FR;UNTIL=20260402',
      'FREQ=MONTHLY;BYDAY=1SA,-1SU,3WE',
      'FREQ=MONTHLY;BYMONTHDAY=1,-1,15',
      'FREQ=YEARLY;BYMONTH=3,10;BYMONTHDAY=25,28',
      'FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1',
    );
    const clocks = constantFrom('00:00', '01:30', '02:00', '02:30', '03:00', '08:15', '22:00', '23:59');
    const zones = constantFrom(
      'America/New_York',
      'Europe/Berlin',
      'Australia/Lord_Howe',
      'Asia/Kathmandu',
      'Etc/UTC',
    );
    const starts = constantFrom('2026-01-05', '2026-02-17', '2026-03-08');
    const weeks = constantFrom(
      '2026-03-04',
      '2026-03-26',
      '2026-04-02',
      '2026-10-01',
      '2026-10-22',
      '2026-10-29',
    );
    assert(
      property(rules, clocks, clocks, zones, starts, weeks, (rule, from, to, zone, start, week) => {
        const hours = [{ rule, from, to, start }];
        const off = [{ from: `${week}T04:00`, to: `${week}T06:30` }];
        const clock = clockAt(zone, 0);
        const span = { from: toMinute(clock, week), to: toMinute(clock, week) + 12 * 1440 };
        const second = openMinutes(hours, off, makeZone(zone), span);
        const first = new Uint8Array(second.length);
        const open = openIntervals(hours, off, clock, span.to, span.from);
        for (let i = 0; i < open.length; i += 2) first.fill(1, open[i] - span.from, open[i + 1] - span.from);
        expect(second.findIndex((mark, i) => mark !== first[i])).toBe(-1);
      }),
      { ...SEED, numRuns: 400 },
    );
  });
});

describe('local times', () => {
  test('change at the minutes of the IANA tz database', () => {
    const newYork = makeZone('America/New_York');
    const at = (text: string): number => Date.parse(text) / 60_000;
    expect(newYork.toLocal(at('2026-03-08T06:59Z'))).toBe(at('2026-03-08T01:59Z'));
    expect(newYork.toLocal(at('2026-03-08T07:00Z'))).toBe(at('2026-03-08T03:00Z'));
    expect(newYork.toLocal(at('2026-11-01T05:59Z'))).toBe(at('2026-11-01T01:59Z'));
    expect(newYork.toLocal(at('2026-11-01T06:00Z'))).toBe(at('2026-11-01T01:00Z'));
  });

  test('that are skipped go forward, and those that come twice are the first of the two (RFC 5545, section 3.3.5)', () => {
    const berlin = makeZone('Europe/Berlin');
    const at = (text: string): number => Date.parse(text) / 60_000;
    expect(readMoment('2026-03-29T02:30', berlin)).toBe(at('2026-03-29T01:30Z'));
    expect(readMoment('2026-10-25T02:30', berlin)).toBe(at('2026-10-25T00:30Z'));
    expect(readMoment('2026-10-25T02:30+01:00', berlin)).toBe(at('2026-10-25T01:30Z'));
  });
});

describe('a room’s temperature', () => {
  test('is the same in both writings, whatever is measured, forecast or heated', () => {
    const readings = array(
      record({ hours: integer({ min: -60, max: 400 }), degC: integer({ min: 5, max: 30 }) }),
      { maxLength: 8 },
    );
    const anyRoom = record({
      measured: readings,
      forecast: readings,
      low: integer({ min: 2, max: 20 }),
      rise: integer({ min: 0, max: 15 }),
      heated: array(
        record({
          degC: integer({ min: 10, max: 26 }),
          warmUpMinutes: integer({ min: 0, max: 300 }),
          from: constantFrom('00:00', '05:20', '08:00', '22:00'),
          to: constantFrom('01:10', '09:00', '17:00', '24:00'),
          rule: constantFrom('FREQ=DAILY', 'FREQ=WEEKLY;BYDAY=MO,TU,FR'),
        }),
        { maxLength: 2 },
      ),
    });
    const zones = constantFrom('America/New_York', 'Europe/Berlin', 'Australia/Lord_Howe');
    assert(
      property(anyRoom, zones, (room, zone) => {
        const clock = clockAt(zone, 0);
        const from = toMinute(clock, '2026-03-27');
        const to = from + 16 * 1440;
        const iso = (hours: number): string => isoOf(from + hours * 60);
        const told = (list: typeof room.measured) => list.map((r) => ({ at: iso(r.hours), degC: r.degC }));
        const knots = (list: typeof room.measured) =>
          list.map((r) => ({ minute: from + r.hours * 60, degC: r.degC }));
        const pattern = {
          nightLowDegC: room.low,
          nightLowAt: '04:40',
          dayHighDegC: room.low + room.rise,
          dayHighAt: '15:10',
        };
        const heating = room.heated.map((h) => ({
          hours: { rule: h.rule, from: h.from, to: h.to, start: '2026-01-05' },
          degC: h.degC,
          warmUpMinutes: h.warmUpMinutes,
        }));
        const first = roomTemperature({
          measured: knots(room.measured),
          forecast: knots(room.forecast),
          pattern: patternKnots(
            {
              ...pattern,
              heating: heating.map((h) => ({ ...h, open: openIntervals([h.hours], [], clock, to, from) })),
            },
            clock,
            to,
            from,
          ),
        });
        const second = roomKnots(
          {
            id: 'shed',
            name: 'Shed',
            dustSettleMinutes: 0,
            temperature: {
              measured: told(room.measured),
              forecast: told(room.forecast),
              pattern: { ...pattern, heating },
            },
          },
          makeZone(zone),
          { from, to },
        );
        for (let m = from; m <= to; m += 53)
          expect(degCAt(second, m)).toBeCloseTo(temperatureAt(first, m), 9);
      }),
      { ...SEED, numRuns: 200 },
    );
  });
});
