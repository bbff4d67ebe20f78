/** The plan as tables: its steps, and what it takes of resin and tint. Times as in the plan document. */
import { cupsOf, mixedMl } from '../mix/index.ts';
import type { Plan } from '../plan/document.ts';
import type { Shop } from '../shop/index.ts';
import { toIso } from '../time/index.ts';
import { csv } from './csv.ts';
import { cupNumbers } from './run-sheet.ts';
import { dateOf, namesOf, stepTitle } from './words.ts';

/** One row for every step, hands-on or not, in the plan's order. */
export function stepsCsv(shop: Shop, plan: Plan): string {
  const names = namesOf(shop);
  return csv(
    [
      'piece',
      'piece_name',
      'step',
      'what',
      'start',
      'end',
      'hands_on_min',
      'people',
      'room',
      'form',
      'form_unit',
      'bench',
      'warm_box',
      'tool',
      'resin',
      'batch_ml',
      'window_opens',
      'window_closes',
      'way',
      'state',
      'pinned',
    ],
    plan.steps.map((s) => [
      s.piece,
      names.piece(s.piece),
      s.step,
      stepTitle(s),
      s.start,
      s.end,
      s.handsOnMinutes,
      s.people.map(names.person).join('; '),
      s.room,
      s.form?.id,
      s.form?.unit,
      s.bench,
      s.warmBox,
      s.tool,
      s.resin,
      s.batchMl,
      s.window?.opens,
      s.window?.closes,
      s.way,
      s.state,
      s.pinned,
    ]),
  );
}

/** One row for every portion, with the cup it comes from; amounts of the cup stand in the row of its first portion only. */
export function materialsCsv(shop: Shop, plan: Plan): string {
  const all = cupsOf(shop, plan);
  const numbers = cupNumbers(all);
  const names = namesOf(shop);
  const tenth = (amount: number): number => Math.round(amount * 10) / 10;
  const thousandth = (amount: number): number => Math.round(amount * 1000) / 1000;
  return csv(
    [
      'mixed_at',
      'day',
      'cup',
      'resin',
      'a_ml',
      'b_ml',
      'a_g',
      'b_g',
      'tint',
      'tint_g',
      'mixed_ml',
      'wasted_ml',
      'piece',
      'piece_name',
      'step',
      'needed_ml',
      'portion_ml',
      'portion_g',
      'state',
    ],
    all.cups.flatMap((cup) =>
      cup.portions.map((portion, i) => {
        const { byVolume, byMass } = cup.measured;
        const tint = portion.tint ?? (i === 0 ? cup.tint : null);
        const ofCup = (amount: number): number | null => (i === 0 ? tenth(amount) : null);
        return [
          toIso(all.clock, cup.mixFrom),
          dateOf(all.clock, cup.mixFrom),
          numbers.get(cup),
          cup.resin.name,
          ofCup(byVolume.aMl),
          ofCup(byVolume.bMl),
          ofCup(byMass.aG),
          ofCup(byMass.bG),
          tint?.name,
          tint && thousandth(tint.g),
          ofCup(mixedMl(cup.resin, cup.measured)),
          ofCup(cup.wasteMl),
          portion.pour.piece,
          names.piece(portion.pour.piece),
          portion.pour.step,
          tenth(portion.needMl),
          tenth(portion.ml),
          tenth(portion.g),
          cup.state,
        ];
      }),
    ),
  );
}
