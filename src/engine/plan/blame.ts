/** Which piece is to blame when nothing can be planned: one that cannot be planned even by itself. */
import type { Shop } from '../shop/index.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { planAhead } from './plan-ahead.ts';

/** Enough to find that a piece cannot be planned by itself. */
const ALONE_BUDGET = 20_000;

/** The plan of one piece as if there were no other; there is nobody else to blame. */
export const planAlone = (shop: Shop, { now, seed, budget, stop }: PlanOptions, id: string): Plan =>
  planAhead(
    { ...shop, pieces: shop.pieces.filter((piece) => piece.id === id) },
    { now, seed, budget: Math.min(budget, ALONE_BUDGET), stop },
    () => null,
  );

/**
 * The clash of the first of these pieces that cannot be planned even by itself, which is told in few words; null when
 * each can. Those with pins come first. A piece that is the only one was planned by itself already.
 */
export function impossibleAlone(
  shop: Shop,
  options: PlanOptions,
  among: ReadonlySet<string | null>,
): readonly string[] | null {
  if (shop.pieces.length < 2) return null;
  const pieces = shop.pieces.filter(({ id }) => among.has(id));
  const pinned = pieces.filter(({ pins }) => pins.length > 0);
  for (const { id } of [...pinned, ...pieces.filter(({ pins }) => pins.length === 0)]) {
    const alone = planAlone(shop, options, id);
    if (alone.status === 'infeasible') return alone.clash;
  }
  return null;
}
