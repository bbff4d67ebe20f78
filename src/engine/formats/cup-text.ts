/** The day's cups as text: what one reads with gloves on, cup by cup. */
import { cupsOf } from '../mix/index.ts';
import type { Plan } from '../plan/document.ts';
import type { Shop } from '../shop/index.ts';
import { formatDay, formatMoment, toMinute } from '../time/index.ts';
import { cupCard, type CupCard } from './cup-card.ts';
import { cupNumbers } from './run-sheet.ts';
import { columns, folded } from './text-page.ts';
import { dateOf } from './words.ts';

export function cupLines(card: CupCard, width: number): string[] {
  const head = `CUP ${card.number}  ${card.resin}${card.series === '' ? '' : `, ${card.series}`}, ${card.room}`;
  const several = card.portions.length > 1;
  return [
    head,
    `  mix ${card.mixFrom} to ${card.mixTo}; it flows until ${card.worksUntil}`,
    ...card.warnings.flatMap((text) => folded(`! ${text}`, width, '  ', '    ')),
    ...columns(
      [
        ['', 'by the cup', 'or by weight', 'scale shows (tare the empty cup once)'],
        ...card.lines.map(({ what, volume, mass, scaleShows }) => [what, volume, mass, scaleShows]),
        ['ratio off', card.ratioOff.byCup, card.ratioOff.byScale, ''],
      ],
      width,
      [0, 3],
      '  ',
    ),
    several ? '  then, in this order:' : '  then:',
    ...columns(
      card.portions.map(({ piece, surface, amount, tint, from, by, workingTimeLeft, air }, i) => [
        several ? `${i + 1}.` : '',
        `${from}-${by}`,
        `${piece}, ${surface}`,
        tint === '' ? amount : `${amount}, with ${tint}`,
        workingTimeLeft.endsWith('TOO LATE') ? workingTimeLeft : `${workingTimeLeft} to spare`,
        air,
      ]),
      width,
      [2, 3, 5],
      '  ',
    ),
  ];
}

export interface DayOfCups {
  /** Local date, `YYYY-MM-DD`. */
  readonly date: string;
  readonly heading: string;
  readonly cups: readonly CupCard[];
}

/** The cups of one local day; left out, of the first day from the plan's now on with any. Done ones are not told. */
export function dayOfCups(shop: Shop, plan: Plan, date?: string): DayOfCups {
  const all = cupsOf(shop, plan);
  const numbers = cupNumbers(all);
  const ahead = all.cups.filter(({ state }) => state !== 'done');
  const today = dateOf(all.clock, toMinute(all.clock, plan.now));
  const first = ahead.map((cup) => dateOf(all.clock, cup.mixFrom)).find((d) => d >= today);
  const shown = date ?? first ?? today;
  return {
    date: shown,
    heading: formatDay(all.clock, toMinute(all.clock, `${shown}T12:00`)),
    cups: ahead
      .filter((cup) => dateOf(all.clock, cup.mixFrom) === shown)
      .map((cup) => cupCard(cup, numbers.get(cup) ?? 0, all, shop)),
  };
}

export interface CupOfPour {
  readonly piece: string;
  /** The apply step: "seal", "layer-2-pour", "coat-1". */
  readonly step: string;
  readonly card: CupCard;
}

/** Every pour that is not done with each of its cups; pours that share a cup have the same one. */
export function cupsByPour(shop: Shop, plan: Plan): CupOfPour[] {
  const all = cupsOf(shop, plan);
  const numbers = cupNumbers(all);
  return all.cups
    .filter(({ state }) => state !== 'done')
    .flatMap((cup) => {
      const card = cupCard(cup, numbers.get(cup) ?? 0, all, shop);
      return cup.portions.map(({ pour }) => ({ piece: pour.piece, step: pour.step, card }));
    });
}

/** The cups of a day as a page of text; ends in a newline. */
export function cupsText(shop: Shop, plan: Plan, width: number, date?: string): string {
  const day = dayOfCups(shop, plan, date);
  const all = cupsOf(shop, plan);
  const head = `${shop.name}: what to mix on ${day.heading} (plan of ${formatMoment(all.clock, toMinute(all.clock, plan.now))})`;
  const body =
    day.cups.length === 0
      ? [['Nothing is mixed on this day.']]
      : day.cups.map((card) => cupLines(card, width));
  return `${[[head], ...body].map((lines) => lines.join('\n')).join('\n\n')}\n`;
}
