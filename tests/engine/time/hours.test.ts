import { describe, expect, it } from 'vitest';
import {
  dailyMinutes,
  datesOfRule,
  hoursFault,
  localParts,
  makeClock,
  openIntervals,
  ruleFault,
  toIso,
  toMinute,
  totalMinutes,
} from '../../../src/engine/time/index.ts';
import type { Clock, Intervals } from '../../../src/engine/time/index.ts';

const readable = (clock: Clock, open: Intervals): string[] =>
  Array.from(open, (minute) => toIso(clock, minute));

// The examples of RFC 5545 section 3.8.5.3, America/New_York, 09:00 local.
describe('recurrence rules fall on the days that RFC 5545 section 3.8.5.3 gives', () => {
  it.each([
    [
      'FREQ=DAILY;COUNT=10',
      '1997-09-02',
      [2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((d) => `1997-09-${String(d).padStart(2, '0')}`),
    ],
    [
      'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO',
      '1997-08-05',
      ['1997-08-05', '1997-08-10', '1997-08-19', '1997-08-24'],
    ],
    [
      'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU',
      '1997-08-05',
      ['1997-08-05', '1997-08-17', '1997-08-19', '1997-08-31'],
    ],
    [
      'FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13',
      '1997-09-02',
      ['1998-02-13', '1998-03-13', '1998-11-13', '1999-08-13', '2000-10-13'],
    ],
  ])('%s from %s', (rule, start, dates) => {
    expect(datesOfRule(rule, '1997-01-01', '2000-12-31', start)).toEqual(dates);
  });

  it('every other week keeps 09:00 on the wall from summer into winter', () => {
    const clock = makeClock('America/New_York', '1997-09-01T00:00');
    const rule = { rule: 'FREQ=WEEKLY;INTERVAL=2;WKST=SU', from: '09:00', to: '10:00', start: '1997-09-02' };
    const open = readable(clock, openIntervals([rule], [], clock, toMinute(clock, '1997-11-30')));
    expect(open.filter((_, i) => i % 2 === 0)).toEqual([
      '1997-09-02T09:00-04:00',
      '1997-09-16T09:00-04:00',
      '1997-09-30T09:00-04:00',
      '1997-10-14T09:00-04:00',
      '1997-10-28T09:00-05:00',
      '1997-11-11T09:00-05:00',
      '1997-11-25T09:00-05:00',
    ]);
  });

  it('begins to count at its start date even when that is long before the plan', () => {
    expect(datesOfRule('FREQ=DAILY;INTERVAL=3', '2026-11-20', '2026-11-26', '2020-01-01')).toEqual(
      [
        '2026-11-20',
        '2026-11-21',
        '2026-11-22',
        '2026-11-23',
        '2026-11-24',
        '2026-11-25',
        '2026-11-26',
      ].filter((date) => (Date.parse(date) - Date.parse('2020-01-01')) % (3 * 86_400_000) === 0),
    );
  });
});

describe('hours across the changes of the clock (IANA tz database)', () => {
  const nights = [{ rule: 'FREQ=DAILY', from: '01:00', to: '05:00' }];
  it.each([
    ['America/New_York', '2026-03-08', 180],
    ['America/New_York', '2026-11-01', 300],
    ['Europe/Berlin', '2026-03-29', 180],
    ['Europe/Berlin', '2026-10-25', 300],
    ['Europe/Berlin', '2026-10-26', 240],
  ])('01:00 to 05:00 in %s on %s lasts %i minutes', (zone, date, minutes) => {
    const clock = makeClock(zone, date);
    expect(totalMinutes(openIntervals(nights, [], clock, 12 * 60))).toBe(minutes);
  });

  it('a shop that works over midnight of the change loses an hour in spring and gains one in autumn', () => {
    const rule = [{ rule: 'FREQ=WEEKLY;BYDAY=SA', from: '22:00', to: '04:00' }];
    const spring = makeClock('America/New_York', '2026-03-07T12:00');
    const autumn = makeClock('America/New_York', '2026-10-31T12:00');
    expect(readable(spring, openIntervals(rule, [], spring, 1440))).toEqual([
      '2026-03-07T22:00-05:00',
      '2026-03-08T04:00-04:00',
    ]);
    expect(totalMinutes(openIntervals(rule, [], spring, 1440))).toBe(5 * 60);
    expect(totalMinutes(openIntervals(rule, [], autumn, 1440))).toBe(7 * 60);
  });

  it('a year of evenings always opens at 17:30 and closes at 21:30 on the wall', () => {
    const clock = makeClock('Europe/Berlin', '2026-01-01');
    const open = openIntervals(
      [{ rule: 'FREQ=WEEKLY;BYDAY=MO,TU', from: '17:30', to: '21:30' }],
      [],
      clock,
      365 * 1440,
    );
    expect(open.length).toBe(2 * 104);
    for (let i = 0; i < open.length; i += 2) {
      expect(localParts(clock, open[i]).time).toBe('17:30');
      expect(localParts(clock, open[i + 1]).time).toBe('21:30');
      expect(localParts(clock, open[i]).weekday).toBeLessThan(3);
    }
  });

  it('a daily time is met once a day, moved where the clocks skip it', () => {
    const clock = makeClock('America/New_York', '2026-03-07');
    expect(Array.from(dailyMinutes(clock, '02:30', 0, 3 * 1440), (m) => toIso(clock, m))).toEqual([
      '2026-03-07T02:30-05:00',
      '2026-03-08T03:30-04:00',
      '2026-03-09T02:30-04:00',
    ]);
  });
});

describe('hours and time off', () => {
  const clock = makeClock('Europe/Berlin', '2026-11-23T00:00'); // a Monday
  const workdays = { rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', from: '08:00', to: '16:00' };
  it('leave out whole days, both ends included, and parts of days', () => {
    const off = [
      { from: '2026-11-24', to: '2026-11-25' },
      { from: '2026-11-26T10:00', to: '2026-11-26T12:00' },
    ];
    expect(
      readable(clock, openIntervals([workdays], off, clock, 7 * 1440)).map((iso) => iso.slice(5, 16)),
    ).toEqual([
      '11-23T08:00',
      '11-23T16:00',
      '11-26T08:00',
      '11-26T10:00',
      '11-26T12:00',
      '11-26T16:00',
      '11-27T08:00',
      '11-27T16:00',
    ]);
  });
  it('join where they overlap, and a whole day from 00:00 to 24:00 has no seam', () => {
    const always = { rule: 'FREQ=DAILY', from: '00:00', to: '24:00' };
    expect([...openIntervals([workdays, always], [], clock, 3 * 1440)]).toEqual([0, 3 * 1440]);
    expect([...openIntervals([{ ...always, to: '00:00' }], [], clock, 3 * 1440, -60)]).toEqual([
      -60,
      3 * 1440,
    ]);
  });
  it('that began the evening before are still open at the first minute', () => {
    const late = { rule: 'FREQ=WEEKLY;BYDAY=SU', from: '22:00', to: '02:00' };
    expect([...openIntervals([late], [], clock, 1440)]).toEqual([0, 120]);
  });
  it('stop with their last day', () => {
    const until = { ...workdays, rule: `${workdays.rule};UNTIL=20261124` };
    expect(totalMinutes(openIntervals([until], [], clock, 7 * 1440))).toBe(2 * 8 * 60);
  });
  it('say what is wrong with them', () => {
    expect(ruleFault('FREQ=WEEKLY;BYDAY=MO')).toBeNull();
    expect(ruleFault('RRULE:FREQ=WEEKLY;BYDAY=MO')).toBeNull();
    expect(ruleFault('every Monday')).toContain('"EVERY MONDAY" in "every Monday" is no part of a rule');
    expect(ruleFault('FREQ=HOURLY')).toContain(
      'FREQ in "FREQ=HOURLY" is "HOURLY"; right would be one of DAILY',
    );
    expect(ruleFault('FREQ=WEEKLY;BYDAY=XX')).toContain('right would be days like MO,TU');
    expect(ruleFault('FREQ=WEEKLY;BYDAY=MO;BYHOUR=9')).toContain('"BYHOUR"');
    expect(ruleFault('BYDAY=MO')).toContain('no FREQ');
    expect(ruleFault('FREQ=WEEKLY')).toContain('needs a start date');
    expect(ruleFault('FREQ=WEEKLY;INTERVAL=2;BYDAY=MO')).toContain('needs a start date');
    expect(ruleFault('FREQ=WEEKLY;INTERVAL=2;BYDAY=MO', '2026-11-23')).toBeNull();
    expect(ruleFault('FREQ=DAILY;COUNT=0', '2026-11-23')).toContain('a whole number from 1 on');
    expect(ruleFault('FREQ=DAILY;UNTIL=20260230')).toContain('a date like 20261231');
    expect(ruleFault('FREQ=DAILY;COUNT=2;UNTIL=20261231', '2026-11-23')).toContain('at most one');
    expect(hoursFault({ ...workdays, to: '16.00' })).toContain('to is "16.00"; right would be "HH:MM"');
    expect(() => openIntervals([{ ...workdays, rule: 'FREQ=FOO' }], [], clock, 1440)).toThrow(
      'hours: FREQ in "FREQ=FOO"',
    );
    expect(() => openIntervals([], [{ from: '2026-11-25', to: '2026-11-24' }], clock, 1440)).toThrow(
      'it ends ("2026-11-24") before',
    );
  });
});
