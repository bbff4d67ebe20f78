/** The air of a room over some days as a line, with the stretches in which it is too cold for a resin. */
import type { Box } from './curve-picture.ts';

/** Minutes since 1970 and degC. */
export interface AirPoint {
  readonly at: number;
  readonly degC: number;
}

export interface AirPicture {
  readonly x: (minute: number) => number;
  readonly y: (degC: number) => number;
  readonly line: string;
  readonly rungs: readonly { readonly degC: number; readonly y: number }[];
  readonly lowest: AirPoint;
  readonly highest: AirPoint;
}

/** Null without samples. The scale spans at least 8 K so that an even room looks even. */
export const airPicture = (
  samples: readonly AirPoint[],
  box: Box,
  alsoDegC: readonly number[] = [],
): AirPicture | null => {
  if (samples.length === 0) return null;
  const lowest = samples.reduce((a, b) => (b.degC < a.degC ? b : a));
  const highest = samples.reduce((a, b) => (b.degC > a.degC ? b : a));
  const from = samples[0].at;
  const to = samples[samples.length - 1].at;
  const least = Math.min(lowest.degC, ...alsoDegC);
  const most = Math.max(highest.degC, ...alsoDegC);
  const spare = Math.max(1, (8 - (most - least)) / 2);
  const low = least - spare;
  const high = most + spare;
  const x = (minute: number): number =>
    box.left + ((minute - from) / Math.max(1, to - from)) * (box.width - box.left - box.right);
  const y = (degC: number): number =>
    box.height - box.bottom - ((degC - low) / (high - low)) * (box.height - box.top - box.bottom);
  const step = high - low > 24 ? 10 : high - low > 10 ? 5 : 2;
  const rungs: { degC: number; y: number }[] = [];
  for (let degC = Math.ceil(low / step) * step; degC <= high; degC += step) rungs.push({ degC, y: y(degC) });
  return {
    x,
    y,
    line: samples
      .map(({ at, degC }, n) => `${n === 0 ? 'M' : 'L'}${x(at).toFixed(1)} ${y(degC).toFixed(1)}`)
      .join(''),
    rungs,
    lowest,
    highest,
  };
};

/** Hours of the samples in which the air is below `degC`. */
export const hoursBelow = (samples: readonly AirPoint[], degC: number): number => {
  let minutes = 0;
  for (let n = 1; n < samples.length; n++) {
    const [a, b] = [samples[n - 1], samples[n]];
    const length = b.at - a.at;
    if (a.degC < degC && b.degC < degC) minutes += length;
    else if (a.degC < degC || b.degC < degC) {
      // Straight between two samples: the share below the crossing.
      minutes += (length * Math.abs(degC - Math.min(a.degC, b.degC))) / Math.abs(b.degC - a.degC);
    }
  }
  return minutes / 60;
};
