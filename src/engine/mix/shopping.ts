/** What to buy for the plan: resin that is missing, and the tint that will be weighed out. */
import type { CupsOfPlan } from './cups.ts';
import type { StockOfResin } from './stock.ts';
import { partsOf, volumeRatio } from './ratio.ts';

export interface ToBuy {
  readonly what: string;
  /** Resin in mL of A and B together, tint in g. */
  readonly amount: number;
  readonly unit: 'mL' | 'g';
  /** For resin: how much of each part. */
  readonly parts: { readonly aMl: number; readonly bMl: number } | null;
  /** Last local date for the order; null where it is only to be looked after. */
  readonly orderBy: string | null;
  readonly isLate: boolean;
  /** In the shop's money, where the file gives a price. */
  readonly price: number | null;
}

/** Soonest orders first. Tint has no stock in the file: its line says what the plan takes, to be held against the jar. */
export function shoppingList(stock: readonly StockOfResin[], { cups }: CupsOfPlan): ToBuy[] {
  const resins = stock
    .filter(({ shortMl }) => shortMl > 0)
    .map(({ resin, shortMl, orderBy, isLate }): ToBuy => {
      const { a, b } = partsOf(shortMl, volumeRatio(resin));
      const price = resin.stock?.pricePerLitre;
      return {
        what: resin.name,
        amount: shortMl,
        unit: 'mL',
        parts: { aMl: a, bMl: b },
        orderBy,
        isLate,
        price: price === undefined ? null : (shortMl / 1000) * price,
      };
    });
  const grams = new Map<string, number>();
  for (const cup of cups.filter(({ state }) => state === 'planned')) {
    for (const tint of [cup.tint, ...cup.portions.map((portion) => portion.tint)]) {
      if (tint) grams.set(tint.name, (grams.get(tint.name) ?? 0) + tint.g);
    }
  }
  const tints = [...grams].map(([what, amount]): ToBuy => {
    return { what, amount, unit: 'g', parts: null, orderBy: null, isLate: false, price: null };
  });
  return [...resins.sort((x, y) => ((x.orderBy ?? '') < (y.orderBy ?? '') ? -1 : 1)), ...tints];
}
