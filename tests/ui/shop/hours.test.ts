/** Recurring hours: what the editor writes, reads and says. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { datesOfRule } from '../../../src/engine/time/index.ts';
import { openWeek } from '../../../src/ui/shop/hours/open-week.ts';
import {
  countsFromStart,
  DAYS,
  readDays,
  writeDays,
  type Days,
} from '../../../src/ui/shop/hours/recurrence.ts';
import {
  daysText,
  hoursText,
  offText,
  weekdaysText,
  weeklyMinutes,
} from '../../../src/ui/shop/hours/words.ts';

const line = (rule: string, from = '09:00', to = '17:00', start = '2026-01-05') => ({
  rule,
  from,
  to,
  start,
});

const someDays: fc.Arbitrary<Days> = fc.oneof(
  fc.record({
    kind: fc.constant('weeks' as const),
    every: fc.integer({ min: 1, max: 9 }),
    days: fc.subarray([...DAYS], { minLength: 1 }),
  }),
  fc.record({ kind: fc.constant('days' as const), every: fc.integer({ min: 2, max: 30 }) }),
  fc.record({
    kind: fc.constant('month' as const),
    nth: fc.constantFrom(1, 2, 3, 4, -1),
    day: fc.constantFrom(...DAYS),
  }),
);

describe('a rule of days', () => {
  test('what the editor writes it reads back', () => {
    fc.assert(
      fc.property(someDays, (days) => {
        expect(readDays(writeDays(days))).toEqual(days);
      }),
      { seed: 20261125 },
    );
  });

  test('the days that are written are the days on which the shop is open, counted on a calendar by hand', () => {
    fc.assert(
      fc.property(someDays, (days) => {
        const dates = datesOfRule(writeDays(days), '2026-11-02', '2027-01-31', '2026-11-02');
        const expected = calendar('2026-11-02', '2027-01-31').filter((date) =>
          fallsOn(days, date, '2026-11-02'),
        );
        expect(dates).toEqual(expected);
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });

  test('no day chosen yet is still a rule of weeks in the editor', () => {
    expect(readDays(writeDays({ kind: 'weeks', every: 1, days: [] }))).toEqual({
      kind: 'weeks',
      every: 1,
      days: [],
    });
  });

  test('a rule that says more than the editor can turn is kept as it is', () => {
    for (const rule of [
      'FREQ=WEEKLY;BYDAY=MO;COUNT=4',
      'FREQ=MONTHLY;BYMONTHDAY=-1',
      'FREQ=YEARLY;BYMONTH=12;BYMONTHDAY=24',
      'FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=SU',
      'FREQ=MONTHLY;BYDAY=1SA,3SA',
    ]) {
      expect(readDays(rule)).toEqual({ kind: 'other', rule });
      expect(writeDays(readDays(rule))).toBe(rule);
    }
  });

  test('only a rule that counts asks for a first day', () => {
    expect(countsFromStart(readDays('FREQ=WEEKLY;BYDAY=MO'))).toBe(false);
    expect(countsFromStart(readDays('FREQ=WEEKLY;INTERVAL=2;BYDAY=MO'))).toBe(true);
    expect(countsFromStart(readDays('FREQ=WEEKLY;BYDAY=MO;COUNT=4'))).toBe(true);
  });
});

describe('hours in words', () => {
  test.each([
    ['FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', 'Monday to Friday'],
    ['FREQ=WEEKLY;BYDAY=SU,SA', 'Saturday and Sunday'],
    ['FREQ=WEEKLY;BYDAY=MO,WE,TH,FR', 'Monday and Wednesday to Friday'],
    ['FREQ=DAILY', 'every day'],
    ['FREQ=DAILY;INTERVAL=3', 'every 3 days, counted from 5 January 2026'],
    ['FREQ=WEEKLY;INTERVAL=2;BYDAY=SA', 'Saturday of every second week, counted from 5 January 2026'],
    ['FREQ=MONTHLY;BYDAY=1SA', 'the first Saturday of every month'],
    ['FREQ=MONTHLY;BYDAY=-1FR', 'the last Friday of every month'],
    ['FREQ=MONTHLY;BYMONTHDAY=15', 'the 15th of every month'],
    ['FREQ=MONTHLY;BYMONTHDAY=1,22,-1', 'the 1st, 22nd and last day of every month'],
    ['FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13', 'Friday that is the 13th of every month'],
    ['FREQ=WEEKLY;BYDAY=MO;UNTIL=20261224', 'Monday of every week, until 24 December 2026'],
    ['FREQ=WEEKLY;BYDAY=MO;COUNT=4', 'Monday of every week, 4 times, counted from 5 January 2026'],
    ['FREQ=YEARLY;BYMONTH=12;BYMONTHDAY=24', 'the 24th of every year, in December'],
    ['FREQ=DAILY;BYHOUR=3', 'every day, BYHOUR 3'],
  ])('%s is read out as "%s"', (rule, words) => {
    expect(daysText(readDays(rule), '2026-01-05')).toBe(words);
  });

  test('an end at or before the beginning is the next day', () => {
    expect(hoursText(line('FREQ=WEEKLY;BYDAY=FR', '22:00', '02:00'))).toBe(
      'Friday, 22:00 to 02:00 the next day',
    );
    expect(hoursText(line('FREQ=WEEKLY;BYDAY=FR', '18:00', '24:00'))).toBe('Friday, 18:00 to midnight');
  });

  test('days off say from when to when, and why', () => {
    expect(offText({ from: '2026-11-26', to: '2026-11-26', why: 'family dinner' })).toBe(
      '26 November 2026: family dinner',
    );
    expect(offText({ from: '2026-12-24', to: '2027-01-02' })).toBe('24 December 2026 to 2 January 2027');
    expect(offText({ from: '2026-11-26T12:00', to: '2026-11-26T15:30' })).toBe(
      '26 November 2026 12:00 to 26 November 2026 15:30',
    );
  });

  test('no day chosen is said and not hidden', () => {
    expect(weekdaysText([])).toBe('no day');
  });
});

describe('a common week', () => {
  test('overlapping lines count once, and a night runs into the next day', () => {
    const evenings = line('FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', '18:30', '22:00');
    const late = line('FREQ=WEEKLY;BYDAY=FR,SU', '21:00', '01:00');
    expect(weeklyMinutes([evenings])).toBe(5 * 210);
    // Friday 21:00 to 22:00 is in both; Sunday's last hour falls on Monday.
    expect(weeklyMinutes([evenings, late])).toBe(5 * 210 + 2 * 240 - 60);
    const week = openWeek([late]);
    expect(week[4]).toEqual([{ from: 1260, to: 1440, sometimes: false }]);
    expect(week[5]).toEqual([{ from: 0, to: 60, sometimes: false }]);
    expect(week[0]).toEqual([{ from: 0, to: 60, sometimes: false }]);
  });

  test('hours that do not come every week have no weekly sum', () => {
    expect(weeklyMinutes([line('FREQ=WEEKLY;INTERVAL=2;BYDAY=SA')])).toBeNull();
    expect(openWeek([line('FREQ=WEEKLY;INTERVAL=2;BYDAY=SA')])[5][0].sometimes).toBe(true);
  });
});

/** Every date from first to last. */
function calendar(first: string, last: string): string[] {
  const dates: string[] = [];
  for (let ms = Date.parse(`${first}T00:00Z`); ms <= Date.parse(`${last}T00:00Z`); ms += 86_400_000) {
    dates.push(new Date(ms).toISOString().slice(0, 10));
  }
  return dates;
}

/** Counted with fingers: weeks begin on Monday, and 2 November 2026 is one. */
function fallsOn(days: Days, date: string, start: string): boolean {
  const day = new Date(`${date}T00:00Z`);
  const passed = Math.round((day.getTime() - Date.parse(`${start}T00:00Z`)) / 86_400_000);
  const code = DAYS[(day.getUTCDay() + 6) % 7];
  switch (days.kind) {
    case 'weeks':
      return Math.floor(passed / 7) % days.every === 0 && days.days.includes(code);
    case 'days':
      return passed % days.every === 0;
    case 'month': {
      const after = new Date(day.getTime() + 7 * 86_400_000);
      const nth = Math.ceil(day.getUTCDate() / 7);
      return (
        code === days.day && (days.nth === -1 ? after.getUTCMonth() !== day.getUTCMonth() : nth === days.nth)
      );
    }
    default:
      return false;
  }
}
