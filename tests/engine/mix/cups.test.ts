import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planShop } from '../../../src/engine/index.ts';
import { cupsOf, mixedMl } from '../../../src/engine/mix/index.ts';
import { toIso } from '../../../src/engine/time/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { at, mixingShop, planWith, pourSteps, type WrittenPour } from './bench-day.ts';

const SEED = { seed: 20261126, numRuns: 60 };

/** Pours of `ml` each from `hour` o'clock, one after the other: five minutes of mixing, five of pouring. */
const oneAfterTheOther = (mls: readonly number[], resin = 'slow'): WrittenPour[] =>
  mls.map((ml, i) => {
    const time = (minutes: number): string => {
      const whole = 8 * 60 + i * 10 + minutes;
      return at(
        3,
        `${String(Math.floor(whole / 60)).padStart(2, '0')}:${String(whole % 60).padStart(2, '0')}`,
      );
    };
    return { piece: 'abcd'[i], resin, ml, mix: time(0), pour: time(5), end: time(10) };
  });

describe('pours that fall together', () => {
  test('share one cup, mixed before the first, poured in order, the last being what is left', () => {
    const shop = mixingShop();
    const { cups, clock } = cupsOf(shop, planWith(shop, pourSteps(oneAfterTheOther([500, 303, 400]))));
    expect(cups).toHaveLength(1);
    const [cup] = cups;
    expect(toIso(clock, cup.mixFrom)).toBe(at(3, '08:00'));
    expect(cup.portions.map(({ pour }) => pour.piece)).toEqual(['a', 'b', 'c']);
    expect(cup.portions.map(({ isWhatIsLeft }) => isWhatIsLeft)).toEqual([false, false, true]);
    // The second is measured up to the next 5 mL mark, the third takes the rest.
    expect(cup.portions.map(({ ml }) => ml)).toEqual([500, 305, cup.measured.byVolume.mixedMl - 805]);
    expect(cup.measured.byVolume.mixedMl).toBeGreaterThanOrEqual(1205);
  });

  test('tell what is left of the working time for each: the fast resin flows 22 minutes at its reference temperature', () => {
    const shop = mixingShop((file) => (file.resins[1].referenceDegC = 22));
    const pours = oneAfterTheOther([100, 100], 'fast');
    const { cups } = cupsOf(shop, planWith(shop, pourSteps(pours)));
    // The room is at 22 degC: a minute is a minute. Mixed at 8:00; poured by 8:10 and, with its own mix, by 8:20.
    expect(cups.map((cup) => cup.portions.map((portion) => portion.workingMinutesLeft))).toEqual([
      [12],
      [12],
    ]);
  });

  test('do not share when the last would come too late for the working time', () => {
    const shop = mixingShop();
    const together = oneAfterTheOther([500, 500]);
    expect(cupsOf(shop, planWith(shop, pourSteps(together))).cups).toHaveLength(1);
    const short = mixingShop((file) => (file.resins[0].workingTime = { minutes: 24, batchMl: 2000 }));
    expect(cupsOf(short, planWith(short, pourSteps(together))).cups).toHaveLength(2);
  });

  test('come in the order in which they are mixed, those of another resin between the cups of one pour', () => {
    const shop = mixingShop((file) => (file.resins[0].largestBatchMl = 900));
    const pours = [
      { piece: 'a', resin: 'slow', ml: 2500, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:35') },
      { piece: 'b', resin: 'fast', ml: 100, mix: at(3, '08:07'), pour: at(3, '08:12'), end: at(3, '08:17') },
    ];
    const { cups } = cupsOf(shop, planWith(shop, pourSteps(pours)));
    expect(cups.map(({ portions }) => portions.map(({ pour }) => pour.piece).join())).toEqual([
      'a',
      'b',
      'a',
      'a',
    ]);
  });

  test('do not share over the largest batch, nor two resins, nor a mix that would stand for an hour', () => {
    const shop = mixingShop((file) => (file.resins[0].largestBatchMl = 900));
    const count = (pours: readonly WrittenPour[]): number =>
      cupsOf(shop, planWith(shop, pourSteps(pours))).cups.length;
    expect(count(oneAfterTheOther([400, 400]))).toBe(1);
    expect(count(oneAfterTheOther([500, 500]))).toBe(2);
    const [first, second] = oneAfterTheOther([100, 100]);
    expect(count([first, { ...second, resin: 'fast' }])).toBe(2);
    const later = { ...second, mix: at(3, '09:00'), pour: at(3, '09:05'), end: at(3, '09:10') };
    expect(count([first, later])).toBe(2);
  });

  test('a mix under way is not thrown together with one that is only planned', () => {
    const shop = mixingShop();
    const [first, second] = oneAfterTheOther([400, 400]);
    const { cups } = cupsOf(shop, planWith(shop, pourSteps([{ ...first, state: 'begun' }, second])));
    expect(cups.map(({ state }) => state)).toEqual(['begun', 'planned']);
  });

  test('two tints from one cup: it is mixed clear, and each portion gets its own powder', () => {
    const shop = mixingShop((file) => {
      file.recipes[0].layers[0].tint = { name: 'blue', gPerL: 2 };
      file.recipes[0].layers[2].tint = { name: 'grey', gPerL: 4 };
    });
    const [first, second] = oneAfterTheOther([500, 500]);
    const { cups } = cupsOf(shop, planWith(shop, pourSteps([first, { ...second, step: 'layer-3-pour' }])));
    expect(cups).toHaveLength(1);
    expect(cups[0].tint).toBeNull();
    expect(cups[0].portions.map(({ tint }) => tint)).toEqual([
      { name: 'blue', g: 1 },
      { name: 'grey', g: expect.closeTo(2, 1) },
    ]);
  });
});

describe('a pour too large for one cup', () => {
  test('is split into equal cups, mixed one after the other', () => {
    const shop = mixingShop((file) => (file.resins[0].largestBatchMl = 1000));
    const pour = { piece: 'a', ml: 2400, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:30') };
    const { cups, clock } = cupsOf(shop, planWith(shop, pourSteps([pour])));
    expect(cups.map(({ series }) => series)).toEqual([1, 2, 3].map((number) => ({ number, of: 3 })));
    expect(cups.map(({ mixFrom }) => toIso(clock, mixFrom).slice(11, 16))).toEqual([
      '08:00',
      '08:10',
      '08:20',
    ]);
    expect(cups.every((cup) => mixedMl(cup.resin, cup.measured) <= 1000)).toBe(true);
    expect(cups.flatMap(({ portions }) => portions).reduce((sum, { needMl }) => sum + needMl, 0)).toBeCloseTo(
      2400,
      6,
    );
    // Each cup is mixed after the one before has been poured.
    cups.slice(1).forEach((cup, i) => expect(cup.mixFrom).toBeGreaterThanOrEqual(cups[i].portions[0].to));
  });
});

test('any pours: every cup within the batch, every pour covered in full, portions in order and adding up', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 20, max: 3000, noNaN: true }), { minLength: 1, maxLength: 4 }),
      fc.integer({ min: 300, max: 4000 }),
      fc.integer({ min: 0, max: 15 }),
      (mls, largestBatchMl, cupLossPercent) => {
        const shop = mixingShop((file) => {
          file.resins[0].largestBatchMl = largestBatchMl;
          file.mixing = { cupLossPercent };
        });
        const { cups } = cupsOf(shop, planWith(shop, pourSteps(oneAfterTheOther(mls))));
        for (const cup of cups) {
          expect(mixedMl(cup.resin, cup.measured)).toBeLessThanOrEqual(largestBatchMl + 1e-6);
          const total = cup.portions.reduce((sum, { ml }) => sum + ml, 0);
          expect(total).toBeCloseTo(cup.measured.byVolume.mixedMl, 6);
          expect(cup.wasteMl).toBeGreaterThanOrEqual(-1e-6);
          expect(cup.portions.filter(({ isWhatIsLeft }) => isWhatIsLeft)).toHaveLength(1);
          if (cup.portions.length > 1) {
            const left = cup.portions.map((portion) => portion.workingMinutesLeft);
            expect(Math.min(...left)).toBeGreaterThan(0);
            expect(left).toEqual([...left].sort((x, y) => y - x));
          }
        }
        mls.forEach((ml, i) => {
          const own = cups.flatMap(({ portions }) => portions).filter(({ pour }) => pour.piece === 'abcd'[i]);
          expect(own.reduce((sum, { needMl }) => sum + needMl, 0)).toBeCloseTo(ml, 6);
        });
      },
    ),
    SEED,
  );
});

test('of a planned shop every pour, seal and coat gets its cup, and no planned cup outlasts its working time', () => {
  const shop = littleShop((file) => {
    file.pieces = [piece('a'), piece('b', { recipe: 'coated' })];
  });
  const plan = planShop(shop, { now: NOW, seed: 1, budget: 50_000 });
  expect(plan.status === 'optimal' || plan.status === 'feasible').toBe(true);
  const { cups } = cupsOf(shop, plan);
  const served = cups
    .flatMap(({ portions }) => portions.map(({ pour }) => `${pour.piece} ${pour.step}`))
    .sort();
  expect(served).toEqual([
    'a layer-1-pour',
    'a layer-2-pour',
    'a layer-3-pour',
    'b coat-1',
    'b coat-2',
    'b coat-3',
    'b layer-1-pour',
    'b seal',
  ]);
  for (const { portions } of cups) {
    for (const { workingMinutesLeft } of portions) expect(workingMinutesLeft).toBeGreaterThanOrEqual(0);
  }
});
