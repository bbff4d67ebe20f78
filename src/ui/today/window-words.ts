/** How far a window has come, as shares of its bar and in words. */
import type { Minute } from '../clock/index.ts';

export interface WindowScale {
  /** Percent of the bar. */
  readonly opensAt: number;
  readonly closesAt: number;
  readonly nowAt: number;
  readonly place: (minute: Minute) => number;
}

/** The bar shows as much time before the window as the window is long (at least an hour), and a little after it. */
export const windowScale = (opens: Minute, closes: Minute, now: Minute): WindowScale => {
  const length = Math.max(1, closes - opens);
  const from = opens - Math.max(60, length);
  const to = closes + length * 0.15;
  const place = (minute: Minute): number => Math.min(100, Math.max(0, ((minute - from) / (to - from)) * 100));
  return { opensAt: place(opens), closesAt: place(closes), nowAt: place(now), place };
};

export const windowWords = (
  opens: Minute,
  closes: Minute,
  now: Minute,
  lasting: (minutes: number) => string,
): string => {
  if (now < opens) return `opens in ${lasting(opens - now)}`;
  if (now <= closes) return `open now, ${lasting(closes - now)} left`;
  return `closed ${lasting(now - closes)} ago: scuff before the next pour`;
};
