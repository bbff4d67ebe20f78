/** One board being made: what is promised, what was wished, what has happened. */
import * as v from 'valibot';
import { between, id, lengthMm, moment, text, whole } from './basics.ts';

/** A step's name inside its piece, such as "prepare", "layer-2-pour", "coat-1"; see the routing room. */
const stepId = v.pipe(
  v.string('must be the name of a step, such as "layer-2-pour"'),
  v.regex(/^[a-z]+(-[a-z0-9]+)*$/, 'must be the name of a step, such as "layer-2-pour"'),
);

const pieceSize = v.strictObject({ lengthMm, widthMm: lengthMm });

/** The maker's word that a step stays where it was put, or how a missed window is met. */
export const pin = v.strictObject({
  step: stepId,
  at: v.optional(moment),
  /** For a layer, coat or seal step: insist on pouring inside the window, or on scuffing first. */
  way: v.optional(v.picklist(['recoat', 'scuff'], 'must be "recoat" or "scuff"')),
});

/** What really happened to a step. A step with `started` and no `ended` is under way. */
export const actual = v.strictObject({
  step: stepId,
  started: moment,
  ended: v.optional(moment),
  person: v.optional(id),
  /** Where it was done: for "prepare" the form; for any step in a form or on a bench, that place. */
  form: v.optional(id),
  bench: v.optional(id),
  warmBox: v.optional(id),
});

/** A finger on the surface: how far has this layer, coat or seal really come? */
const touchTest = v.strictObject({
  step: stepId,
  at: moment,
  found: v.picklist(['wet', 'tacky', 'hard'], 'must be "wet", "tacky" or "hard"'),
});

export const piece = v.strictObject({
  id,
  name: text,
  recipe: id,
  size: pieceSize,
  due: moment,
  weight: v.optional(whole(1, 100, 'weight'), 1),
  earliest: v.optional(moment),
  /** Only these forms will do. */
  forms: v.optional(v.array(id)),
  /** What a moisture meter said of its wood, percent of the dry mass. */
  woodMoisturePercent: v.optional(between(0, 60, '%')),
  pins: v.optional(v.array(pin), []),
  actuals: v.optional(v.array(actual), []),
  touchTests: v.optional(v.array(touchTest), []),
});
