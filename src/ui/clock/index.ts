/** Times as the screen shows them. */
export { countdownText, durationText } from './duration.ts';
export { DAY, HOUR, type Minute, minuteOf, WEEK } from './minute.ts';
export { type Day, makeZoneClock, type ZoneClock } from './zone-clock.ts';
