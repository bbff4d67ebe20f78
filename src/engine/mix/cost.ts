/** What each piece costs, as far as the file gives prices: resin with its waste, wood, consumables, hands-on hours. */
import type { Plan } from '../plan/document.ts';
import type { Shop } from '../shop/index.ts';
import { mixedMl, type CupsOfPlan } from './cups.ts';

export interface CostOfPiece {
  readonly piece: string;
  /** In the shop's money; null where the file gives no price. */
  readonly resin: number | null;
  readonly wood: number | null;
  readonly consumables: number | null;
  readonly work: number | null;
  /** The sum of what is known. */
  readonly total: number;
  readonly handsOnHours: number;
  /** Resin mixed for this piece and what of it did not get onto the piece, mL. */
  readonly mixedMl: number;
  readonly wasteMl: number;
  /** What is not in `total`, in words: "the price of Tarn Slow Cast". */
  readonly notGiven: readonly string[];
}

/** One entry for every piece of the plan. A shared cup's waste is borne by its pieces by what they took. */
export function costsOf(shop: Shop, plan: Plan, { cups }: CupsOfPlan): CostOfPiece[] {
  return plan.pieces.map(({ piece: id }) => {
    const recipe = shop.recipes.find((r) => r.id === shop.pieces.find((p) => p.id === id)?.recipe);
    const notGiven: string[] = [];
    let resin: number | null = null;
    let mixed = 0;
    let waste = 0;
    for (const cup of cups) {
      const needed = cup.portions.reduce((sum, { needMl }) => sum + needMl, 0);
      const own = cup.portions
        .filter(({ pour }) => pour.piece === id)
        .reduce((sum, { needMl }) => sum + needMl, 0);
      if (own === 0) continue;
      const ml = (mixedMl(cup.resin, cup.measured) * own) / needed;
      mixed += ml;
      waste += ml - own;
      const price = cup.resin.stock?.pricePerLitre;
      if (price === undefined) notGiven.push(`the price of ${cup.resin.name}`);
      else resin = (resin ?? 0) + (ml / 1000) * price;
    }
    const minutes = plan.steps
      .filter((step) => step.piece === id)
      .reduce((sum, step) => sum + step.handsOnMinutes * Math.max(1, step.people.length), 0);
    const handsOnHours = minutes / 60;
    const perHour = shop.costs?.perHour;
    const wood = recipe?.costs?.wood ?? null;
    const consumables = recipe?.costs?.consumables ?? null;
    const work = perHour === undefined ? null : handsOnHours * perHour;
    if (wood === null) notGiven.push('its wood');
    if (consumables === null) notGiven.push('its consumables');
    if (work === null) notGiven.push('an hour of work');
    return {
      piece: id,
      resin,
      wood,
      consumables,
      work,
      total: (resin ?? 0) + (wood ?? 0) + (consumables ?? 0) + (work ?? 0),
      handsOnHours,
      mixedMl: mixed,
      wasteMl: waste,
      notGiven: [...new Set(notGiven)],
    };
  });
}

/** Share of all that is mixed which gets onto no piece, 0..1. */
export function wastedShare({ cups }: CupsOfPlan): number {
  const mixed = cups.reduce((sum, cup) => sum + mixedMl(cup.resin, cup.measured), 0);
  return mixed === 0 ? 0 : cups.reduce((sum, { wasteMl }) => sum + wasteMl, 0) / mixed;
}
