/** Maps seen from other moments of a block: its milestones count from the application, its start from the mix. */
import { NEVER } from '../schedule/model.ts';
import type { MonotoneMap } from '../schedule/model.ts';

/** `s -> map(s + before) + after`, in minutes; NEVER stays NEVER. */
export function shifted(map: MonotoneMap, before: number, after: number): MonotoneMap {
  if (before === 0 && after === 0) return map;
  return {
    at: (s) => {
      const m = map.at(s + before);
      return m >= NEVER ? NEVER : m + after;
    },
    leastReaching: (v) => {
      if (v > NEVER) return NEVER;
      const s = map.leastReaching(v - after);
      return s >= NEVER ? NEVER : s - before;
    },
  };
}

/** `s -> minute`, whatever s: for what is already known. */
export const fixedAt = (minute: number): MonotoneMap => ({
  at: () => minute,
  leastReaching: (v) => (v <= minute ? -NEVER : NEVER),
});
