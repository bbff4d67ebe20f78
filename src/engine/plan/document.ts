/**
 * The plan document, version 1: what `plan --json` prints, what the checker reads, what the screen draws.
 * Times are ISO 8601 with the shop's offset, to the minute; spans are half-open.
 */
import * as v from 'valibot';
import type { Frozen } from '../shop/index.ts';

export const PLAN_FORMAT = 'pourwright.plan';
export const PLAN_VERSION = 1;

const time = v.pipe(
  v.string(),
  v.regex(
    /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(Z|[+-]\d{2}:\d{2})$/,
    'must be a time such as "2026-11-25T14:30+00:00"',
  ),
);

const oneOf = <const T extends readonly string[]>(words: T) =>
  v.picklist(words, `must be one of ${words.join(', ')}`);

export const STEP_KINDS = [
  'prepare',
  'mix',
  'seal',
  'pour',
  'bubbles',
  'coat',
  'scuff',
  'set',
  'cure',
  'demold',
  'turnaround',
  'rest',
  'flatten',
  'sand',
  'flip',
  'finish',
  'ready',
] as const;

export const planStep = v.strictObject({
  piece: v.string(),
  /** The step's name inside its piece, such as "layer-2-pour". */
  step: v.string(),
  kind: oneOf(STEP_KINDS),
  start: time,
  end: time,
  /** Minutes for which each of `people` has their hands on it; 0 for unattended steps. */
  handsOnMinutes: v.number(),
  people: v.array(v.string()),
  /** Where: the room always; the others where the step has them. A form's unit counts from 1. */
  room: v.string(),
  form: v.optional(v.strictObject({ id: v.string(), unit: v.number() })),
  bench: v.optional(v.string()),
  warmBox: v.optional(v.string()),
  tool: v.optional(v.string()),
  /** For a seal, pour or coat that goes over another: the tack window of the one below, if that ever opens. */
  window: v.optional(v.strictObject({ of: v.string(), opens: time, closes: time })),
  /** How the layer below is met: inside its window, or scuffed first. */
  way: v.optional(oneOf(['recoat', 'scuff'])),
  resin: v.optional(v.string()),
  batchMl: v.optional(v.number()),
  state: oneOf(['planned', 'begun', 'done']),
  pinned: v.boolean(),
});

/** A stretch in which a piece holds a form, bench or warm box. */
export const planHold = v.strictObject({
  piece: v.string(),
  what: oneOf(['form', 'bench', 'warm-box']),
  id: v.string(),
  /** For forms: which of the alike ones, from 1. */
  unit: v.optional(v.number()),
  from: time,
  /** For a form: the moment it frees up. */
  to: time,
  /** cm2 for an area, 1 for a spot or a form. */
  amount: v.number(),
});

export const planPiece = v.strictObject({
  piece: v.string(),
  ready: time,
  due: time,
  lateMinutes: v.number(),
});

export const planLevel = v.strictObject({
  name: oneOf(['passes', 'tardiness', 'windows', 'visits', 'early', 'moved', 'promise']),
  value: v.number(),
  bound: v.number(),
  proven: v.boolean(),
});

/** A remark the maker should read, such as a stall of cure; `piece` and `step` where it belongs to one. */
export const planNote = v.strictObject({
  kind: v.string(),
  text: v.string(),
  piece: v.optional(v.string()),
  step: v.optional(v.string()),
});

export const planSchema = v.strictObject({
  format: v.literal(PLAN_FORMAT),
  version: v.literal(PLAN_VERSION),
  shop: v.string(),
  zone: v.string(),
  now: time,
  seed: v.number(),
  budget: v.number(),
  status: oneOf(['optimal', 'feasible', 'infeasible', 'unknown']),
  levels: v.array(planLevel),
  steps: v.array(planStep),
  holds: v.array(planHold),
  pieces: v.array(planPiece),
  notes: v.array(planNote),
  /** When no plan can exist: the rules and pieces that clash, in plain words. */
  clash: v.array(v.string()),
});

export type Plan = Frozen<v.InferOutput<typeof planSchema>>;
export type PlanStep = Plan['steps'][number];
export type PlanHold = Plan['holds'][number];
export type PlanLevel = Plan['levels'][number];
export type PlanNote = Plan['notes'][number];
export type StepKind = (typeof STEP_KINDS)[number];
