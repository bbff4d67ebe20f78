/** A common week drawn as stretches of a day: what an hours editor shows beside its words. */
import type { RecurringHours } from '../../../engine/shop/index.ts';
import { DAYS, readDays, type DayCode } from './recurrence.ts';
import { clockMinutes } from './words.ts';

/** Minutes of the local day, half-open. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** Comes only in some weeks or months. */
  readonly sometimes: boolean;
}

/** Stretches of each weekday, Monday first; a line that runs past midnight goes on in the next day. */
export const openWeek = (lines: readonly RecurringHours[]): readonly (readonly Stretch[])[] => {
  const week: Stretch[][] = DAYS.map(() => []);
  for (const { rule, from, to } of lines) {
    const days = readDays(rule);
    const named: readonly DayCode[] =
      days.kind === 'weeks'
        ? days.days
        : days.kind === 'month'
          ? [days.day]
          : days.kind === 'days'
            ? DAYS
            : [];
    const sometimes = days.kind !== 'weeks' || days.every > 1;
    const start = clockMinutes(from);
    const end = clockMinutes(to);
    for (const day of named) {
      const at = DAYS.indexOf(day);
      if (end > start) week[at].push({ from: start, to: end, sometimes });
      else {
        week[at].push({ from: start, to: 1440, sometimes });
        if (end > 0) week[(at + 1) % 7].push({ from: 0, to: end, sometimes });
      }
    }
  }
  return week.map((day) => day.sort((a, b) => a.from - b.from));
};
