/** What lies under a point of the picture. */
import type { Picked } from '../../state/index.ts';
import { rowTop, type LaneBox, type Layout } from './layout.ts';
import type { Hand, Strip } from './strips.ts';
import { xOf, type Scale } from './scale.ts';

export interface Hit {
  readonly box: LaneBox;
  readonly strip: Strip | null;
  /** The attended step nearest to the point, no more than half a finger away. */
  readonly hand: Hand | null;
}

/** Half of the 44 px that a finger needs. */
const REACH = 22;

/** So close to the point, short steps stand side by side: one that was picked goes before one that is nearer. */
const BESIDE = 8;

/** The lane, strip and attended step at (x, y) in the picture's own pixels; null outside every lane. */
export const hitAt = (
  layout: Layout,
  scale: Scale,
  x: number,
  y: number,
  picked: Picked | null = null,
): Hit | null => {
  const box = layout.boxes.find(({ top, height }) => y >= top && y < top + height);
  if (!box) return null;
  const inRow = box.lane.strips.filter((strip) => {
    const top = rowTop(box, strip.row);
    return y >= top - REACH && y < top + box.rowHeight;
  });
  const strip = inRow.find((one) => x >= xOf(scale, one.from) && x < xOf(scale, one.to)) ?? null;
  let hand: Hand | null = null;
  let nearest = REACH;
  for (const candidate of inRow.flatMap((one) => one.hands)) {
    const isPicked = candidate.piece === picked?.piece && candidate.step === picked.step;
    const apart = distance(x, xOf(scale, candidate.from), xOf(scale, candidate.to));
    const away = isPicked && apart <= BESIDE ? -1 : apart;
    if (away < nearest) {
      nearest = away;
      hand = candidate;
    }
  }
  return { box, strip, hand };
};

const distance = (x: number, from: number, to: number): number => (x < from ? from - x : x > to ? x - to : 0);
