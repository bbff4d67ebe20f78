/**
 * One cup measured out, by the cup's marks and by the scale: A, B and tint, and the portions that go to the pieces.
 * Portions are measured but for the last, which is what is left; so they add up to the batch, and the walls of the cup
 * keep their share of the last one.
 */
import { fallback, ML_PER_US_FLUID_OUNCE, type Resin, type Shop } from '../shop/index.ts';
import type { Tint } from './pours.ts';
import {
  massRatio,
  mixedDensityGPerMl,
  nearestMark,
  readableParts,
  tidy,
  upToMark,
  volumeRatio,
} from './ratio.ts';

/** How the shop reads what it measures. */
export interface Instruments {
  readonly cupReadsMl: number;
  readonly scaleReadsG: number;
  readonly tintScaleReadsG: number;
  /** Share of a mix that stays in its cup, 0..1. */
  readonly cupLoss: number;
  tolerancePercent(resin: Resin): number;
}

export function instrumentsOf({ mixing, units }: Pick<Shop, 'mixing' | 'units'>): Instruments {
  return {
    cupReadsMl:
      mixing.cupReadsMl ??
      (units === 'us' ? fallback.cupReadsUsFlOz.value * ML_PER_US_FLUID_OUNCE : fallback.cupReadsMl.value),
    scaleReadsG: mixing.scaleReadsG,
    tintScaleReadsG: mixing.tintScaleReadsG,
    cupLoss: mixing.cupLossPercent / 100,
    tolerancePercent: ({ mix }) => mix.tolerancePercent ?? mixing.ratioTolerancePercent,
  };
}

export interface ByVolume {
  readonly aMl: number;
  readonly bMl: number;
  readonly mixedMl: number;
  readonly errorPercent: number;
  readonly isWithinTolerance: boolean;
  /** In pouring order; the last is what is left. They add up to `mixedMl`. */
  readonly portionsMl: readonly number[];
}

export interface ByMass {
  readonly aG: number;
  readonly bG: number;
  readonly tintG: number;
  readonly mixedG: number;
  readonly errorPercent: number;
  readonly isWithinTolerance: boolean;
  /** What the scale shows after A, after B and after the tint, the empty cup tared. */
  readonly showsG: { readonly a: number; readonly b: number; readonly tint: number };
  /** In pouring order; the last is what is left. They add up to `mixedG`. */
  readonly portionsG: readonly number[];
}

export interface Measured {
  readonly byVolume: ByVolume;
  readonly byMass: ByMass;
}

/**
 * @param needsMl what each portion must bring onto its piece, in pouring order
 * @param tint of the whole cup; null where there is none or each portion has its own
 */
export function measured(
  resin: Resin,
  needsMl: readonly number[],
  tint: Tint | null,
  instruments: Instruments,
): Measured {
  const { cupReadsMl, scaleReadsG, tintScaleReadsG, cupLoss } = instruments;
  const tolerancePercent = instruments.tolerancePercent(resin);
  const density = mixedDensityGPerMl(resin);
  const tintGPerMl = (tint?.gPerL ?? 0) / 1000;

  const takenMl = needsMl.map((ml, i) => (i < needsMl.length - 1 ? upToMark(ml, cupReadsMl) : ml));
  const volumes = readableParts(sum(takenMl) / (1 - cupLoss), volumeRatio(resin), {
    mark: cupReadsMl,
    tolerancePercent,
    most: resin.largestBatchMl,
  });
  const mixedMl = tidy(volumes.a + volumes.b);

  const takenG = needsMl.map((ml, i) => {
    const g = ml * (density + tintGPerMl);
    return i < needsMl.length - 1 ? upToMark(g, scaleReadsG) : g;
  });
  const resinG = (sum(takenG) * density) / (density + tintGPerMl) / (1 - cupLoss);
  const masses = readableParts(resinG, massRatio(resin), {
    mark: scaleReadsG,
    tolerancePercent,
    most: resin.largestBatchMl * density,
  });
  const resinMl = masses.a / resin.mix.densityAGPerMl + masses.b / resin.mix.densityBGPerMl;
  const tintG = tint ? tintFor(resinMl, tint, tintScaleReadsG) : 0;
  const mixedG = tidy(masses.a + masses.b + tintG);
  return {
    byVolume: {
      aMl: volumes.a,
      bMl: volumes.b,
      mixedMl,
      errorPercent: volumes.errorPercent,
      isWithinTolerance: volumes.isWithinTolerance,
      portionsMl: lastIsTheRest(takenMl, mixedMl),
    },
    byMass: {
      aG: masses.a,
      bG: masses.b,
      tintG,
      mixedG,
      errorPercent: masses.errorPercent,
      isWithinTolerance: masses.isWithinTolerance,
      showsG: { a: masses.a, b: tidy(masses.a + masses.b), tint: mixedG },
      portionsG: lastIsTheRest(takenG, mixedG),
    },
  };
}

/** Pigment for so much mix, in grams that the scale can read; never none at all. */
export const tintFor = (ml: number, tint: Tint, scaleReadsG: number): number =>
  Math.max(scaleReadsG, nearestMark((ml * tint.gPerL) / 1000, scaleReadsG));

const lastIsTheRest = (taken: readonly number[], whole: number): number[] => {
  const first = taken.slice(0, -1);
  return [...first, tidy(whole - sum(first))];
};

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);
