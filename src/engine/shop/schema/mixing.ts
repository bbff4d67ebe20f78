/** How the shop measures its mixes, and what its hours cost. */
import * as v from 'valibot';
import { fallback } from '../defaults.ts';
import { between, money, percent, text } from './basics.ts';

export const mixing = v.strictObject({
  /** Share of what is mixed that stays on the walls of the cup. */
  cupLossPercent: v.optional(
    v.pipe(percent, v.maxValue(50, 'must be at most 50 %')),
    fallback.cupLossPercent.value,
  ),
  /** The finest marks of the cups; left out, 5 mL, or a quarter of a US fluid ounce where `units` is "us". */
  cupReadsMl: v.optional(between(0.1, 1000, 'mL')),
  scaleReadsG: v.optional(between(0.01, 100, 'g'), fallback.scaleReadsG.value),
  /** Pigment is weighed on a finer scale. */
  tintScaleReadsG: v.optional(between(0.001, 10, 'g'), fallback.tintScaleReadsG.value),
  /** By how much A : B may be off after rounding, where the resin's maker does not say. */
  ratioTolerancePercent: v.optional(between(0.1, 20, '%'), fallback.ratioTolerancePercent.value),
});

export const costs = v.strictObject({
  /** What is written before amounts, such as "EUR". */
  currency: text,
  /** One hour of hands-on work. */
  perHour: v.optional(money),
});
