/** A resin as its maker's sheet states it. All times hold at `referenceDegC`. */
import * as v from 'valibot';
import { fallback } from '../defaults.ts';
import { between, degC, depthMm, id, moment, someMinutes, text, whole } from './basics.ts';

const density = between(0.5, 3, 'g/mL');
const part = between(0.01, 1000, 'parts');
const volumeMl = between(1, 1_000_000, 'mL');

export const resin = v.strictObject({
  id,
  name: text,
  kind: v.picklist(
    ['casting', 'table-top', 'seal', 'other'],
    'must be "casting", "table-top", "seal" or "other"',
  ),
  mix: v.strictObject({
    /** Whether the parts A : B are counted by volume or by mass. */
    by: v.picklist(['volume', 'mass'], 'must be "volume" or "mass"'),
    a: part,
    b: part,
    densityAGPerMl: density,
    densityBGPerMl: density,
    /** How far A : B may be off, as the maker's sheet says; left out, the shop's `mixing.ratioTolerancePercent`. */
    tolerancePercent: v.optional(between(0.1, 20, '%')),
  }),
  referenceDegC: v.optional(degC, fallback.referenceDegC.value),
  /** From first contact of A and B until the mix no longer flows, for a cup of `batchMl`. */
  workingTime: v.strictObject({ minutes: someMinutes, batchMl: volumeMl }),
  /** Minutes from the pour until the surface is tacky, and until it is too hard for a bond. */
  tackOpensMinutes: someMinutes,
  tackClosesMinutes: someMinutes,
  scuffableMinutes: someMinutes,
  demoldMinutes: someMinutes,
  machinableMinutes: someMinutes,
  fullCureMinutes: someMinutes,
  /** How strongly cure speed follows temperature; or `secondPoint`, from which it is fitted. */
  activationEnergyKJPerMol: v.optional(between(5, 200, 'kJ/mol')),
  secondPoint: v.optional(v.strictObject({ degC, tackOpensMinutes: someMinutes })),
  lowestDegC: v.optional(degC, fallback.lowestDegC.value),
  highestDegC: v.optional(degC, fallback.highestDegC.value),
  smallestDepthMm: v.optional(depthMm, fallback.smallestDepthMm.value),
  largestDepthMm: depthMm,
  largestBatchMl: volumeMl,
  /** The surface stays at least this much above the dew point while poured or coated. */
  dewPointMarginK: v.optional(between(0, 20, 'K'), fallback.dewPointMarginK.value),
  stock: v.optional(
    v.strictObject({
      /** A and B together, in the ratio in which they are mixed, as of now. */
      ml: between(0, 10_000_000, 'mL'),
      deliveryDays: v.optional(between(0, 365, 'days'), fallback.deliveryDays.value),
      pricePerLitre: v.optional(between(0, 100_000, 'per litre')),
      /** When the cans were opened, and how many days the maker gives them from then on. */
      openedAt: v.optional(moment),
      keepsDaysOpened: v.optional(whole(1, 3650, 'days'), fallback.keepsDaysOpened.value),
    }),
  ),
});
