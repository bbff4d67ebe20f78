/**
 * A and B by volume and by mass, and what is left of the ratio once a cup or a scale has rounded them. Volumes are
 * taken to add up on mixing; epoxies shrink by a few percent only later, while they cure.
 */
import type { Resin } from '../shop/index.ts';

/** Amounts of the two parts, in one unit (mL or g). */
export interface Parts {
  readonly a: number;
  readonly b: number;
}

/** A : B by volume, as A per one B. */
export const volumeRatio = ({ mix }: Resin): number =>
  mix.by === 'volume' ? mix.a / mix.b : (mix.a / mix.b) * (mix.densityBGPerMl / mix.densityAGPerMl);

/** A : B by mass, as A per one B: the ratio by volume times the ratio of the densities. */
export const massRatio = ({ mix }: Resin): number =>
  mix.by === 'mass' ? mix.a / mix.b : (mix.a / mix.b) * (mix.densityAGPerMl / mix.densityBGPerMl);

/** Mass of one millilitre of the mix, g: the two densities by their shares of the volume. */
export const mixedDensityGPerMl = (resin: Resin): number => {
  const r = volumeRatio(resin);
  return (r * resin.mix.densityAGPerMl + resin.mix.densityBGPerMl) / (r + 1);
};

/** Splits an amount of mix exactly in `ratio` (A per one B). */
export const partsOf = (amount: number, ratio: number): Parts => {
  const b = amount / (1 + ratio);
  return { a: amount - b, b };
};

/** By how much A : B is off its ratio, percent; above 0 there is too much A. */
export const ratioErrorPercent = ({ a, b }: Parts, ratio: number): number => (a / b / ratio - 1) * 100;

export interface Measure {
  /** The finest that can be read, in the amounts' unit. */
  readonly mark: number;
  readonly tolerancePercent: number;
  /** No more than this may be mixed, where it can be helped. */
  readonly most: number;
}

export interface ReadableParts extends Parts {
  readonly errorPercent: number;
  readonly isWithinTolerance: boolean;
}

/** More than this share on top is not mixed only for a rounder number. Common practice, no source. */
const WORTH_FOR_A_BETTER_RATIO = 1.05;
const MOST_ON_TOP = 1.1;
const MARKS_ON_TOP = 3;

/**
 * The amounts that can be read off marks, together at least `needed`, A being a mark next to its exact share for B: the
 * least whose ratio is off by no more than half the tolerance, unless 5 % less keeps the whole of it. When nothing near
 * keeps it, the one that is off by least, and it says so.
 * @throws RangeError when an amount, the ratio or the mark is not above 0
 */
export function readableParts(needed: number, ratio: number, measure: Measure): ReadableParts {
  const { mark, tolerancePercent, most } = measure;
  if (!(needed > 0) || !(ratio > 0) || !(mark > 0)) {
    throw new RangeError(`mix: ${needed} in the ratio ${ratio} on marks of ${mark}; all must be above 0`);
  }
  const last = Math.max(needed * MOST_ON_TOP, needed + MARKS_ON_TOP * mark);
  const found: (ReadableParts & { total: number })[] = [];
  const firstB = Math.max(1, Math.floor(needed / (1 + ratio) / mark) - 1);
  const lastB = Math.ceil(last / (1 + ratio) / mark) + 1;
  for (let countB = firstB; countB <= lastB; countB++) {
    for (const countA of new Set([Math.floor(ratio * countB), Math.ceil(ratio * countB)])) {
      const [a, b] = [tidy(countA * mark), tidy(countB * mark)];
      const total = tidy(a + b);
      if (countA < 1 || total < needed - 1e-9) continue;
      const errorPercent = ratioErrorPercent({ a, b }, ratio);
      found.push({
        a,
        b,
        errorPercent,
        isWithinTolerance: Math.abs(errorPercent) <= tolerancePercent + 1e-9,
        total,
      });
    }
  }
  const allowed = found.filter(({ total }) => total <= most + 1e-9);
  const candidates = (allowed.length > 0 ? allowed : found).sort(
    (x, y) => x.total - y.total || Math.abs(x.errorPercent) - Math.abs(y.errorPercent),
  );
  const near = candidates.filter(({ total }) => total <= last + 1e-9);
  const within = near.find((c) => c.isWithinTolerance);
  const well = near.find((c) => Math.abs(c.errorPercent) <= tolerancePercent / 2);
  const best =
    within && well && well.total <= within.total * WORTH_FOR_A_BETTER_RATIO
      ? well
      : (within ?? leastOff(near.length > 0 ? near : candidates));
  const { a, b, errorPercent, isWithinTolerance } = best;
  return { a, b, errorPercent, isWithinTolerance };
}

const leastOff = <T extends ReadableParts>(parts: readonly T[]): T =>
  parts.reduce((x, y) => (Math.abs(y.errorPercent) < Math.abs(x.errorPercent) ? y : x));

/** The next mark at or above. */
export const upToMark = (amount: number, mark: number): number =>
  tidy(Math.ceil(amount / mark - 1e-9) * mark);
/** The nearest mark. */
export const nearestMark = (amount: number, mark: number): number => tidy(Math.round(amount / mark) * mark);

/** Takes away what binary fractions leave behind: 0.30000000000000004 is 0.3. */
export const tidy = (amount: number): number => Number(amount.toPrecision(12));
