/** Hours that come again: turned, drawn and read back in words. */
export { HoursEditor } from './hours-editor.tsx';
export { OffEditor } from './off-editor.tsx';
export { DAYS, readDays, writeDays, type DayCode } from './recurrence.ts';
export { WeekStrip } from './week-strip.tsx';
export { andList, clockMinutes, hoursText, offText, weeklyMinutes } from './words.ts';
