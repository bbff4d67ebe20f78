import { describe, expect, test } from 'vitest';
import {
  cupsText,
  dayOfCups,
  formCards,
  materialsText,
  pieceRecord,
  recordText,
  runSheet,
  sheetText,
} from '../../../src/engine/formats/index.ts';
import { planShop } from '../../../src/engine/index.ts';
import type { Plan, PlanStep } from '../../../src/engine/plan/document.ts';
import type { ShopFile } from '../../../src/engine/shop/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { at, mixingShop, planWith, pourSteps } from '../mix/bench-day.ts';

const planned = (edit: (file: ShopFile) => void = () => undefined) => {
  const shop = littleShop((file) => {
    file.pieces = [piece('a'), piece('b', { recipe: 'coated' })];
    edit(file);
  });
  return { shop, plan: planShop(shop, { now: NOW, seed: 1, budget: 50_000 }) };
};

describe('the run sheet', () => {
  const { shop, plan } = planned();

  test('without a day is that of the next one with work; the mix is told with its pour', () => {
    const sheet = runSheet(shop, plan);
    expect(sheet.title).toBe('Mon 2 Mar');
    const [day] = sheet.days;
    expect(day.lines[0]).toMatchObject({ what: 'Prepare wood and form', who: 'Wren' });
    expect(day.lines.map(({ what }) => what)).toContain('Mix cup 1, then pour layer 1');
    expect(day.lines.every(({ what }) => !what.startsWith('Mix for'))).toBe(true);
    const times = day.lines.map(({ time }) => time);
    expect(times).toEqual([...times].sort());
  });

  test('of all days together has every hands-on step of the plan once, and every cup once', () => {
    const days = [...new Set(plan.steps.map(({ start }) => start.slice(0, 10)))];
    const sheets = days.flatMap((date) => runSheet(shop, plan, { date }).days);
    const told = sheets.flatMap(({ lines }) => lines).filter(({ hands }) => hands !== '');
    expect(told).toHaveLength(
      plan.steps.filter(({ handsOnMinutes, kind }) => handsOnMinutes > 0 && kind !== 'mix').length,
    );
    const resins = sheets.flatMap(({ cups }) => cups);
    expect(resins.flatMap(({ portions }) => portions)).toHaveLength(8);
  });

  test('of a piece has its days and nothing of another', () => {
    const sheet = runSheet(shop, plan, { piece: 'b' });
    expect(sheet.title).toBe('Board b');
    expect(sheet.days.length).toBeGreaterThan(3);
    expect(sheet.days.flatMap(({ lines }) => lines).every((line) => line.piece === 'Board b')).toBe(true);
  });

  test('has the tack window of the layer below beside the pour, and what can hurt below', () => {
    const sheet = runSheet(shop, plan, { piece: 'a' });
    const pour = sheet.days.flatMap(({ lines }) => lines).find(({ what }) => what.endsWith('pour layer 2'));
    expect(pour?.window).toMatch(/^\d\d:\d\d to (\w{3} )?\d\d:\d\d$/);
    expect(sheet.cautions.map(({ id }) => id)).toEqual(['sheets', 'skin', 'torch', 'dust', 'rags', 'food']);
  });

  test('says of food nothing but no on the day a piece is ready', () => {
    const ready = plan.pieces.find((p) => p.piece === 'a')?.ready.slice(0, 10);
    const { remarks } = runSheet(shop, plan, { date: ready });
    expect(
      remarks.filter((text) => text.includes('food')).every((text) => text.includes('No food contact')),
    ).toBe(true);
    expect(remarks.some((text) => text.startsWith('Board a: No food contact'))).toBe(true);
  });

  test('as text stays within its width and ends in a line break', () => {
    for (const width of [72, 100]) {
      const text = sheetText(runSheet(shop, plan, { piece: 'a' }), formCards(shop, plan), width);
      expect(text.endsWith('\n')).toBe(true);
      for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(width);
    }
  });

  test('on a day without work says so', () => {
    expect(sheetText(runSheet(shop, plan, { date: '2027-01-01' }), [], 80)).toContain('nothing to do');
  });
});

describe('form cards', () => {
  const hold = {
    piece: 'a',
    what: 'form',
    id: 'long',
    unit: 1,
    from: at(1, '08:00'),
    to: at(5, '14:20'),
    amount: 1,
  } as const;

  test('a form that stands full is not to be moved, and says when it frees up', () => {
    const { shop } = planned();
    const [card] = formCards(shop, planWith(shop, [], { holds: [hold] }));
    expect(card).toEqual({
      form: 'Long form',
      piece: 'Board a',
      order: 'DO NOT MOVE',
      frees: 'frees up Thu 5 Mar 14:20',
      next: [],
    });
  });

  test('what is next stands on it with the close of its window; a free form has none', () => {
    const { shop, plan } = planned();
    const cards = formCards(shop, plan);
    expect(cards.map(({ form }) => form).sort()).toEqual(['Long form', 'Short form']);
    const next = formCards(shop, {
      ...plan,
      steps: plan.steps.map((s): PlanStep =>
        s.step.startsWith('layer-1') || s.step === 'prepare' ? { ...s, state: 'done' } : s,
      ),
    }).find((card) => card.piece === 'Board a')?.next;
    expect(next?.[0]).toMatch(/^Pour layer 2: \w{3} \d+ \w{3} \d\d:\d\d, window closes /);
    expect(formCards(shop, planWith(shop, []))).toEqual([]);
  });
});

describe('the cups of a day', () => {
  test('as the bench needs them: A, B, tint, the scale counting on, what is left last', () => {
    const shop = mixingShop((file) => {
      file.recipes[0].layers[0].tint = { name: 'blue', gPerL: 3 };
    });
    const pours = [
      { piece: 'a', ml: 600, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:10') },
      { piece: 'b', ml: 300, mix: at(3, '08:10'), pour: at(3, '08:15'), end: at(3, '08:20') },
    ];
    const text = cupsText(shop, planWith(shop, pourSteps(pours)), 96, '2026-03-03');
    // 900 mL at 2:1 are 600 and 300 mL. By weight the first portion is 600 x 1.053 = 631.8 g, rounded up to 632, so
    // 945.2 g are needed; 662 and 286 are the first whole grams in the ratio 2.3158 : 1 that are as much.
    expect(text).toContain('CUP 1  Slow cast, Shop');
    expect(text).toMatch(/A +600 mL +662 g +662 g\n/);
    expect(text).toMatch(/B +300 mL +286 g +948 g\n/);
    expect(text).toMatch(/blue +2\.7 g +950\.7 g\n/);
    expect(text).toMatch(/1\. +08:05-08:10 +Board a, layer 1 +600 mL or 632 g/);
    expect(text).toMatch(/2\. +08:15-08:20 +Board b, layer 1 +what is left/);
  });

  test('in US units never a bare ounce', () => {
    const { shop, plan } = planned((file) => (file.units = 'us'));
    const text = `${cupsText(shop, plan, 96)}${materialsText(shop, plan, 96)}${sheetText(runSheet(shop, plan, { piece: 'b' }), [], 96)}`;
    expect(text).toContain('US fl oz');
    expect(text.replaceAll('US fl oz', '')).not.toMatch(/\boz\b/);
  });

  test('a scale too coarse for a small mix is told as an error', () => {
    const shop = mixingShop((file) => {
      file.mixing = { cupLossPercent: 0, scaleReadsG: 50, ratioTolerancePercent: 1 };
    });
    const pour = { piece: 'a', ml: 60, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:10') };
    const { cups } = dayOfCups(shop, planWith(shop, pourSteps([pour])));
    expect(cups[0].warnings[0]).toMatch(
      /^ERROR: do not weigh this on the 50 g scale: there the ratio is off by /,
    );
  });

  test('neither cup nor scale fine enough: the first word is to mix more or weigh finer', () => {
    const shop = mixingShop((file) => {
      file.resins[0].mix.tolerancePercent = 0.1;
      file.mixing = { cupLossPercent: 0, scaleReadsG: 20, cupReadsMl: 25 };
      file.resins[0].mix.a = 2.3;
    });
    const pour = { piece: 'a', ml: 60, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:10') };
    const { cups } = dayOfCups(shop, planWith(shop, pourSteps([pour])));
    expect(cups[0].warnings[0]).toContain('mix more, or weigh on a finer scale');
    expect(cups[0].warnings).toHaveLength(3);
  });

  test('a pour over the largest batch warns that it takes longer than the plan says', () => {
    const shop = mixingShop((file) => (file.resins[0].largestBatchMl = 500));
    const pour = { piece: 'a', ml: 900, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:15') };
    const { cups } = dayOfCups(shop, planWith(shop, pourSteps([pour])));
    expect(cups.map(({ series }) => series)).toEqual(['cup 1 of 2 of this pour', 'cup 2 of 2 of this pour']);
    expect(cups[0].warnings.join(' ')).toContain('5 min longer than the plan says');
  });
});

describe('the record of a piece', () => {
  const edit = (file: ShopFile): void => {
    file.pieces = [
      piece('a', {
        actuals: [
          {
            step: 'prepare',
            started: '2026-03-02T07:00',
            ended: '2026-03-02T08:00',
            person: 'wren',
            form: 'long',
          },
          { step: 'layer-1-mix', started: '2026-03-02T08:00', ended: '2026-03-02T08:05', person: 'wren' },
          { step: 'layer-1-pour', started: '2026-03-02T08:05', ended: '2026-03-02T08:12', person: 'wren' },
        ],
        touchTests: [{ step: 'layer-1-pour', at: '2026-03-03T09:00', found: 'tacky' }],
      }),
    ];
  };
  const shop = littleShop(edit);
  const plan: Plan = planShop(shop, { now: '2026-03-03T10:00', seed: 1, budget: 20_000 });

  test('has what happened, with batch, air and touch test, and not what is only planned', () => {
    const record = pieceRecord(shop, plan, 'a');
    expect(record.lines.map(({ what }) => what)).toEqual([
      'Prepare wood and form',
      'Mix for layer 1',
      'Pour layer 1',
    ]);
    expect(record.lines[2]).toMatchObject({
      started: 'Mon 2 Mar 08:05',
      ended: 'Mon 2 Mar 08:12',
      who: 'Wren',
      where: 'Long form',
      air: '22 °C',
    });
    expect(record.lines[2].batch).toContain('Slow cast 1020 mL: A 680 mL');
    expect(record.touchTests).toEqual(['Tue 3 Mar 09:00: layer 1 tacky']);
    expect(record.isFinished).toBe(false);
    expect(recordText(record, 90)).toContain('not finished yet');
  });

  test('of a piece that the shop does not have is refused with those it has', () => {
    expect(() => pieceRecord(shop, plan, 'zz')).toThrow('piece: "zz" is not in the shop; its pieces are a');
  });
});
