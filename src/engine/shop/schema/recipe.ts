/** How a kind of piece is made: its layers, seal, coats and the work around them. */
import * as v from 'valibot';
import { fallback } from '../defaults.ts';
import { between, depthMm, id, lengthMm, money, percent, someMinutes, text, work, whole } from './basics.ts';

/** Work that may be spread over several sessions when `split` is true. */
const splittable = (split: boolean) => v.strictObject({ work, split: v.optional(v.boolean(), split) });

const machining = v.strictObject({
  work,
  split: v.optional(v.boolean(), true),
  tool: v.optional(id),
  dust: v.optional(v.boolean(), true),
});

const bubblePass = v.strictObject({
  /** The pass begins this long after the pour has ended. */
  fromMinutes: v.optional(whole(0, 600, 'minutes'), fallback.bubblePassFromMinutes.value),
  toMinutes: v.optional(whole(0, 600, 'minutes'), fallback.bubblePassToMinutes.value),
  minutes: v.optional(someMinutes, fallback.bubblePassMinutes.value),
});

const tint = v.strictObject({ name: text, gPerL: between(0.001, 500, 'g per litre') });

/** How much of a layer is wood and not resin: a share of its area, measured pieces, or their outlines. */
const wood = v.union(
  [
    v.strictObject({ coverPercent: percent }),
    v.strictObject({
      pieces: v.array(
        v.strictObject({
          lengthMm,
          widthMm: lengthMm,
          thicknessMm: depthMm,
          count: v.optional(whole(1, 1000, 'pieces'), 1),
        }),
      ),
    }),
    v.strictObject({
      outlines: v.array(
        v.pipe(
          v.array(
            v.pipe(v.array(between(-20_000, 20_000, 'mm')), v.length(2, 'must be a pair [x, y] in mm')),
          ),
          v.minLength(3, 'must hold at least three corners'),
        ),
      ),
    }),
  ],
  'must hold "coverPercent", or "pieces", or "outlines"',
);

export const layer = v.strictObject({
  resin: id,
  depthMm: v.optional(depthMm),
  volumeMl: v.optional(between(1, 1_000_000, 'mL')),
  wood: v.optional(wood),
  tint: v.optional(tint),
  mixMinutes: v.optional(someMinutes, fallback.mixMinutes.value),
  pour: v.optional(work, { minutes: fallback.pourMinutes.value }),
  bubblePasses: v.optional(v.array(bubblePass), [{}]),
});

/** A thin application outside the form; also the seal, which goes on the wood in the form. */
const thin = {
  resin: id,
  coverMlPerM2: v.optional(between(1, 20_000, 'mL per square metre'), fallback.coverMlPerM2.value),
  tint: v.optional(tint),
  mixMinutes: v.optional(someMinutes, fallback.mixMinutes.value),
  work,
};

export const coat = v.strictObject({
  ...thin,
  face: v.optional(v.picklist(['top', 'bottom'], 'must be "top" or "bottom"'), 'top'),
});

export const recipe = v.strictObject({
  id,
  name: text,
  prepare: splittable(true),
  seal: v.optional(v.strictObject(thin)),
  layers: v.pipe(v.array(layer), v.minLength(1, 'must hold at least one layer')),
  scuff: v.optional(v.strictObject({ work }), { work: { minutes: fallback.scuffMinutes.value } }),
  demold: v.strictObject({ work }),
  flatten: v.optional(machining),
  sand: v.optional(machining),
  coats: v.optional(v.array(coat), []),
  flip: v.optional(v.strictObject({ work }), { work: { minutes: fallback.flipMinutes.value } }),
  finish: v.optional(splittable(true)),
  /** What one piece takes besides resin and hours, in the shop's money: its wood; sandpaper, cups, gloves, oil. */
  costs: v.optional(v.strictObject({ wood: v.optional(money), consumables: v.optional(money) })),
});
