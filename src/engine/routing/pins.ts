/**
 * Times that the maker has pinned. They are bound last, to a shop that is routed without them: dropping a step changes a pin and nothing else,
 * so the next plan finds the rest of its model made.
 */
import type { Piece, Shop } from '../shop/index.ts';
import { toMinute } from '../time/index.ts';
import type { Ground } from './ground.ts';
import type { Block } from './itinerary.ts';
import type { ModelBuilder } from './model-builder.ts';
import { stepOffset } from './past.ts';
import type { PieceRoute } from './piece-route.ts';

/** The shop with no time pinned; which way a window is met stays as the maker said. */
export const withoutPinnedTimes = (shop: Shop): Shop => ({
  ...shop,
  pieces: shop.pieces.map((piece) => ({
    ...piece,
    pins: piece.pins.filter(({ way }) => way !== undefined).map(({ step, way }) => ({ step, way })),
  })),
});

/** Minute for which the user pinned the start of this block, if any. */
function pinnedStart(ground: Ground, piece: Piece, block: Block): number | null {
  for (const pin of [...piece.pins].reverse()) {
    if (pin.at !== undefined && block.steps.some((s) => s.id === pin.step)) {
      return toMinute(ground.clock, pin.at) - stepOffset(block, pin.step);
    }
  }
  return null;
}

/** A pin whose time has passed without the step having begun; it does not bind. */
export interface PassedPin {
  readonly piece: string;
  readonly step: string;
}

/** Fixes the starts that the piece pins; returns the pins that time has passed. */
export function bindPins(
  builder: ModelBuilder,
  ground: Ground,
  { itinerary, blocks }: PieceRoute,
): PassedPin[] {
  const { piece } = itinerary;
  if (piece.pins.length === 0) return [];
  return blocks.flatMap(({ block, start, past }): PassedPin[] => {
    const pinned = past ? null : pinnedStart(ground, piece, block);
    if (pinned === null) return [];
    if (pinned < ground.now) return [{ piece: piece.id, step: block.id }];
    builder.fix(start, pinned, builder.reason('pin', piece.id, block.id, 'you pinned it there'));
    return [];
  });
}
