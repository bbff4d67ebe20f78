/** The picture's horizontal scale: which minute is at which pixel. Plain data; every change makes a new one. */
import { DAY, HOUR, WEEK, type Minute } from '../../clock/index.ts';

export interface Scale {
  /** The minute at x = 0; need not be whole. */
  readonly from: Minute;
  readonly minutesPerPixel: number;
  readonly width: number;
}

/** From four hours to ten weeks across a picture. */
const LEAST_MINUTES = 4 * HOUR;
const MOST_MINUTES = 10 * WEEK;

export const xOf = (scale: Scale, minute: Minute): number => (minute - scale.from) / scale.minutesPerPixel;
export const minuteAt = (scale: Scale, x: number): Minute => scale.from + x * scale.minutesPerPixel;
export const endOf = (scale: Scale): Minute => scale.from + scale.width * scale.minutesPerPixel;

/** The scale moved by `pixels` to the right of what is seen. */
export const panBy = (scale: Scale, pixels: number): Scale => ({
  ...scale,
  from: scale.from + pixels * scale.minutesPerPixel,
});

/** `factor` above 1 shows more detail; the minute under `x` stays under it. */
export const zoomAt = (scale: Scale, factor: number, x: number): Scale => {
  const wanted = scale.minutesPerPixel / factor;
  const minutesPerPixel = Math.min(MOST_MINUTES / scale.width, Math.max(LEAST_MINUTES / scale.width, wanted));
  return { ...scale, minutesPerPixel, from: minuteAt(scale, x) - x * minutesPerPixel };
};

/** Shows `minutes` across the picture, keeping the minute at `x` in its place. */
export const spanMinutes = (scale: Scale, minutes: number, x: number): Scale =>
  zoomAt(scale, (scale.minutesPerPixel * scale.width) / minutes, x);

/** A first look: from a little before `now`, `minutes` wide. */
export const lookAround = (now: Minute, minutes: number, width: number): Scale => ({
  from: now - minutes * 0.14,
  minutesPerPixel: minutes / Math.max(1, width),
  width,
});

/** Moves the scale as little as needed to have [from, to) in sight, with a margin of 8 % on each side. */
export const reveal = (scale: Scale, from: Minute, to: Minute): Scale => {
  const margin = scale.width * scale.minutesPerPixel * 0.08;
  if (from - margin < scale.from) return { ...scale, from: from - margin };
  if (to + margin > endOf(scale)) {
    // A stretch longer than the picture is shown from its beginning.
    const shift = Math.min(to + margin - endOf(scale), from - margin - scale.from);
    return { ...scale, from: scale.from + Math.max(0, shift) };
  }
  return scale;
};

export const NAMED_SPANS = [
  { name: 'Day', minutes: DAY },
  { name: '3 days', minutes: 3 * DAY },
  { name: 'Week', minutes: WEEK },
  { name: '2 weeks', minutes: 2 * WEEK },
  { name: '6 weeks', minutes: 6 * WEEK },
] as const;
