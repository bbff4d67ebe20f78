/** A plan that stood, and one that is made around it: those who work by it should find it again. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop, promise } from '../../../src/engine/plan/index.ts';
import type { Plan, Promised } from '../../../src/engine/plan/index.ts';
import { parseShop, type Piece, type Shop } from '../../../src/engine/shop/index.ts';

type Asked = Pick<Piece, 'recipe' | 'size' | 'forms' | 'earliest'>;

const example = (name: string): Shop => {
  const read = parseShop(
    readFileSync(new URL(`../../../examples/${name}.shop.json`, import.meta.url), 'utf8'),
  );
  if (!read.ok) throw new Error('the example has faults');
  return read.shop;
};

const OPTIONS = { now: '2026-11-25T13:30Z', seed: 1, budget: 400_000 };
const sixWeeks = example('six-weeks');
const market = example('market-week');
const sixWeeksStood = planShop(sixWeeks, OPTIONS);
const marketStood = planShop(market, OPTIONS);

/** The piece as it is added in the end, due at `due`. */
const withPiece = (shop: Shop, asked: Asked, due: string): Shop => ({
  ...shop,
  pieces: [
    ...shop.pieces,
    { ...asked, id: 'asked-1', name: 'Asked', due, weight: 1, pins: [], actuals: [], touchTests: [] },
  ],
});

const cost = ({ levels }: Plan, name: string): number =>
  levels.find((level) => level.name === name)?.value ?? NaN;

/** The share of hands-on steps that are elsewhere than in the plan that stood. */
const movedShare = (stood: Plan, after: Plan): number => {
  const starts = new Map(after.steps.map(({ piece, step, start }) => [`${piece} ${step}`, start]));
  const attended = stood.steps.filter(({ handsOnMinutes }) => handsOnMinutes > 0);
  const moved = attended.filter(({ piece, step, start }) => starts.get(`${piece} ${step}`) !== start);
  return moved.length / attended.length;
};

const kept = (answer: Promised): Extract<Promised, { ok: true }> => {
  if (!answer.ok) throw new Error(answer.clash.join());
  return answer;
};

const board: Asked = { recipe: 'river-board', size: { lengthMm: 500, widthMm: 300 } };
const tray: Asked = { recipe: 'tray', size: { lengthMm: 400, widthMm: 300 } };
const panel: Asked = { recipe: 'panel', size: { lengthMm: 820, widthMm: 420 } };

describe('one piece more among forty', () => {
  test.each([
    ['due after all others', sixWeeks.pieces[0], '2027-01-20', 1 / 20],
    ['a board due a little sooner than it fits beside them', board, '2026-12-18T17:00', 1 / 3],
    ['a panel due a little sooner than it fits beside them', panel, '2027-01-02T17:00', 1 / 10],
  ])('%s, leaves most where it was, and costs no date and no window', (_, asked, due, most) => {
    const { recipe, size } = asked;
    const more = withPiece(sixWeeks, { recipe, size }, due);
    const after = planShop(more, { ...OPTIONS, standing: sixWeeksStood });
    expect(checkPlan(more, after)).toEqual([]);
    for (const name of ['tardiness', 'windows']) expect(cost(after, name)).toBe(cost(sixWeeksStood, name));
    expect(movedShare(sixWeeksStood, after)).toBeLessThan(most);
  });
});

describe('a date that is promised beside the plan that stands', () => {
  const cases: [string, Shop, Plan, Asked, number][] = [
    ['a board for the market', market, marketStood, board, 1],
    ['a tray for the market', market, marketStood, tray, 2],
    ['a board among forty pieces', sixWeeks, sixWeeksStood, board, 1],
    ['a panel among forty pieces', sixWeeks, sixWeeksStood, panel, 2],
  ];
  test.each(cases)('holds for %s when it is added, and nothing moves', (_, shop, stood, asked, seed) => {
    const options = { ...OPTIONS, seed, standing: stood };
    const { ready, plan } = kept(promise(shop, { ...options, ...asked, budget: 150_000 }));
    expect(movedShare(stood, plan)).toBe(0);
    const more = withPiece(shop, asked, ready);
    const after = planShop(more, { ...options, known: plan });
    expect(checkPlan(more, after)).toEqual([]);
    expect(after.pieces.filter(({ lateMinutes }) => lateMinutes > 0)).toEqual([]);
    expect(cost(after, 'windows')).toBe(cost(stood, 'windows'));
    expect(movedShare(stood, after)).toBe(0);
  });

  test('is earlier where others may give way, which costs no date; and most of them stay', () => {
    const options = { ...OPTIONS, ...tray, standing: marketStood };
    const beside = kept(promise(market, options));
    const moving = kept(promise(market, { ...options, mayMove: true }));
    expect(Date.parse(moving.ready)).toBeLessThan(Date.parse(beside.ready));
    expect(cost(moving.plan, 'tardiness')).toBe(0);
    expect(movedShare(marketStood, moving.plan)).toBeGreaterThan(0);
    expect(movedShare(marketStood, moving.plan)).toBeLessThan(2 / 3);
  });

  test('is of the piece as it is wished: begun no sooner, and only in the form that was named', () => {
    const [form] = market.forms.filter(({ id }) => id !== 'board-form').map(({ id }) => id);
    const wished: Asked = { ...tray, earliest: '2026-12-08T10:00', forms: [form] };
    const { ready, plan } = kept(promise(market, { ...OPTIONS, ...wished, standing: marketStood }));
    const its = plan.steps.filter(({ piece }) => piece === 'asked-1');
    expect(Math.min(...its.map(({ start }) => Date.parse(start)))).toBeGreaterThanOrEqual(
      Date.parse('2026-12-08T10:00Z'),
    );
    expect(plan.holds.filter(({ piece, what }) => piece === 'asked-1' && what === 'form')).toMatchObject([
      { id: form },
    ]);
    const after = planShop(withPiece(market, wished, ready), {
      ...OPTIONS,
      standing: marketStood,
      known: plan,
    });
    expect(after.pieces.filter(({ lateMinutes }) => lateMinutes > 0)).toEqual([]);
  });
});
