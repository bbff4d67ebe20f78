/** Recurring hours read back in words: `Monday to Friday, 18:30 to 22:00`. */
import type { RecurringHours, TimeOff } from '../../../engine/shop/index.ts';
import { DAYS, readDays, type DayCode, type Days } from './recurrence.ts';

const NAMES: Readonly<Record<DayCode, string>> = {
  MO: 'Monday',
  TU: 'Tuesday',
  WE: 'Wednesday',
  TH: 'Thursday',
  FR: 'Friday',
  SA: 'Saturday',
  SU: 'Sunday',
};

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const ORDINALS: Readonly<Record<number, string>> = {
  1: 'first',
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  [-1]: 'last',
};

/** `Monday, Wednesday and Friday`. */
export const andList = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** `Monday to Friday`, `Saturday and Sunday`, `Monday, Wednesday to Friday`, `every day`, `no day`. */
export const weekdaysText = (days: readonly DayCode[]): string => {
  if (days.length === 0) return 'no day';
  if (days.length === 7) return 'every day';
  const runs: DayCode[][] = [];
  for (const day of DAYS.filter((each) => days.includes(each))) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run && before && DAYS.indexOf(before) === DAYS.indexOf(day) - 1) run.push(day);
    else runs.push([day]);
  }
  return andList(
    runs.flatMap((run) =>
      run.length < 3 ? run.map((day) => NAMES[day]) : [`${NAMES[run[0]]} to ${NAMES[run[run.length - 1]]}`],
    ),
  );
};

/** `28 November 2026` of `2026-11-28`. */
const dateText = (date: string): string => {
  const [year, month, day] = date.slice(0, 10).split('-').map(Number);
  return `${day} ${MONTHS[month - 1] ?? '?'} ${year}`;
};

const everyText = (every: number, one: string): string => {
  if (every === 1) return `every ${one}`;
  return every === 2 ? `every second ${one}` : `every ${every} ${one}s`;
};

const fromStart = (start: string): string => `counted from ${dateText(start)}`;

/** The days of a rule in words. */
export const daysText = (days: Days, start: string): string => {
  switch (days.kind) {
    case 'weeks':
      if (days.every === 1) return weekdaysText(days.days);
      return `${days.days.length === 7 ? 'every day' : weekdaysText(days.days)} of ${everyText(days.every, 'week')}, ${fromStart(start)}`;
    case 'days':
      return days.every === 1 ? 'every day' : `${everyText(days.every, 'day')}, ${fromStart(start)}`;
    case 'month':
      return `the ${ORDINALS[days.nth]} ${NAMES[days.day]} of every month`;
    case 'other':
      return otherText(days.rule, start);
  }
};

const isDay = (text: string): text is DayCode => DAYS.some((day) => day === text);

/** Reads out a rule that the editor does not turn, part by part; a part without words of ours is shown as it stands. */
const otherText = (rule: string, start: string): string => {
  const parts = new Map(
    rule
      .toUpperCase()
      .split(';')
      .map((part) => [part.split('=')[0], part.split('=')[1] ?? ''] as const),
  );
  const take = (name: string): string | undefined => {
    const value = parts.get(name);
    parts.delete(name);
    return value;
  };
  const frequency = take('FREQ') ?? '';
  const unit = { DAILY: 'day', WEEKLY: 'week', MONTHLY: 'month', YEARLY: 'year' }[frequency];
  if (unit === undefined) return `by the rule ${rule}`;
  const every = Number(take('INTERVAL') ?? 1);
  const byDay = take('BYDAY');
  const byMonthDay = take('BYMONTHDAY');
  const byMonth = take('BYMONTH');
  const until = take('UNTIL');
  const count = take('COUNT');
  take('WKST');
  const when = [
    byDay === undefined ? undefined : dayList(byDay),
    byMonthDay === undefined ? undefined : `the ${andList(byMonthDay.split(',').map(nthDay))}`,
  ].filter((word) => word !== undefined);
  const words = [
    when.length === 0 ? everyText(every, unit) : `${when.join(' that is ')} of ${everyText(every, unit)}`,
    ...(byMonth === undefined
      ? []
      : [`in ${andList(byMonth.split(',').map((month) => MONTHS[Number(month) - 1] ?? month))}`]),
    ...(until === undefined
      ? []
      : [`until ${dateText(`${until.slice(0, 4)}-${until.slice(4, 6)}-${until.slice(6, 8)}`)}`]),
    ...(count === undefined ? [] : [Number(count) === 1 ? 'once' : `${Number(count)} times`]),
    ...[...parts].map(([name, value]) => `${name} ${value}`),
    ...(every > 1 || count !== undefined ? [fromStart(start)] : []),
  ];
  return words.join(', ');
};

const dayList = (byDay: string): string => {
  const each = byDay.split(',');
  if (each.every(isDay)) return weekdaysText(each);
  return andList(
    each.map((item) => {
      const found = /^([+-]?\d+)?(MO|TU|WE|TH|FR|SA|SU)$/.exec(item);
      if (!found || !isDay(found[2])) return item;
      const name = NAMES[found[2]];
      if (found[1] === undefined) return name;
      return `the ${ORDINALS[Number(found[1])] ?? `${Number(found[1])}th`} ${name}`;
    }),
  );
};

const nthDay = (text: string): string => {
  const day = Number(text);
  if (day === -1) return 'last day';
  if (day < 0) return `day ${-day} from the end`;
  const tail = day % 100 >= 11 && day % 100 <= 13 ? 'th' : ({ 1: 'st', 2: 'nd', 3: 'rd' }[day % 10] ?? 'th');
  return `${day}${tail}`;
};

/** `18:30 to 22:00`; `22:00 to 06:00 the next day`. */
const clockText = (from: string, to: string): string =>
  to === '24:00' ? `${from} to midnight` : `${from} to ${to}${to <= from ? ' the next day' : ''}`;

/** `Monday to Friday, 18:30 to 22:00`. */
export const hoursText = (hours: RecurringHours): string =>
  `${daysText(readDays(hours.rule), hours.start)}, ${clockText(hours.from, hours.to)}`;

const momentText = (moment: string): string =>
  moment.includes('T') ? `${dateText(moment)} ${moment.slice(11, 16)}` : dateText(moment);

/** `26 November 2026`; `24 December 2026 to 2 January 2027: holidays`. */
export const offText = (off: TimeOff): string => {
  const days =
    off.from === off.to ? momentText(off.from) : `${momentText(off.from)} to ${momentText(off.to)}`;
  return off.why === undefined ? days : `${days}: ${off.why}`;
};

/** Hands-on hours that the lines give in a common week; null when a line does not come every week. */
export const weeklyMinutes = (lines: readonly RecurringHours[]): number | null => {
  const open = new Uint8Array(7 * 1440);
  for (const { rule, from, to } of lines) {
    const days = readDays(rule);
    if (days.kind !== 'weeks' || days.every !== 1) return null;
    const start = clockMinutes(from);
    const end = to <= from ? clockMinutes(to) + 1440 : clockMinutes(to);
    for (const day of days.days) {
      const base = DAYS.indexOf(day) * 1440;
      for (let minute = start; minute < end; minute++) open[(base + minute) % open.length] = 1;
    }
  }
  return open.reduce((sum, minute) => sum + minute, 0);
};

export const clockMinutes = (clock: string): number =>
  Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
