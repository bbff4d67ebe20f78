/** Whether zone, hours, closures, readings and daily patterns make sense. */
import { hoursFault, isZone, makeClock, toMinute } from '../../time/index.ts';
import type { Draft } from '../draft.ts';
import { nearest, type PathKey } from '../faults.ts';
import type { RecurringHours, Room, TimeOff } from '../schema/shop.ts';
import type { Verdict } from './verdict.ts';

const COMMON_ZONES = [
  'America/Chicago',
  'America/Denver',
  'America/Los_Angeles',
  'America/New_York',
  'America/Toronto',
  'Asia/Tokyo',
  'Australia/Sydney',
  'Europe/Berlin',
  'Europe/Dublin',
  'Europe/Lisbon',
  'Europe/London',
  'Europe/Paris',
  'UTC',
];

/** A minute count for comparing the file's moments; in UTC as long as the zone itself is wrong. */
export function minuteReader(draft: Draft): (moment: string) => number {
  const clock = makeClock(
    draft.zone !== undefined && isZone(draft.zone) ? draft.zone : 'UTC',
    '2000-01-01T00:00Z',
  );
  return (moment) => toMinute(clock, moment);
}

export function judgeCalendar(draft: Draft, verdict: Verdict): void {
  const { zone } = draft;
  if (zone !== undefined && zone !== '' && !isZone(zone)) {
    const meant = nearest(zone, COMMON_ZONES) ?? 'Europe/Lisbon';
    verdict.wrong(['zone'], zone, `must be a time zone of the IANA list, such as "${meant}"`);
  }
  const minute = minuteReader(draft);
  const judgeOff = (off: TimeOff, path: readonly PathKey[]): void => {
    const bothDates = off.from.length === 10 && off.to.length === 10;
    // Two bare dates are both included, so one and the same is a whole day.
    if (bothDates ? off.to < off.from : endOf(off.to, minute) <= minute(off.from)) {
      verdict.wrong([...path, 'to'], off.to, `must be after "from", which is ${off.from}`);
    }
  };
  draft.closures.forEach(({ index, entry }) => judgeOff(entry, ['closures', index]));
  for (const { index, entry: person } of draft.people) {
    person.hours.forEach((hours, k) => judgeHours(hours, ['people', index, 'hours', k], verdict));
    person.unloved.forEach((hours, k) => judgeHours(hours, ['people', index, 'unloved', k], verdict));
    person.off.forEach((off, k) => judgeOff(off, ['people', index, 'off', k]));
  }
  for (const { index, entry } of draft.rooms) judgeRoom(entry, index, minute, verdict);
}

const DAY_MINUTES = 1440;
const endOf = (to: string, minute: (moment: string) => number): number =>
  minute(to) + (to.length === 10 ? DAY_MINUTES : 0);

function judgeHours(hours: RecurringHours, path: readonly PathKey[], { wrong, odd }: Verdict): void {
  const message = hoursFault(hours);
  if (message !== null) {
    const key = hours.from === '24:00' ? 'from' : 'rule';
    wrong([...path, key], hours[key], message);
  } else if (hours.from === hours.to) {
    odd([...path, 'to'], hours.to, 'the same as "from", so these hours last a whole day and night');
  }
}

function judgeRoom(
  room: Room,
  index: number,
  minute: (moment: string) => number,
  { wrong, odd }: Verdict,
): void {
  const { pattern, measured, forecast } = room.temperature;
  const at = ['rooms', index, 'temperature'] as const;
  if (pattern.nightLowDegC > pattern.dayHighDegC) {
    odd(
      [...at, 'pattern', 'nightLowDegC'],
      pattern.nightLowDegC,
      `above dayHighDegC (${pattern.dayHighDegC}): nights are mostly the colder part of the day`,
    );
  }
  if (pattern.nightLowAt.replace('24:', '00:') === pattern.dayHighAt.replace('24:', '00:')) {
    wrong([...at, 'pattern', 'dayHighAt'], pattern.dayHighAt, 'must be another time of day than nightLowAt');
  }
  pattern.heating.forEach(({ hours, degC }, k) => {
    judgeHours(hours, [...at, 'pattern', 'heating', k, 'hours'], { wrong, odd });
    if (degC < pattern.nightLowDegC) {
      odd(
        [...at, 'pattern', 'heating', k, 'degC'],
        degC,
        `the room is never colder than ${pattern.nightLowDegC} degC, so this heating does nothing`,
      );
    }
  });
  const series = [
    { path: [...at, 'measured'], readings: measured },
    { path: [...at, 'forecast'], readings: forecast },
    {
      path: ['rooms', index, 'humidityPercent'],
      readings: typeof room.humidityPercent === 'object' ? room.humidityPercent : [],
    },
  ];
  for (const { path, readings } of series) {
    const seen = new Map<number, number>();
    readings.forEach((reading, k) => {
      const earlier = seen.get(minute(reading.at));
      if (earlier === undefined) seen.set(minute(reading.at), k);
      else wrong([...path, k, 'at'], reading.at, `must be another moment than entry ${earlier} of this list`);
    });
  }
}
