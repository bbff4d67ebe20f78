/** Where things stand: rooms and their air, forms, level benches, warm boxes, exclusive tools. */
import * as v from 'valibot';
import { fallback } from '../defaults.ts';
import {
  between,
  clockTime,
  degC,
  id,
  lengthMm,
  minutes,
  moment,
  percent,
  recurringHours,
  someMinutes,
  text,
  whole,
} from './basics.ts';

const reading = v.strictObject({ at: moment, degC });

/** Air temperature: what was measured beats the forecast, the forecast beats the daily pattern. */
export const roomTemperature = v.strictObject({
  measured: v.optional(v.array(reading), []),
  forecast: v.optional(v.array(reading), []),
  pattern: v.strictObject({
    nightLowDegC: degC,
    nightLowAt: v.optional(clockTime, '05:00'),
    dayHighDegC: degC,
    dayHighAt: v.optional(clockTime, '15:00'),
    /** Hours in which the room is kept at `degC` at least. */
    heating: v.optional(
      v.array(
        v.strictObject({
          hours: recurringHours,
          degC,
          warmUpMinutes: v.optional(minutes, fallback.warmUpMinutes.value),
        }),
      ),
      [],
    ),
  }),
});

export const room = v.strictObject({
  id,
  name: text,
  temperature: roomTemperature,
  /** Relative humidity of the air where known: one value, or a series of readings. */
  humidityPercent: v.optional(
    v.union(
      [percent, v.array(v.strictObject({ at: moment, percent }))],
      'must be a percentage, or a list of { "at", "percent" }',
    ),
  ),
  /** After planing or sanding, the air settles this long before a surface may be open in the room. */
  dustSettleMinutes: v.optional(minutes, fallback.dustSettleMinutes.value),
});

/** The reusable container a piece is cast in. */
export const form = v.strictObject({
  id,
  name: text,
  inside: v.strictObject({ lengthMm, widthMm: lengthMm, depthMm: lengthMm }),
  /** What it takes on the bench; left out, 40 mm more than the inside each way. */
  outside: v.optional(v.strictObject({ lengthMm, widthMm: lengthMm })),
  count: v.optional(whole(1, 200, 'forms'), 1),
  /** Hands-on scraping, washing and re-releasing after demolding. */
  turnaroundMinutes: v.optional(someMinutes, fallback.turnaroundMinutes.value),
});

/** Level space: an area in cm2, or a number of spots each of which takes any one thing. */
const space = {
  areaCm2: v.optional(between(1, 10_000_000, 'cm2')),
  spots: v.optional(whole(1, 500, 'spots')),
};

export const bench = v.strictObject({ id, name: text, room: id, ...space });

export const warmBox = v.strictObject({
  id,
  name: text,
  room: id,
  setDegC: degC,
  ...space,
  heatUpMinutes: v.optional(minutes, fallback.heatUpMinutes.value),
});

/** A tool that only so many pieces can use at a time. */
export const tool = v.strictObject({
  id,
  name: text,
  room: id,
  count: v.optional(whole(1, 50, 'tools'), 1),
});
