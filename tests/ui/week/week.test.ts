/** The work of a plan as the calendar shows it, and what lies behind it. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openHours } from '../../../src/engine/index.ts';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { hoursShown, nobodyThere, openingsOf, unlovedOnly } from '../../../src/ui/week/backdrop.ts';
import { sittingsOf, visitsOf, type Visit } from '../../../src/ui/week/visits.ts';
import { planned } from '../small-shop.ts';
import { isoOf } from '../../moments.ts';

const { shop, plan } = planned();
const visits = visitsOf(shop, plan);

describe('the work of a plan', () => {
  test('every attended step is in exactly one visit, and none that is unattended', () => {
    const shown = visits.flatMap(({ piece, steps }) => steps.map((step) => `${piece} ${step}`)).sort();
    const attended = plan.steps
      .filter(({ handsOnMinutes }) => handsOnMinutes > 0)
      .map(({ piece, step }) => `${piece} ${step}`)
      .sort();
    expect(shown).toEqual(attended);
  });

  test('a mix and its pour are one, carried by the mix', () => {
    const pour = visits.find(({ piece, steps }) => piece === 'wren' && steps.includes('layer-1-pour'));
    expect(pour).toMatchObject({
      step: 'layer-1-mix',
      steps: ['layer-1-mix', 'layer-1-pour'],
      title: 'Mix and pour layer 1',
      brief: 'Pour 1',
      pieceName: 'Wren',
      people: 'Ada',
    });
    const [mix, poured] = ['layer-1-mix', 'layer-1-pour'].map((step) =>
      plan.steps.find((one) => one.piece === 'wren' && one.step === step),
    );
    expect([pour?.from, pour?.to]).toEqual([minuteOf(mix?.start ?? ''), minuteOf(poured?.end ?? '')]);
  });
});

describe('work that is spread', () => {
  const spread: Visit = { ...visits[0], from: 100, to: 400, spreadMinutes: 120, peopleIds: ['ada', 'bo'] };

  test('is cut to the hours in which everybody it needs is there', () => {
    const open = {
      ada: [
        { from: 0, to: 150 },
        { from: 300, to: 500 },
      ],
      bo: [{ from: 120, to: 360 }],
    };
    const cut = sittingsOf([spread], (person) => (person === 'ada' ? open.ada : open.bo));
    expect(cut.map(({ from, to, number }) => [from, to, number])).toEqual([
      [120, 150, 0],
      [300, 360, 1],
    ]);
  });

  test('stays whole where hours are not known, and other work is never cut', () => {
    expect(sittingsOf([spread], () => null)).toHaveLength(1);
    const solid = { ...spread, spreadMinutes: null };
    expect(sittingsOf([solid], () => [{ from: 200, to: 210 }])).toEqual([
      { visit: solid, number: 0, from: 100, to: 400 },
    ]);
  });
});

describe('behind the work', () => {
  const spans = fc.array(
    fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 1, max: 200 })).map(([from, length]) => ({
      from: isoOf(from),
      to: isoOf(from + length),
    })),
    { maxLength: 6 },
  );

  test('a minute is closed exactly when nobody is there, held to counting minute by minute', () => {
    fc.assert(
      fc.property(spans, spans, spans, (one, two, hated) => {
        const people = [
          { person: 'a', open: one, unloved: hated },
          { person: 'b', open: two, unloved: [] },
        ];
        const closed = nobodyThere(people, 0, 1000);
        const unloved = unlovedOnly(people, 0, 1000);
        const isIn = (minute: number, list: readonly { from: string; to: string }[]): boolean =>
          list.some(({ from, to }) => minuteOf(from) <= minute && minute < minuteOf(to));
        for (let minute = 0; minute < 1000; minute += 7) {
          const there = isIn(minute, one) || isIn(minute, two);
          const loved = (isIn(minute, one) && !isIn(minute, hated)) || isIn(minute, two);
          expect(closed.some(({ from, to }) => from <= minute && minute < to)).toBe(!there);
          expect(unloved.some(({ from, to }) => from <= minute && minute < to)).toBe(there && !loved);
        }
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });

  test('nights of the shop are closed, by the engine’s own hours', () => {
    const range = { from: '2026-11-26T00:00', to: '2026-11-27T00:00' };
    const [from, to] = [minuteOf('2026-11-25T23:00Z'), minuteOf('2026-11-26T23:00Z')];
    // Berlin is an hour ahead of UTC in November; Ada is there from 08:00 to 20:00.
    expect(nobodyThere(openHours(shop, range), from, to)).toEqual([
      { from, to: minuteOf('2026-11-26T07:00Z') },
      { from: minuteOf('2026-11-26T19:00Z'), to },
    ]);
  });

  test('windows that are open together stand on different rails', () => {
    const openings = openingsOf(plan);
    expect(openings.length).toBeGreaterThan(2);
    for (const a of openings) {
      for (const b of openings) {
        if (a !== b && a.rail === b.rail) expect(a.to <= b.from || b.to <= a.from).toBe(true);
      }
    }
  });

  test('the calendar shows the hours that are needed, whole ones', () => {
    const same = (minute: number): number => minute % 1440;
    expect(hoursShown([{ from: 485, to: 1030 }], same)).toEqual({ from: 8, to: 18 });
    expect(hoursShown([{ from: 1260, to: 1500 }], same)).toEqual({ from: 0, to: 24 });
    expect(hoursShown([], same)).toEqual({ from: 7, to: 20 });
  });
});
