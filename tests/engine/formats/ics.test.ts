import ICAL from 'ical.js';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calendarEntries, sequenceOf, toCalendar } from '../../../src/engine/formats/index.ts';
import { planShop } from '../../../src/engine/index.ts';
import type { Plan } from '../../../src/engine/plan/document.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { planWith } from '../mix/bench-day.ts';
import { isoIn, month } from './month.ts';

const MINUTE_MS = 60_000;

/** Reads a calendar as another program would: with the zone as the file itself tells it, and no other. */
function read(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const zones = calendar.getAllSubcomponents('vtimezone').map((component) => new ICAL.Timezone(component));
  const inZone = (time: ICAL.Time, property: ICAL.Property): number => {
    const tzid = property.getParameter('tzid');
    if (tzid === undefined) return time.toJSDate().getTime();
    const zone = zones.find((each) => each.tzid === tzid);
    if (!zone) throw new Error(`the file does not tell the zone ${String(tzid)}`);
    const local = time.clone();
    local.zone = zone;
    return local.toUnixTime() * 1000;
  };
  return calendar.getAllSubcomponents('vevent').map((event) => {
    const moment = (name: string): number | undefined => {
      const property = event.getFirstProperty(name);
      const value = property?.getFirstValue();
      return property && value instanceof ICAL.Time ? inZone(value, property) : undefined;
    };
    const text = (name: string): string => String(event.getFirstPropertyValue(name) ?? '');
    return {
      uid: text('uid'),
      summary: text('summary'),
      description: text('description'),
      status: text('status'),
      sequence: Number(text('sequence')),
      start: moment('dtstart') ?? Number.NaN,
      end: moment('dtend'),
      stampIsUtc: /^DTSTAMP:\d{8}T\d{6}Z$/m.test(event.toString()),
      alarms: event.getAllSubcomponents('valarm').map((alarm) => {
        const trigger = alarm.getFirstProperty('trigger');
        const value = trigger?.getFirstValue();
        const seconds = value instanceof ICAL.Duration ? value.toSeconds() : Number.NaN;
        const base = trigger?.getParameter('related') === 'END' ? moment('dtend') : moment('dtstart');
        return (base ?? Number.NaN) + seconds * 1000;
      }),
    };
  });
}

const ofKind = (text: string, kind: 'work' | 'window' | 'frees') =>
  read(text)
    .filter(({ uid }) =>
      kind === 'work'
        ? uid.includes('layer-2-pour@')
        : uid.includes(kind === 'window' ? '.window@' : '.frees-up@'),
    )
    .sort((a, b) => a.start - b.start);

describe('a month across a change of the clocks, read back by another program', () => {
  // Changes of the clocks by the IANA tz database, see the cases' names; the last zone has none.
  test.each([
    ['Europe/Berlin', 'forward 2026-03-29T01:00Z', '2026-03-14T05:10Z'],
    ['Europe/Berlin', 'back 2026-10-25T01:00Z', '2026-10-10T05:10Z'],
    ['America/New_York', 'forward 2026-03-08T07:00Z', '2026-02-20T05:10Z'],
    ['America/New_York', 'back 2026-11-01T06:00Z', '2026-10-18T05:40Z'],
    ['Europe/Dublin', 'forward 2026-03-29T01:00Z', '2026-03-14T05:10Z'],
    ['Australia/Lord_Howe', 'back by half an hour 2026-04-04T15:00Z', '2026-03-20T05:10Z'],
    ['America/Phoenix', 'none', '2026-03-01T05:10Z'],
  ])('%s, %s: every step, window and alarm is where it was', (zone, _, from) => {
    const { shop, plan, starts } = month(zone, from);
    const text = toCalendar(shop, plan);
    expect(ofKind(text, 'work').map(({ start, end }) => [start, end])).toEqual(
      starts.map((ms) => [ms, ms + 20 * MINUTE_MS]),
    );
    const windows = ofKind(text, 'window');
    expect(windows.map(({ start, end }) => [start, end])).toEqual(
      starts.map((ms) => [ms - 30 * MINUTE_MS, ms + 90 * MINUTE_MS]),
    );
    // At the opening, and half an hour (a quarter of two hours) before the close.
    expect(windows.map(({ alarms }) => alarms)).toEqual(
      starts.map((ms) => [ms - 30 * MINUTE_MS, ms + 60 * MINUTE_MS]),
    );
    expect(ofKind(text, 'frees').map(({ start }) => start)).toEqual(starts.map((ms) => ms + 60 * MINUTE_MS));
  });

  // Berlin, 25 October 2026: 02:30 comes at 00:30Z and again at 01:30Z, and a local time alone does not say which.
  test.each(['2026-10-25T00:30Z', '2026-10-25T01:30Z'])(
    'on the hour that comes twice, %s is meant and read',
    (ms) => {
      const { shop, plan } = month('Europe/Berlin', ms, 1, 24);
      expect(plan.steps[0].start.slice(0, 16)).toBe('2026-10-25T02:30');
      expect(ofKind(toCalendar(shop, plan), 'work')[0].start).toBe(Date.parse(ms));
    },
  );

  test('a plan of the solver comes back as well, with nothing planned lost', () => {
    const shop = littleShop((file) => {
      file.pieces = [piece('a'), piece('b', { recipe: 'coated' })];
    });
    const plan = planShop(shop, { now: '2026-03-20T07:00', seed: 1, budget: 50_000 });
    const events = read(toCalendar(shop, plan));
    const byUid = new Map(events.map((event) => [event.uid.split('@')[0], event]));
    expect(byUid.size).toBe(events.length);
    const handsOn = plan.steps.filter(({ handsOnMinutes, kind }) => handsOnMinutes > 0 && kind !== 'mix');
    expect(handsOn.length).toBeGreaterThan(15);
    for (const step of handsOn) {
      expect(byUid.get(`${step.piece}.${step.step}`)?.end, step.step).toBe(Date.parse(step.end));
    }
    for (const { piece: id, ready } of plan.pieces) {
      expect(byUid.get(`${id}.ready`)?.start).toBe(Date.parse(ready));
    }
  });
});

describe('the file itself (RFC 5545)', () => {
  const { shop, plan } = month('Europe/Berlin', '2026-03-14T05:10Z', 3);
  const text = toCalendar(shop, plan);

  test('folds at 75 octets (section 3.1) and ends every line in CRLF', () => {
    const lines = text.split('\r\n');
    expect(lines.at(-1)).toBe('');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(lines.some((line) => line.startsWith(' '))).toBe(true);
    for (const line of lines) expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75);
  });

  test('escapes comma, semicolon and backslash (section 3.3.11), in the name of the calendar too', () => {
    expect(text.replaceAll('\r\n ', '')).toContain('X-WR-CALNAME:Wren\\; Sons\\, \\\\ Daughters');
    expect(ofKind(text, 'work')[0].summary).toBe('Brücke, No. 0; 木の板: Pour layer 2');
  });

  test('a name with a line break cannot add lines of its own', () => {
    const sly = { ...plan, shop: 'A\r\nBEGIN:VEVENT\r\nUID:sly' };
    expect(read(toCalendar(shop, sly))).toHaveLength(read(text).length);
  });

  test('has DTSTAMP in UTC, as section 3.8.7.2 demands', () => {
    expect(read(text).every(({ stampIsUtc }) => stampIsUtc)).toBe(true);
  });

  test('any name comes back as it went', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 120 }), (name) => {
        // Control characters are not text of RFC 5545; line breaks come back as the one that it knows.
        fc.pre(!/\p{Cc}/u.test(name.replaceAll(/[\t\r\n]/g, '')));
        const renamed = { ...shop, pieces: shop.pieces.map((p) => ({ ...p, name })) };
        const [event] = ofKind(toCalendar(renamed, plan), 'work');
        expect(event.summary).toBe(`${name.replaceAll(/\r\n|\r|\n/g, '\n')}: Pour layer 2`);
      }),
      { seed: 20261126, numRuns: 100 },
    );
  });
});

describe('a second import updates the first', () => {
  const { shop, plan } = month('Europe/Berlin', '2026-03-14T05:10Z', 3);
  const later = (minutes: number, edit: (plan: Plan) => Plan = (same) => same): Plan =>
    edit({ ...plan, now: isoIn('Europe/Berlin', Date.parse(plan.now) + minutes * MINUTE_MS) });

  test('the same plan gives the same bytes', () => {
    expect(toCalendar(shop, structuredClone(plan))).toBe(toCalendar(shop, plan));
  });

  test('the same step has the same UID in every plan, and no two events share one', () => {
    const uids = (of: Plan): string[] => calendarEntries(shop, of).map(({ uid }) => uid);
    expect(new Set(uids(plan)).size).toBe(uids(plan).length);
    const moved = later(5, (same) => ({
      ...same,
      steps: same.steps.map((s) => ({
        ...s,
        end: isoIn('Europe/Berlin', Date.parse(s.end) + 5 * MINUTE_MS),
      })),
    }));
    expect(uids(moved)).toEqual(uids(plan));
  });

  test('SEQUENCE grows with the minute of the plan', () => {
    expect(sequenceOf(later(1))).toBe(sequenceOf(plan) + 1);
    // Within what RFC 5545, section 3.3.8, calls an integer, until the year 6000.
    expect(sequenceOf({ ...plan, now: '6000-01-01T00:00Z' })).toBeLessThan(2 ** 31);
    expect(new Set(read(toCalendar(shop, plan)).map(({ sequence }) => sequence))).toEqual(
      new Set([sequenceOf(plan)]),
    );
  });

  test('what the new plan no longer has is cancelled when the old one is given', () => {
    const shorter = later(5, (same) => ({ ...same, steps: same.steps.slice(1), holds: same.holds.slice(1) }));
    const events = read(toCalendar(shop, shorter, { standing: plan }));
    const cancelled = events.filter(({ status }) => status === 'CANCELLED');
    expect(cancelled.map(({ uid }) => uid.split('@')[0]).sort()).toEqual([
      'p0.form.frees-up',
      'p0.layer-2-pour',
      'p0.layer-2-pour.window',
    ]);
    expect(cancelled[0].sequence).toBe(sequenceOf(shorter));
    expect(events).toHaveLength(read(toCalendar(shop, plan)).length);
  });
});

test('what is done is not in the calendar, nor is a window that is scuffed away', () => {
  const { shop, plan } = month('Europe/Berlin', '2026-03-14T05:10Z', 1, 8);
  const [first, second, third] = plan.steps;
  const told = calendarEntries(shop, {
    ...plan,
    holds: [],
    steps: [{ ...first, state: 'done' }, { ...second, way: 'scuff' }, third],
  });
  expect(told.map(({ uid }) => uid.split('@')[0])).toEqual([
    'p1.layer-2-pour',
    'p2.layer-2-pour.window',
    'p2.layer-2-pour',
  ]);
});

test('an event of a pour says what to mix', () => {
  const shop = littleShop();
  const plan = planShop(shop, { now: NOW, seed: 1, budget: 20_000 });
  const about = read(toCalendar(shop, plan)).find(({ uid }) =>
    uid.startsWith('a.layer-1-pour@'),
  )?.description;
  // 400 x 200 x 12 mm are 960 mL; with 5 % for the cup 1010.5, which is 680 and 340 on 5 mL marks at 2:1.
  expect(about).toContain('Slow cast, cup 1 of the day: A 680 mL');
  expect(about).toContain('B 340 mL');
});

test('a plan with nothing in it is an empty calendar, and still one', () => {
  const shop = littleShop();
  expect(read(toCalendar(shop, planWith(shop, [])))).toEqual([]);
});
