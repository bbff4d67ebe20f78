/**
 * The plan as an iCalendar file (RFC 5545): hands-on work, tack windows, and the moments at which forms free up.
 *
 * A second import updates the first. UIDs name the piece, its step and the shop, so the same step has the same one in
 * every plan. SEQUENCE is the number of minutes from the start of 2020 (UTC) to the plan's `now`: a plan made later has
 * a larger one whatever it has moved, two plans of the same minute have the same. DTSTAMP is the plan's `now`; nothing
 * here asks for the time of day, so the same plan gives the same bytes. What a new plan no longer has (a scuff that is
 * not needed) a calendar cannot see; give `standing`, the plan imported before, and it is cancelled.
 */
import ical, {
  ICalAlarmRelatesTo,
  ICalAlarmType,
  ICalCalendarMethod,
  ICalEventStatus,
  ICalEventTransparency,
} from 'ical-generator';
import { cupsOf } from '../mix/index.ts';
import type { Plan, PlanStep } from '../plan/document.ts';
import { isAttended, type Shop } from '../shop/index.ts';
import { formatDuration, luxonTime, makeClock, toMinute, type Clock } from '../time/index.ts';
import { cupCard } from './cup-card.ts';
import { cupNumbers } from './run-sheet.ts';
import { namesOf, placeName, stepTitle, surfaceName, type Names } from './words.ts';
import { isShownTwice, vtimezone } from './vtimezone.ts';

/** One entry of the calendar, before it is written. Minutes count from the plan's `now`. */
export interface CalendarEntry {
  readonly uid: string;
  readonly from: number;
  /** Undefined for a moment. */
  readonly to: number | undefined;
  readonly title: string;
  readonly where: string;
  readonly about: string;
  /** Whether someone has their hands on it: then it takes their time in the calendar. */
  readonly isBusy: boolean;
  /** Minutes after `from` (`start`) or before `to` (`end`) at which to ring. */
  readonly alarms: readonly {
    readonly of: 'start' | 'end';
    readonly minutes: number;
    readonly text: string;
  }[];
}

const SEQUENCE_EPOCH = '2020-01-01T00:00Z';
/** The second alarm of a window: this long before it closes, or a quarter of its width if that is less. */
const BEFORE_CLOSE_MINUTES = 30;
/** Changes of the clocks are told for a year before the plan and one after it. */
const AROUND_MINUTES = 366 * 1440;

export interface CalendarOptions {
  /** The plan that was imported before: what is in it and not in this one is cancelled. */
  readonly standing?: Plan;
}

/** The whole file; lines end in CRLF. @throws RangeError when the plan names what the shop does not have */
export function toCalendar(shop: Shop, plan: Plan, { standing }: CalendarOptions = {}): string {
  const clock = makeClock(plan.zone, plan.now);
  const entries = calendarEntries(shop, plan);
  const kept = new Set(entries.map(({ uid }) => uid));
  const before = standing ? makeClock(standing.zone, standing.now) : clock;
  const gone = standing
    ? calendarEntries(shop, standing).filter(
        ({ uid, from }) => !kept.has(uid) && minutesFrom(before, clock, from) > 0,
      )
    : [];
  const ends = entries.map(({ from, to }) => to ?? from);
  const starts = entries.map(({ from }) => from);
  const calendar = ical({
    name: escaped(plan.shop),
    prodId: { company: 'Pourwright', product: 'Pourwright', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    // The zone is given to each event: given to the calendar it would turn DTSTAMP into local time, which must be UTC.
    timezone: {
      name: null,
      generator: () =>
        vtimezone(clock, Math.min(0, ...starts) - AROUND_MINUTES, Math.max(0, ...ends) + AROUND_MINUTES),
    },
  });
  const write = (entry: CalendarEntry, own: Clock, status: ICalEventStatus): void => {
    const end = entry.to === undefined ? undefined : luxonTime(own, entry.to);
    const event = calendar.createEvent({
      id: entry.uid,
      sequence: sequenceOf(plan),
      stamp: luxonTime(clock, 0),
      lastModified: luxonTime(clock, 0),
      start: luxonTime(own, entry.from),
      ...(end ? { end } : {}),
      timezone: isTold(own, entry) ? plan.zone : null,
      summary: entry.title,
      location: entry.where === '' ? null : entry.where,
      description: entry.about === '' ? null : entry.about,
      status,
      transparency: entry.isBusy ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
    });
    if (status === ICalEventStatus.CANCELLED) return;
    for (const { of, minutes, text } of entry.alarms) {
      const alarm = event.createAlarm({
        type: ICalAlarmType.display,
        trigger: of === 'end' ? minutes * 60 : -minutes * 60,
        description: text,
      });
      // Only this way: given with the others, the library forgets it.
      alarm.relatesTo(of === 'end' ? ICalAlarmRelatesTo.end : ICalAlarmRelatesTo.start);
    }
  };
  for (const entry of entries) write(entry, clock, ICalEventStatus.CONFIRMED);
  for (const entry of gone) write(entry, before, ICalEventStatus.CANCELLED);
  return `${calendar.toString()}\r\n`;
}

/** Whether local times say which moments are meant; in the hour that comes twice only UTC does. */
const isTold = (clock: Clock, { from, to }: CalendarEntry): boolean =>
  !isShownTwice(clock, from) && (to === undefined || !isShownTwice(clock, to));

/** SEQUENCE of every event of a plan; see the head of this file. */
export const sequenceOf = (plan: Plan): number => toMinute(makeClock('UTC', SEQUENCE_EPOCH), plan.now);

const minutesFrom = (own: Clock, other: Clock, minute: number): number =>
  minute + (own.epochMs - other.epochMs) / 60_000;

/** The library writes the calendar's name as it is; a name may hold what ends a value. */
const escaped = (text: string): string =>
  text.replaceAll(/[\\;,]/g, (sign) => `\\${sign}`).replaceAll(/\r\n|\r|\n/g, '\\n');

/** Everything of the plan that is still ahead or under way, in order of time. */
export function calendarEntries(shop: Shop, plan: Plan): CalendarEntry[] {
  const clock = makeClock(plan.zone, plan.now);
  const names = namesOf(shop);
  const uid = (piece: string, what: string): string => `${piece}.${what}@${slug(plan.shop)}.pourwright`;
  const mixing = mixingWords(shop, plan);
  const entries = plan.steps.flatMap((step): CalendarEntry[] => {
    if (step.state === 'done' || step.kind === 'mix') return [];
    if (step.kind !== 'ready' && !isAttended(step.step)) return [];
    return [
      workEntry(step, plan, clock, names, uid(step.piece, step.step), mixing),
      ...windowEntry(step, clock, names, uid(step.piece, `${step.step}.window`)),
    ];
  });
  const frees = plan.holds
    .filter((hold) => hold.what === 'form' && toMinute(clock, hold.to) > 0)
    .map((hold): CalendarEntry => {
      const form = names.form(hold.id, hold.unit);
      return {
        uid: uid(hold.piece, 'form.frees-up'),
        from: toMinute(clock, hold.to),
        to: undefined,
        title: `${form} frees up`,
        where: '',
        about: `after ${names.piece(hold.piece)}`,
        isBusy: false,
        alarms: [],
      };
    });
  return [...entries, ...frees].sort((a, b) => a.from - b.from || (a.uid < b.uid ? -1 : 1));
}

function workEntry(
  step: PlanStep,
  plan: Plan,
  clock: Clock,
  names: Names,
  uid: string,
  mixing: (piece: string, step: string) => string,
): CalendarEntry {
  const own = toMinute(clock, step.start);
  const mix = plan.steps.find(
    (s) => s.piece === step.piece && s.kind === 'mix' && s.step === `${step.step.replace(/-pour$/, '')}-mix`,
  );
  const title = mix ? `Mix, then ${stepTitle(step).toLowerCase()}` : stepTitle(step);
  const hands = step.handsOnMinutes + (mix?.handsOnMinutes ?? 0);
  const isReady = step.kind === 'ready';
  return {
    uid,
    from: mix ? toMinute(clock, mix.start) : own,
    to: isReady ? undefined : toMinute(clock, step.end),
    title: `${names.piece(step.piece)}: ${isReady ? 'ready' : title}`,
    where: placeName(step, names),
    about: [
      ...(isReady ? [] : [`hands-on ${formatDuration(hands)}`]),
      ...(step.people.length > 0 ? [step.people.map(names.person).join(', ')] : []),
      ...(step.resin === undefined ? [] : [mixing(step.piece, step.step)]),
    ].join('\n'),
    isBusy: !isReady,
    alarms: [],
  };
}

/** "cup 1: A 875 mL or 958 g, B 435 mL or 412 g" for the application of a piece. */
function mixingWords(shop: Shop, plan: Plan): (piece: string, step: string) => string {
  const all = cupsOf(shop, plan);
  const numbers = cupNumbers(all);
  return (piece, step) =>
    all.cups
      .filter((cup) => cup.portions.some(({ pour }) => pour.piece === piece && pour.step === step))
      .map((cup) => {
        const card = cupCard(cup, numbers.get(cup) ?? 0, all, shop);
        const parts = card.lines.map(
          ({ what, volume, mass }) => `${what} ${volume === '' ? mass : `${volume} or ${mass}`}`,
        );
        const shared = card.portions.length > 1 ? ` (for ${card.portions.length} pieces)` : '';
        return `${card.resin}, cup ${card.number} of the day${shared}: ${parts.join(', ')}`;
      })
      .join('\n');
}

/** The window of the layer below, while it is still to be met. */
function windowEntry(step: PlanStep, clock: Clock, names: Names, uid: string): CalendarEntry[] {
  if (!step.window || step.way === 'scuff' || step.state !== 'planned') return [];
  const from = toMinute(clock, step.window.opens);
  const to = toMinute(clock, step.window.closes);
  if (to <= from || to <= 0) return [];
  const piece = names.piece(step.piece);
  const lead = Math.floor(Math.min(BEFORE_CLOSE_MINUTES, (to - from) / 4));
  return [
    {
      uid,
      from,
      to,
      title: `${piece}: tack window for ${surfaceName(step.step)}`,
      where: placeName(step, names),
      about: `${surfaceName(step.window.of)} can be poured over without sanding; planned: ${stepTitle(step).toLowerCase()}`,
      isBusy: false,
      alarms: [
        { of: 'start', minutes: 0, text: `${piece}: the tack window for ${surfaceName(step.step)} opens` },
        {
          of: 'end',
          minutes: lead,
          text: `${piece}: the tack window for ${surfaceName(step.step)} closes in ${formatDuration(lead)}`,
        },
      ],
    },
  ];
}

const slug = (name: string): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '') || 'shop';
