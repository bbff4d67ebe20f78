/** Where a step lands when it is let go near something: full minutes by the zoom, and the edges of legal places. */
import type { Minute } from '../clock/index.ts';
import type { Spans } from './spans.ts';

/** Steps of the grid that are offered; the finest whose cells are at least `CELL_PX` wide is taken. */
const GRIDS = [1, 5, 15, 30, 60, 120];
const CELL_PX = 5;
/** An edge of a legal place draws the step to it from this far. */
const MAGNET_PX = 9;

export const gridFor = (minutesPerPixel: number): number =>
  GRIDS.find((grid) => grid / minutesPerPixel >= CELL_PX) ?? GRIDS[GRIDS.length - 1];

/**
 * The minute to which `minute` snaps. `dayStart` anchors the grid to the wall clock, also in zones that are half an
 * hour off.
 */
export const snapTo = (
  minute: Minute,
  minutesPerPixel: number,
  spans: Spans | null,
  dayStart: Minute,
): Minute => {
  const reach = MAGNET_PX * minutesPerPixel;
  const grid = gridFor(minutesPerPixel);
  const onGrid = dayStart + Math.round((minute - dayStart) / grid) * grid;
  let best = onGrid;
  let away = Number.POSITIVE_INFINITY;
  for (const { from, to } of spans?.open ?? []) {
    for (const edge of [from, to - 1]) {
      const distance = Math.abs(edge - minute);
      if (distance <= reach && distance < away) {
        best = edge;
        away = distance;
      }
    }
    // Inside a place, the grid wins unless an edge is near; it must not push the step out of the place.
    if (away === Number.POSITIVE_INFINITY && minute >= from && minute < to) {
      best = Math.min(to - 1, Math.max(from, onGrid));
    }
  }
  return best;
};
