/** Which piece is to blame when nothing can be planned: one that cannot be planned even by itself, or those that are pinned. */
import type { Piece, Shop } from '../shop/index.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { planAhead } from './plan-ahead.ts';

/** Enough to find that a piece cannot be planned by itself. */
const ALONE_BUDGET = 20_000;

/** The plan of some pieces as if there were no others; there is nobody else to blame. */
const planOnly = (shop: Shop, { now, seed, budget, stop }: PlanOptions, pieces: readonly Piece[]): Plan =>
  planAhead({ ...shop, pieces }, { now, seed, budget: Math.min(budget, ALONE_BUDGET), stop }, () => null);

export const planAlone = (shop: Shop, options: PlanOptions, id: string): Plan =>
  planOnly(
    shop,
    options,
    shop.pieces.filter((piece) => piece.id === id),
  );

/**
 * The clash of the first of these pieces that cannot be planned even by itself, those with pins first; or else of all
 * that are pinned, where these cannot be planned without the others. Both are told in few words, and no longer calendar
 * helps. Null when neither is so; a piece that is the only one was planned by itself already.
 */
export function impossibleAlone(
  shop: Shop,
  options: PlanOptions,
  among: ReadonlySet<string | null>,
): readonly string[] | null {
  if (shop.pieces.length < 2) return null;
  const pieces = shop.pieces.filter(({ id }) => among.has(id));
  const pinned = pieces.filter(({ pins }) => pins.length > 0);
  const groups = [...pinned, ...pieces.filter(({ pins }) => pins.length === 0)].map((piece) => [piece]);
  // Before the others: there are few of them, and what a maker fixed is most often what clashes.
  const isSome = pinned.length > 1 && pinned.length < shop.pieces.length;
  if (isSome) groups.splice(pinned.length, 0, pinned);
  for (const group of groups) {
    const alone = planOnly(shop, options, group);
    if (alone.status === 'infeasible') return alone.clash;
  }
  return null;
}
