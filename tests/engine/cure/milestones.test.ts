import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  AGE_TOLERANCE_MINUTES,
  ageBetween,
  constantTemperature,
  equivalentAge,
  lastWithinMap,
  reachMap,
  temperatureSeries,
  warmBoxLastWithinMap,
  warmBoxReachMap,
  workingMinutes,
  workingTimeMap,
} from '../../../src/engine/cure/index.ts';
import type { EquivalentAge } from '../../../src/engine/cure/index.ts';
import { firstMinutes } from '../../../src/engine/cure/warm-box.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import type { MonotoneMap } from '../../../src/engine/schedule/model.ts';
import { ageBySeconds, plainTemperature, resins, rooms, SEED } from './rooms.ts';

const HOUR = 60;
const RESIN = { activationEnergyJPerMol: 53_000, referenceDegC: 23, lowestDegC: 10 };

function firstByWaiting(age: EquivalentAge, s: number, needed: number): number {
  for (let m = s; m <= age.to; m++) if (ageBetween(age, s, m) >= needed - AGE_TOLERANCE_MINUTES) return m;
  return NEVER;
}

function lastByWaiting(age: EquivalentAge, s: number, needed: number): number {
  for (let m = s; m <= age.to; m++) if (ageBetween(age, s, m) > needed + AGE_TOLERANCE_MINUTES) return m - 1;
  return NEVER;
}

/** Monotone over the span and beyond it, and the inverse the least start that gets there. */
function expectMonotoneWithInverse(map: MonotoneMap, from: number, to: number): void {
  for (let s = from - 3; s < to + 3; s++) expect(map.at(s + 1)).toBeGreaterThanOrEqual(map.at(s));
  for (const v of [NEVER, to + 1, ...Array.from({ length: to - from }, (_, i) => from + i)]) {
    const least = map.leastReaching(v);
    // Every start before the span counts as its first minute, so the least has no bound there.
    if (map.at(from) >= v) expect(least).toBeLessThanOrEqual(from);
    else {
      expect(map.at(least)).toBeGreaterThanOrEqual(v);
      expect(map.at(least - 1)).toBeLessThan(v);
    }
  }
  expect(map.leastReaching(NEVER + 1)).toBe(NEVER);
}

describe('milestones of a cure', () => {
  it('are reached when waiting minute by minute finds them, and their inverse is exact', () => {
    fc.assert(
      fc.property(
        rooms(-100, 900),
        resins,
        fc.double({ min: 0, max: 500, noNaN: true }),
        (room, resin, needed) => {
          const age = equivalentAge(room, resin, -50, 700);
          const opens = reachMap(age, needed);
          const closes = lastWithinMap(age, needed);
          for (let s = -50; s <= 700; s += 7) {
            expect(opens.at(s)).toBe(firstByWaiting(age, s, needed));
            expect(closes.at(s)).toBe(lastByWaiting(age, s, needed));
          }
          expectMonotoneWithInverse(opens, -50, 700);
          expectMonotoneWithInverse(closes, -50, 700);
        },
      ),
      SEED,
    );
  });

  it('are the same whether a map is asked for one of them or for thousands', () => {
    fc.assert(
      fc.property(
        rooms(-100, 900),
        resins,
        fc.double({ min: 0, max: 500, noNaN: true }),
        (room, resin, needed) => {
          const age = equivalentAge(room, resin, -50, 700);
          for (const make of [reachMap, lastWithinMap]) {
            const often = make(age, needed);
            for (let k = 0; k < 6000; k++) often.at(k % 700);
            for (let m = -60; m <= 760; m += 13) {
              expect(make(age, needed).at(m)).toBe(often.at(m));
              expect(make(age, needed).leastReaching(m)).toBe(often.leastReaching(m));
            }
            expect(make(age, needed).leastReaching(NEVER)).toBe(often.leastReaching(NEVER));
          }
        },
      ),
      SEED,
    );
  });

  it('come on the maker’s minute at the reference temperature, after the pour or before the plan began', () => {
    const age = equivalentAge(constantTemperature(23), RESIN, -1440, 10 * 1440);
    const opens = reachMap(age, 24 * HOUR);
    expect(opens.at(0)).toBe(24 * HOUR);
    expect(opens.at(-1440)).toBe(0);
    expect(opens.leastReaching(24 * HOUR)).toBe(0);
    expect(lastWithinMap(age, 36 * HOUR).at(100)).toBe(100 + 36 * HOUR);
    expect(opens.at(9 * 1440 + 1)).toBe(NEVER);
    expect(opens.at(20 * 1440)).toBe(NEVER);
  });

  it('wait out a night in which the cure stalls', () => {
    const age = equivalentAge(
      temperatureSeries([
        { minute: 0, degC: 23 },
        { minute: 600, degC: 23 },
        { minute: 601, degC: 5 },
        { minute: 1200, degC: 5 },
        { minute: 1201, degC: 23 },
      ]),
      RESIN,
      0,
      3000,
    );
    expect(reachMap(age, 600).at(0)).toBe(600);
    expect(reachMap(age, 602).at(0)).toBeGreaterThan(1200);
    expect(lastWithinMap(age, 602).at(0)).toBeGreaterThan(1200);
  });

  it('are never reached in a room that stays too cold, and then the window never closes either', () => {
    const age = equivalentAge(constantTemperature(5), RESIN, 0, 5000);
    expect(reachMap(age, 10).at(0)).toBe(NEVER);
    expect(reachMap(age, 10).leastReaching(NEVER)).toBeLessThanOrEqual(0);
    expect(lastWithinMap(age, 10).at(0)).toBe(NEVER);
  });

  it('need an amount of cure that is not below nothing', () => {
    const age = equivalentAge(constantTemperature(20), RESIN, 0, 10);
    expect(() => reachMap(age, -1)).toThrow('-1 equivalent minutes');
    expect(() => lastWithinMap(age, Number.NaN)).toThrow('NaN equivalent minutes');
  });
});

describe('a piece that goes into a warm box', () => {
  const SPAN = 1600;

  it('is cured when a sum over every second of its own temperature says so', () => {
    fc.assert(
      fc.property(
        rooms(-100, SPAN),
        resins,
        fc.record({
          setDegC: fc.double({ min: 16, max: 40, noNaN: true }),
          heatUpMinutes: fc.integer({ min: 0, max: 90 }),
        }),
        fc.integer({ min: 0, max: 300 }),
        fc.double({ min: 5, max: 500, noNaN: true }),
        (room, resin, box, offset, needed) => {
          const age = equivalentAge(room, resin, 0, SPAN);
          const opens = warmBoxReachMap(age, box, offset, needed);
          const closes = warmBoxLastWithinMap(age, box, offset, needed);
          const truth = firstMinutes(age, box, offset, needed);
          for (const s of [0, 371, 700]) {
            const entryDegC = plainTemperature(room, s + offset);
            const temperature = (minute: number): number => {
              const inBox = minute - s - offset;
              if (inBox < 0) return plainTemperature(room, minute);
              return inBox < box.heatUpMinutes
                ? entryDegC + ((box.setDegC - entryDegC) * inBox) / box.heatUpMinutes
                : box.setDegC;
            };
            const minute = truth[s];
            if (minute === NEVER) {
              expect(s + offset > SPAN || ageBySeconds(temperature, resin, s, SPAN) < needed + 0.02).toBe(
                true,
              );
            } else {
              // Two hundredths of a minute: what a sum of seconds misses where the room crosses the lowest temperature.
              const before = minute > s ? ageBySeconds(temperature, resin, s, minute - 1) : 0;
              expect(before).toBeLessThan(needed + 0.02);
              expect(
                before + ageBySeconds(temperature, resin, Math.max(s, minute - 1), minute),
              ).toBeGreaterThan(needed - 0.02);
            }
            expect(opens.at(s)).toBe(truth.slice(0, s + 1).reduce((a, b) => Math.max(a, b)));
            expect(closes.at(s)).toBeLessThanOrEqual(minute);
          }
        },
      ),
      { ...SEED, numRuns: 60 },
    );
  });

  it('has milestones that never fall, with exact inverses', () => {
    fc.assert(
      fc.property(rooms(0, 600), resins, fc.integer({ min: 0, max: 200 }), (room, resin, offset) => {
        const age = equivalentAge(room, resin, 0, 600);
        const box = { setDegC: 30, heatUpMinutes: 45 };
        expectMonotoneWithInverse(warmBoxReachMap(age, box, offset, 120), 0, 600);
        expectMonotoneWithInverse(warmBoxLastWithinMap(age, box, offset, 120), 0, 600);
      }),
      SEED,
    );
  });

  it('is as in the room when the box is as warm as the room, minute for minute', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 35, noNaN: true }),
        fc.integer({ min: 0, max: 100 }),
        (degC, offset) => {
          const age = equivalentAge(constantTemperature(degC), RESIN, 0, 2000);
          const box = { setDegC: degC, heatUpMinutes: 30 };
          const [inBox, inRoom] = [warmBoxReachMap(age, box, offset, 240), reachMap(age, 240)];
          const [closesInBox, closesInRoom] = [
            warmBoxLastWithinMap(age, box, offset, 240),
            lastWithinMap(age, 240),
          ];
          for (let s = 0; s <= 2000; s += 13) {
            expect(inBox.at(s)).toBe(inRoom.at(s));
            expect(closesInBox.at(s)).toBe(closesInRoom.at(s));
          }
        },
      ),
      SEED,
    );
  });

  it('goes on curing where the room has stalled', () => {
    const age = equivalentAge(constantTemperature(5), RESIN, 0, 5000);
    const box = { setDegC: 23, heatUpMinutes: 60 };
    // The ramp from 5 to 23 degC passes 10 degC after 16 and two thirds of its 60 minutes.
    const reached = warmBoxReachMap(age, box, 30, 600).at(0);
    const inBox = (minute: number): number => Math.min(23, 5 + (18 * (minute - 30)) / 60);
    expect(ageBySeconds(inBox, RESIN, 30, reached)).toBeGreaterThan(600 - 0.02);
    expect(ageBySeconds(inBox, RESIN, 30, reached - 1)).toBeLessThan(600);
    expect(reached).toBeGreaterThan(30 + 600 + 17);
    expect(warmBoxReachMap(age, { setDegC: 8, heatUpMinutes: 60 }, 30, 600).at(0)).toBe(NEVER);
  });

  it('poured later may be done sooner; the map then keeps to the safe side', () => {
    // A room that warms by 20 K in forty minutes: whoever enters the box later enters it warmer.
    const room = temperatureSeries([
      { minute: 100, degC: 10 },
      { minute: 140, degC: 30 },
    ]);
    const age = equivalentAge(room, RESIN, 0, 1500);
    const box = { setDegC: 31, heatUpMinutes: 120 };
    const [opens, closes] = [warmBoxReachMap(age, box, 0, 300), warmBoxLastWithinMap(age, box, 0, 300)];
    const widest = Math.max(...Array.from({ length: 200 }, (_, s) => opens.at(s) - closes.at(s)));
    expect(widest).toBeGreaterThan(1);
    expectMonotoneWithInverse(opens, 0, 1500);
    expectMonotoneWithInverse(closes, 0, 1500);
  });

  it('is refused an offset before its pour', () => {
    const age = equivalentAge(constantTemperature(20), RESIN, 0, 10);
    expect(() => warmBoxReachMap(age, { setDegC: 30, heatUpMinutes: 10 }, -1, 5)).toThrow(
      '-1 minutes after the pour',
    );
    expect(() => warmBoxReachMap(age, { setDegC: 30, heatUpMinutes: 1.5 }, 0, 5)).toThrow(
      'heats up in 1.5 minutes',
    );
  });
});

describe('working time', () => {
  const stated = { minutes: 40, referenceBatchMl: 300 };
  // The cube root is common practice, no source.
  it('shortens in a larger cup and never grows in a smaller one (common practice, no source)', () => {
    expect(workingMinutes(stated, 300)).toBe(40);
    expect(workingMinutes(stated, 100)).toBe(40);
    expect(workingMinutes(stated, 2400)).toBeCloseTo(20, 12);
    expect(() => workingMinutes(stated, 0)).toThrow('0 mL against 300 mL');
  });
  it('is as stated at the reference temperature and shorter where it is warmer', () => {
    const at = (degC: number): number =>
      workingTimeMap(equivalentAge(constantTemperature(degC), RESIN, 0, 500), stated, 300).at(10);
    expect(at(23)).toBe(50);
    // 53 kJ/mol take a little more than half of it away in 10 K (the rule of thumb is common practice, no source).
    expect(at(33)).toBe(10 + 19);
    expect(at(15)).toBe(10 + Math.floor(40 / 0.550137));
  });
  it('does not stop in a cold room', () => {
    const age = equivalentAge(constantTemperature(5), RESIN, 0, 500);
    expect(workingTimeMap(age, stated, 300).at(0)).toBeLessThan(200);
  });
});
