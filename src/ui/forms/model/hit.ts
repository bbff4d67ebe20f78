/** What lies under a point of the picture. */
import { rowTop, type LaneBox, type Layout } from './layout.ts';
import type { Hand, Strip } from './lanes.ts';
import { xOf, type Scale } from './scale.ts';

export interface Hit {
  readonly box: LaneBox;
  readonly strip: Strip | null;
  /** The attended step nearest to the point, no more than `reach` pixels away. */
  readonly hand: Hand | null;
}

/** Half of the 44 px that a finger needs. */
const REACH = 22;

/** The lane, strip and attended step at (x, y) in the picture's own pixels; null outside every lane. */
export const hitAt = (layout: Layout, scale: Scale, x: number, y: number, reach = REACH): Hit | null => {
  const box = layout.boxes.find(({ top, height }) => y >= top && y < top + height);
  if (!box) return null;
  const inRow = box.lane.strips.filter((strip) => {
    const top = rowTop(box, strip.row);
    return y >= top - reach && y < top + box.rowHeight;
  });
  const strip = inRow.find((one) => x >= xOf(scale, one.from) && x < xOf(scale, one.to)) ?? null;
  let hand: Hand | null = null;
  let nearest = reach;
  for (const candidate of inRow.flatMap((one) => one.hands)) {
    const away = distance(x, xOf(scale, candidate.from), xOf(scale, candidate.to));
    if (away < nearest) {
      nearest = away;
      hand = candidate;
    }
  }
  return { box, strip, hand };
};

const distance = (x: number, from: number, to: number): number => (x < from ? from - x : x > to ? x - to : 0);
