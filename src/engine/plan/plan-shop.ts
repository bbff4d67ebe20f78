/** Plans a shop: the best plan found, or why there is none. */
import type { Shop } from '../shop/index.ts';
import { blameIn, planAlone } from './blame.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { planAhead } from './plan-ahead.ts';

/**
 * @returns the best plan found; `infeasible` with its clash in words, or `unknown`, when there is none
 * @throws RangeError for a `now` that cannot be read
 */
export const planShop = (shop: Shop, options: PlanOptions): Plan =>
  planAhead(shop, options, blameIn(shop, options));

/**
 * As `planShop`, for a shop in which something of one piece has been fixed that may not hold: the piece is planned by
 * itself first, since what cannot be planned alone is found so far sooner.
 */
export function tryPlan(shop: Shop, piece: string, options: PlanOptions): Plan {
  const alone = planAlone(shop, options, piece);
  return alone.status === 'infeasible' ? alone : planShop(shop, options);
}
