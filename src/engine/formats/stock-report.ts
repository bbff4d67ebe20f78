/** Stock, shopping and cost of a plan, in words and as plain data. */
import {
  costsOf,
  cupsOf,
  shoppingList,
  stockOf,
  wastedShare,
  type CostOfPiece,
  type Lacking,
  type StockOfResin,
  type ToBuy,
} from '../mix/index.ts';
import type { Plan } from '../plan/document.ts';
import { massText, volumeText, type Shop } from '../shop/index.ts';
import { formatDay, formatMoment, toMinute } from '../time/index.ts';
import { columns, folded } from './text-page.ts';
import { namesOf, surfaceName } from './words.ts';

export interface StockReport {
  readonly stock: readonly (Omit<StockOfResin, 'resin'> & { readonly resin: string })[];
  readonly shopping: readonly ToBuy[];
  readonly costs: readonly CostOfPiece[];
  /** Share of what is mixed that gets onto no piece, 0..1. */
  readonly wastedShare: number;
}

/** Amounts in mL and g; minutes count as in `cupsOf`. */
export function stockReport(shop: Shop, plan: Plan): StockReport {
  const cups = cupsOf(shop, plan);
  const stock = stockOf(shop, plan, cups);
  return {
    stock: stock.map((one) => ({ ...one, resin: one.resin.id })),
    shopping: shoppingList(stock, cups),
    costs: costsOf(shop, plan, cups),
    wastedShare: wastedShare(cups),
  };
}

/** The same as a page; ends in a newline. */
export function materialsText(shop: Shop, plan: Plan, width: number): string {
  const all = cupsOf(shop, plan);
  const { clock } = all;
  const names = namesOf(shop);
  const volume = (ml: number): string => volumeText(Math.round(ml), shop.units);
  const day = (date: string): string => formatDay(clock, toMinute(clock, `${date}T12:00`));
  const money = (amount: number | null): string =>
    amount === null ? '-' : `${shop.costs ? `${shop.costs.currency} ` : ''}${amount.toFixed(2)}`;
  const who = ({ piece, step, at }: Lacking): string =>
    `${names.piece(piece)}, ${surfaceName(step)} (${formatMoment(clock, at)})`;
  const stock = stockOf(shop, plan, all);

  const cans = stock.flatMap((one) => [
    ...folded(
      `${one.resin.name}: ${one.haveMl === null ? 'stock not known' : `${volume(one.haveMl)} there`}, ${volume(one.neededMl)} needed`,
      width,
      '  ',
    ),
    ...columns(
      one.days.map(({ date, mixedMl, aMl, bMl, leftMl }) => [
        day(date),
        volume(mixedMl),
        `A ${volume(aMl)}`,
        `B ${volume(bMl)}`,
        leftMl === null ? '' : leftMl >= 0 ? `${volume(leftMl)} left` : `${volume(-leftMl)} SHORT`,
      ]),
      width,
      [],
      '    ',
    ),
    ...(one.orderBy === null || one.runsOutOn === null
      ? []
      : folded(
          one.isLate
            ? `ORDER NOW: it had to be ordered by ${day(one.orderBy)} to be there on ${day(one.runsOutOn)}`
            : `order by ${day(one.orderBy)}: it runs out on ${day(one.runsOutOn)}`,
          width,
          '    ',
          '      ',
        )),
    ...(one.lacking.length === 0
      ? []
      : folded(`cannot be mixed without it: ${one.lacking.map(who).join('; ')}`, width, '    ', '      ')),
    ...(one.goodUntil !== null && one.stale.length > 0
      ? folded(
          `the opened cans are good until ${day(one.goodUntil)}, too soon for ${one.stale.map(who).join('; ')}`,
          width,
          '    ',
          '      ',
        )
      : []),
  ]);
  const shopping = shoppingList(stock, all).map(({ what, amount, unit, parts, orderBy, isLate, price }) => [
    what,
    unit === 'mL' ? volume(amount) : massText(amount),
    parts ? `A ${volume(parts.aMl)}, B ${volume(parts.bMl)}` : 'to be held against the jar',
    orderBy === null ? '' : isLate ? 'order NOW' : `order by ${day(orderBy)}`,
    price === null ? '' : money(price),
  ]);
  const costs = costsOf(shop, plan, all);
  const notGiven = [...new Set(costs.flatMap((cost) => cost.notGiven))];
  const costRows = costs.map((cost) => [
    names.piece(cost.piece),
    money(cost.resin),
    money(cost.wood),
    money(cost.consumables),
    money(cost.work),
    `${cost.handsOnHours.toFixed(1)} h`,
    money(cost.total),
    volume(cost.wasteMl),
  ]);
  const parts = [
    [`${shop.name}: resin and money (plan of ${formatMoment(clock, toMinute(clock, plan.now))})`],
    ['Cans', ...cans],
    ['To buy', ...(shopping.length === 0 ? ['  nothing'] : columns(shopping, width, [0, 2], '  '))],
    costRows.length === 0
      ? []
      : [
          'Cost of each piece',
          ...columns(
            [['', 'resin', 'wood', 'consumables', 'work', 'hands-on', 'total', 'wasted'], ...costRows],
            width,
            [0],
            '  ',
          ),
          ...(notGiven.length === 0
            ? []
            : folded(
                `not in it, because the file does not say: ${notGiven.join(', ')}`,
                width,
                '  ',
                '    ',
              )),
        ],
    [
      `Of all that is mixed ${(wastedShare(all) * 100).toFixed(1)} % gets onto no piece (walls of the cups, rounding up).`,
    ],
  ];
  return `${parts
    .filter((part) => part.length > 0)
    .map((part) => part.join('\n'))
    .join('\n\n')}\n`;
}
