/** What the plan takes out of the cans, day by day: what is left, what runs out, when to order, what goes stale. */
import type { Plan } from '../plan/document.ts';
import type { Resin, Shop } from '../shop/index.ts';
import { addDays, localParts, toMinute, type Clock } from '../time/index.ts';
import { mixedMl, type Cup, type CupsOfPlan } from './cups.ts';
import { partsOf, volumeRatio } from './ratio.ts';

export interface DayUse {
  /** Local date, `YYYY-MM-DD`. */
  readonly date: string;
  readonly mixedMl: number;
  readonly aMl: number;
  readonly bMl: number;
  /** What is in the cans when the day is over; below 0 so much is missing. Null where the stock is not known. */
  readonly leftMl: number | null;
}

/** A pour that cannot be mixed. */
export interface Lacking {
  readonly piece: string;
  readonly step: string;
  /** Minute of the clock at which its mix would begin. */
  readonly at: number;
}

export interface StockOfResin {
  readonly resin: Resin;
  /** Null where the file says nothing of its stock. */
  readonly haveMl: number | null;
  readonly days: readonly DayUse[];
  readonly neededMl: number;
  /** How much is missing to the end of the plan, 0 when nothing is. */
  readonly shortMl: number;
  /** The first local date on which it does not suffice. */
  readonly runsOutOn: string | null;
  /** The last local date on which an order still comes in time, the day of delivery being the day before it is used. */
  readonly orderBy: string | null;
  /** That date has passed: an order of today comes too late for the first of `lacking`. */
  readonly isLate: boolean;
  readonly lacking: readonly Lacking[];
  /** The last local date on which opened cans are good, and the pours that come after it. */
  readonly goodUntil: string | null;
  readonly stale: readonly Lacking[];
}

/** One entry for every resin of the shop. Only mixes that have not begun count: what is mixed has left its can. */
export function stockOf(shop: Shop, plan: Plan, { cups, clock }: CupsOfPlan): StockOfResin[] {
  const today = localParts(clock, toMinute(clock, plan.now)).date;
  return shop.resins.map((resin) =>
    stockOfResin(
      resin,
      cups.filter((cup) => cup.resin.id === resin.id && cup.state === 'planned'),
      clock,
      today,
    ),
  );
}

function stockOfResin(resin: Resin, cups: readonly Cup[], clock: Clock, today: string): StockOfResin {
  const dateOf = (minute: number): string => localParts(clock, minute).date;
  const { stock } = resin;
  const haveMl = stock?.ml ?? null;
  const goodUntil =
    stock?.openedAt === undefined
      ? null
      : addDays(dateOf(toMinute(clock, stock.openedAt)), stock.keepsDaysOpened);
  const used = new Map<string, number>();
  const lacking: Lacking[] = [];
  const stale: Lacking[] = [];
  let neededMl = 0;
  for (const cup of cups) {
    const date = dateOf(cup.mixFrom);
    const ml = mixedMl(resin, cup.measured);
    used.set(date, (used.get(date) ?? 0) + ml);
    neededMl += ml;
    const these = cup.portions.map(({ pour }) => ({ piece: pour.piece, step: pour.step, at: cup.mixFrom }));
    if (haveMl !== null && neededMl > haveMl + 1e-6) lacking.push(...these);
    if (goodUntil !== null && date > goodUntil) stale.push(...these);
  }
  let left = haveMl;
  const days = [...used].map(([date, ml]): DayUse => {
    if (left !== null) left -= ml;
    const { a, b } = partsOf(ml, volumeRatio(resin));
    return { date, mixedMl: ml, aMl: a, bMl: b, leftMl: left };
  });
  const runsOutOn = lacking.length > 0 ? dateOf(lacking[0].at) : null;
  const orderBy = runsOutOn === null ? null : addDays(runsOutOn, -Math.ceil(stock?.deliveryDays ?? 0) - 1);
  return {
    resin,
    haveMl,
    days,
    neededMl,
    shortMl: haveMl === null ? 0 : Math.max(0, neededMl - haveMl),
    runsOutOn,
    orderBy,
    isLate: orderBy !== null && orderBy < today,
    lacking: onceEach(lacking),
    goodUntil,
    stale: onceEach(stale),
  };
}

/** A pour that takes several cups is named once, by its first. */
const onceEach = (pours: readonly Lacking[]): Lacking[] =>
  pours.filter((p, i) => pours.findIndex((q) => q.piece === p.piece && q.step === p.step) === i);
