/** Moments of one plan as people read them, on the shop's clock. */
import type { Plan } from '../../engine/index.ts';
import {
  addDays,
  formatMoment,
  formatTime,
  localParts,
  makeClock,
  toMinute,
} from '../../engine/time/index.ts';

/** `Thu` of `Thu 26 Nov 14:20`. */
const WEEKDAY_LENGTH = 3;

export interface Moments {
  /** Local date of the plan's `now`, and the next. */
  readonly today: string;
  readonly tomorrow: string;
  /** Whole minutes since the plan's `now`; for order and differences. */
  minute(iso: string): number;
  /** `YYYY-MM-DD` on the shop's clock. */
  date(iso: string): string;
  /** `14:20` */
  time(iso: string): string;
  /** `14:20` on the given date, `Thu 14:20` on another within six days, else `Thu 26 Nov 14:20`. */
  timeSeenFrom(date: string, iso: string): string;
  /** `Thu 26 Nov 14:20` */
  full(iso: string): string;
}

export function momentsOf(plan: Plan): Moments {
  const clock = makeClock(plan.zone, plan.now);
  const minute = (iso: string) => toMinute(clock, iso);
  const date = (iso: string) => localParts(clock, minute(iso)).date;
  const time = (iso: string) => formatTime(clock, minute(iso));
  const full = (iso: string) => formatMoment(clock, minute(iso));
  const today = date(plan.now);
  return {
    today,
    tomorrow: addDays(today, 1),
    minute,
    date,
    time,
    full,
    timeSeenFrom: (from, iso) => {
      const at = date(iso);
      if (at === from) return time(iso);
      if (at < addDays(from, -6) || at > addDays(from, 6)) return full(iso);
      return `${full(iso).slice(0, WEEKDAY_LENGTH)} ${time(iso)}`;
    },
  };
}
