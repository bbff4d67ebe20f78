import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeZoneClock, minuteOf } from '../../../src/ui/clock/index.ts';
import {
  axisOf,
  endOf,
  minuteAt,
  nightsOf,
  panBy,
  reveal,
  spanMinutes,
  xOf,
  zoomAt,
  type Scale,
} from '../../../src/ui/forms/model/index.ts';

const SEED = { seed: 20261125 };
const scales = fc
  .record({
    from: fc.integer({ min: 29_000_000, max: 31_000_000 }),
    span: fc.integer({ min: 240, max: 100_000 }),
    width: fc.integer({ min: 200, max: 3000 }),
  })
  .map(({ from, span, width }): Scale => ({ from, minutesPerPixel: span / width, width }));

describe('the scale of the picture', () => {
  test('a minute and its pixel lead to each other', () => {
    fc.assert(
      fc.property(scales, fc.integer({ min: -500, max: 3500 }), (scale, x) => {
        expect(xOf(scale, minuteAt(scale, x))).toBeCloseTo(x, 3);
      }),
      SEED,
    );
  });

  test('zooming keeps the minute under the pointer under the pointer, and stays between hours and weeks', () => {
    fc.assert(
      fc.property(
        scales,
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (scale, factor, share) => {
          const x = share * scale.width;
          const zoomed = zoomAt(scale, factor, x);
          expect(minuteAt(zoomed, x)).toBeCloseTo(minuteAt(scale, x), 3);
          const shown = endOf(zoomed) - zoomed.from;
          expect(shown).toBeGreaterThanOrEqual(4 * 60 - 1e-6);
          expect(shown).toBeLessThanOrEqual(10 * 7 * 1440 + 1e-6);
        },
      ),
      SEED,
    );
  });

  test('panning there and back again is no move', () => {
    fc.assert(
      fc.property(scales, fc.integer({ min: -2000, max: 2000 }), (scale, pixels) => {
        expect(panBy(panBy(scale, pixels), -pixels).from).toBeCloseTo(scale.from, 6);
      }),
      SEED,
    );
  });

  test('what is asked for comes into sight, and what is in sight already moves nothing', () => {
    const scale: Scale = { from: 0, minutesPerPixel: 1, width: 1000 };
    expect(reveal(scale, 400, 500)).toBe(scale);
    const later = reveal(scale, 2000, 2100);
    expect(xOf(later, 2100)).toBeLessThanOrEqual(1000);
    expect(xOf(later, 2000)).toBeGreaterThanOrEqual(0);
    const tooLong = reveal(scale, 2000, 9000);
    expect(xOf(tooLong, 2000)).toBeGreaterThanOrEqual(0);
    expect(xOf(tooLong, 2000)).toBeLessThan(1000);
  });

  test('a week is a week wide', () => {
    const week = spanMinutes({ from: 0, minutesPerPixel: 3, width: 900 }, 7 * 1440, 100);
    expect(endOf(week) - week.from).toBeCloseTo(7 * 1440, 6);
  });
});

describe('the time axis', () => {
  const clock = makeZoneClock('America/New_York');
  const around = (iso: string, minutesPerPixel: number): Scale => ({
    from: minuteOf(iso),
    minutesPerPixel,
    width: 1000,
  });

  test('hours are marked by the wall clock on the day the clocks go back', () => {
    // IANA tz database: 2026-11-01T06:00Z.
    const axis = axisOf(around('2026-11-01T04:00Z', 1.5), clock);
    const texts = axis.hours
      .filter((tick) => tick.at >= minuteOf('2026-11-01T04:00Z') && tick.at < minuteOf('2026-11-02T05:00Z'))
      .map((tick) => tick.text);
    expect(texts).toEqual([
      '02:00',
      '04:00',
      '06:00',
      '08:00',
      '10:00',
      '12:00',
      '14:00',
      '16:00',
      '18:00',
      '20:00',
      '22:00',
    ]);
  });

  test('marks never crowd: they keep 46 pixels, or there are none', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 100, noNaN: true }), (minutesPerPixel) => {
        const { hours } = axisOf(around('2026-06-01T04:00Z', minutesPerPixel), clock);
        hours.slice(1).forEach((tick, index) => {
          expect((tick.at - hours[index].at) / minutesPerPixel).toBeGreaterThanOrEqual(46 - 1e-9);
        });
      }),
      { ...SEED, numRuns: 40 },
    );
  });

  test('night is from ten to six, also when the clocks change in it', () => {
    const days = clock.days(minuteOf('2026-10-31T12:00Z'), minuteOf('2026-11-02T12:00Z'));
    const times = nightsOf(days, clock).map(([from, to]) => [clock.time(from), clock.time(to)]);
    expect(times.slice(2, 4)).toEqual([
      ['00:00', '06:00'],
      ['22:00', '00:00'],
    ]);
  });
});
