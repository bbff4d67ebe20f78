/** The shop's clock: whole minutes since the plan's epoch, its zone, recurring hours, and calendars as maps. */
export type { Clock, LocalParts } from './clock.ts';
export {
  addDays,
  clockAt,
  formatDay,
  formatDuration,
  formatMoment,
  formatTime,
  isDate,
  isTimeOfDay,
  isZone,
  localParts,
  luxonTime,
  makeClock,
  minuteOfLocal,
  minutesOfDay,
  toDeadline,
  toIso,
  toMinute,
  utcOffsetMinutes,
} from './clock.ts';
export type { Intervals } from './intervals.ts';
export {
  clip,
  complement,
  holds,
  intersect,
  intervalAt,
  NO_TIME,
  subtract,
  tidy,
  totalMinutes,
  union,
} from './intervals.ts';
export type { Hours, TimeOff } from './hours.ts';
export { dailyMinutes, hoursFault, openIntervals } from './hours.ts';
export { datesOfRule, ruleFault } from './recurrence.ts';
export { nextOpen, startsThatFit, workEnd } from './work.ts';
