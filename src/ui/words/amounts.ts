/** What to measure out for one mix, in the shop's units. Nothing is rounded before it is written. */
import type { Resin, Shop } from '../../engine/shop/index.ts';

export interface Part {
  readonly name: 'A' | 'B';
  readonly ml: number;
  readonly g: number;
}

export interface Batch {
  /** Cups of this size each. */
  readonly cups: number;
  /** What goes into one cup. */
  readonly ml: number;
  readonly parts: readonly [Part, Part];
}

/** US fluid ounce, exactly 231/128 cubic inches: NIST Handbook 44, Appendix C. */
const ML_PER_US_FL_OZ = 29.5735295625;

/** Splits `ml` of mixed resin into equal cups that the resin's largest batch allows, and each cup into its parts. */
export const batchOf = (resin: Resin, ml: number): Batch => {
  const cups = Math.max(1, Math.ceil(ml / resin.largestBatchMl - 1e-9));
  const each = ml / cups;
  const { mix } = resin;
  // By volume the shares are the parts; by mass the parts become volumes through the densities.
  const volumeA = mix.by === 'volume' ? mix.a : mix.a / mix.densityAGPerMl;
  const volumeB = mix.by === 'volume' ? mix.b : mix.b / mix.densityBGPerMl;
  const a = (each * volumeA) / (volumeA + volumeB);
  const b = each - a;
  return {
    cups,
    ml: each,
    parts: [
      { name: 'A', ml: a, g: a * mix.densityAGPerMl },
      { name: 'B', ml: b, g: b * mix.densityBGPerMl },
    ],
  };
};

/** `420 mL` or `14.2 US fl oz`. */
export const volumeText = (ml: number, units: Shop['units']): string => {
  if (units === 'us') return `${(ml / ML_PER_US_FL_OZ).toFixed(1)} US fl oz`;
  return ml >= 1000 ? `${(ml / 1000).toFixed(2)} L` : `${Math.round(ml)} mL`;
};

/** `462 g`: scales in a shop show grams whatever the units. */
export const massText = (g: number): string => (g < 10 ? `${g.toFixed(1)} g` : `${Math.round(g)} g`);
