/** Which piece is to blame when nothing can be planned: one that cannot be planned even by itself, or those that are pinned. */
import type { Piece, Shop } from '../shop/index.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { NOBODY, planAhead } from './plan-ahead.ts';
import type { Blame } from './plan-ahead.ts';

/** Enough to find that a piece cannot be planned by itself. */
const ALONE_BUDGET = 20_000;

/** The plan of some pieces as if there were no others; there is nobody else to blame. */
const planOnly = (shop: Shop, { now, seed, budget, stop }: PlanOptions, pieces: readonly Piece[]): Plan =>
  planAhead({ ...shop, pieces }, { now, seed, budget: Math.min(budget, ALONE_BUDGET), stop }, NOBODY);

export const planAlone = (shop: Shop, options: PlanOptions, id: string): Plan =>
  planOnly(
    shop,
    options,
    shop.pieces.filter((piece) => piece.id === id),
  );

/**
 * The clash of the first piece that cannot be planned even by itself, those with pins first; or else of all that are pinned, where these cannot be
 * planned without the others. Both are told in few words, and no longer calendar helps. A piece that is the only one was planned by itself already.
 */
export function blameIn(shop: Shop, options: PlanOptions): Blame {
  const { pieces } = shop;
  const isPinned = ({ pins }: Piece): boolean => pins.length > 0;
  const clashOfFirst = (groups: readonly (readonly Piece[])[]): readonly string[] | null => {
    for (const group of pieces.length < 2 ? [] : groups) {
      const alone = planOnly(shop, options, group);
      if (alone.status === 'infeasible') return alone.clash;
    }
    return null;
  };
  return {
    pinned() {
      const pinned = pieces.filter(isPinned);
      const isSome = pinned.length > 1 && pinned.length < pieces.length;
      return clashOfFirst([...pinned.map((piece) => [piece]), ...(isSome ? [pinned] : [])]);
    },
    among: (clashing) =>
      clashOfFirst(
        pieces.filter((piece) => clashing.has(piece.id) && !isPinned(piece)).map((piece) => [piece]),
      ),
  };
}
