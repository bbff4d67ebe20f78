import { describe, expect, it } from 'vitest';
import {
  patternKnots,
  roomTemperature,
  temperatureAt,
  temperatureSeries,
} from '../../../src/engine/cure/index.ts';
import { makeClock, toMinute } from '../../../src/engine/time/index.ts';

describe('a room’s temperature', () => {
  it('runs straight from reading to reading and stays as it was before the first and after the last', () => {
    const series = temperatureSeries([
      { minute: 100, degC: 20 },
      { minute: 0, degC: 10 },
    ]);
    expect([-50, 0, 25, 50, 100, 1e6].map((minute) => temperatureAt(series, minute))).toEqual([
      10, 10, 12.5, 15, 20, 20,
    ]);
  });
  it('takes the last of two readings of one minute, and refuses none or nonsense', () => {
    const twice = temperatureSeries([
      { minute: 5, degC: 20 },
      { minute: 5, degC: 21 },
    ]);
    expect(temperatureAt(twice, 5)).toBe(21);
    expect(() => temperatureSeries([])).toThrow('at least one is needed');
    expect(() => temperatureSeries([{ minute: 3, degC: Number.NaN }])).toThrow('NaN degC at minute 3');
    expect(() => temperatureSeries([{ minute: 3, degC: -300 }])).toThrow('above -273.15');
  });

  it('is what was measured, then what is forecast, then the pattern, joined by straight lines', () => {
    const pattern = Array.from({ length: 21 }, (_, i) => ({ minute: i * 100 - 500, degC: 5 }));
    const room = roomTemperature({
      measured: [
        { minute: -300, degC: 18 },
        { minute: 0, degC: 16 },
      ],
      forecast: [
        { minute: -150, degC: 99 },
        { minute: 50, degC: 12 },
        { minute: 250, degC: 14 },
      ],
      pattern,
    });
    const at = (minute: number): number => temperatureAt(room, minute);
    expect(at(-150)).toBe(17);
    expect(at(25)).toBe(14);
    expect(at(150)).toBe(13);
    expect(at(275)).toBe(9.5);
    expect([at(-400), at(300), at(1500)]).toEqual([5, 5, 5]);
  });
  it('is not drawn straight through a day on which nobody measured', () => {
    const measured = [0, 60, 2000, 2060].map((minute) => ({ minute, degC: 20 }));
    const pattern = [30, 1000, 2030].map((minute) => ({ minute, degC: 8 }));
    const room = roomTemperature({ measured, pattern });
    expect([30, 1000, 2030].map((minute) => temperatureAt(room, minute))).toEqual([20, 8, 20]);
  });
});

describe('a room’s pattern of day and night', () => {
  const clock = makeClock('America/New_York', '2026-03-07T00:00');
  const nights = { nightLowDegC: 6, nightLowAt: '05:00', dayHighDegC: 16, dayHighAt: '15:00' };
  const at = (knots: { minute: number; degC: number }[], text: string): number =>
    temperatureAt(temperatureSeries(knots), toMinute(clock, text));

  it('is coldest and warmest at its times on the wall, across the change of the clock', () => {
    const knots = patternKnots(nights, clock, 3 * 1440);
    for (const day of ['2026-03-07', '2026-03-08', '2026-03-09']) {
      expect(at(knots, `${day}T05:00`)).toBe(6);
      expect(at(knots, `${day}T10:00`)).toBe(11);
      expect(at(knots, `${day}T15:00`)).toBe(16);
    }
    expect(at(knots, '2026-03-07T00:00')).toBeCloseTo(6 + (10 * 5) / 14, 12);
  });

  it('is lifted to the heating’s temperature while it is on, with ramps', () => {
    const open = Int32Array.of(toMinute(clock, '2026-03-07T08:00'), toMinute(clock, '2026-03-07T18:00'));
    const knots = patternKnots({ ...nights, heating: [{ open, degC: 20 }] }, clock, 2 * 1440);
    expect(at(knots, '2026-03-07T08:00')).toBe(9);
    expect(at(knots, '2026-03-07T08:30')).toBeCloseTo((9 + 20) / 2, 12);
    for (const time of ['09:00', '12:00', '15:00', '18:00']) expect(at(knots, `2026-03-07T${time}`)).toBe(20);
    const unheated = patternKnots(nights, clock, 2 * 1440);
    for (const time of ['07:00', '19:00', '23:00']) {
      expect(at(knots, `2026-03-07T${time}`)).toBeCloseTo(at(unheated, `2026-03-07T${time}`), 12);
    }
  });

  it('stays as warm as the day where that is warmer than the heating', () => {
    const open = Int32Array.of(toMinute(clock, '2026-03-07T06:00'), toMinute(clock, '2026-03-07T20:00'));
    const knots = patternKnots({ ...nights, heating: [{ open, degC: 12, warmUpMinutes: 30 }] }, clock, 1440);
    expect(at(knots, '2026-03-07T06:30')).toBe(12);
    expect(at(knots, '2026-03-07T11:00')).toBe(12);
    expect(at(knots, '2026-03-07T13:00')).toBe(14);
    expect(at(knots, '2026-03-07T15:00')).toBe(16);
  });

  it('does not cool down to the night in a short pause of the heating, nor get warm in a short hour', () => {
    const eight = toMinute(clock, '2026-03-07T08:00');
    const flat = { ...nights, nightLowDegC: 10, dayHighDegC: 10 };
    const pause = Int32Array.of(eight, eight + 120, eight + 150, eight + 300);
    const paused = patternKnots(
      { ...flat, heating: [{ open: pause, degC: 20, warmUpMinutes: 60 }] },
      clock,
      1440,
    );
    const minutes = (offset: number): number => temperatureAt(temperatureSeries(paused), eight + offset);
    expect([0, 60, 120, 150, 180, 300, 360].map(minutes)).toEqual([10, 20, 20, 15, 20, 20, 10]);
    const short = patternKnots(
      { ...flat, heating: [{ open: Int32Array.of(eight, eight + 30), degC: 20 }] },
      clock,
      1440,
    );
    const shortly = (offset: number): number => temperatureAt(temperatureSeries(short), eight + offset);
    expect([0, 30, 45, 60].map(shortly)).toEqual([10, 15, 12.5, 10]);
  });

  it('is as warm as the warmer of two heatings, one for frost and one for the day', () => {
    const eight = toMinute(clock, '2026-03-07T08:00');
    const flat = { ...nights, nightLowDegC: 2, dayHighDegC: 2 };
    const heating = [
      { open: Int32Array.of(-1440, 3000), degC: 8 },
      { open: Int32Array.of(eight, eight + 240), degC: 20 },
    ];
    const knots = temperatureSeries(patternKnots({ ...flat, heating }, clock, 1440));
    const inverse = temperatureSeries(
      patternKnots({ ...flat, heating: [heating[1], heating[0]] }, clock, 1440),
    );
    for (const series of [knots, inverse]) {
      expect([-60, 120, 400].map((offset) => temperatureAt(series, eight + offset))).toEqual([8, 20, 8]);
    }
  });

  it('cannot be coldest and warmest at once', () => {
    expect(() => patternKnots({ ...nights, dayHighAt: '05:00' }, clock, 1440)).toThrow(
      'low and high are both at 05:00',
    );
  });
});
