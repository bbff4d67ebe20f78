/** A plan that stood, and one that is made around it: those who work by it should find it again. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import { parseShop, type Shop } from '../../../src/engine/shop/index.ts';

const FILE = new URL('../../../examples/six-weeks.shop.json', import.meta.url);
const read = parseShop(readFileSync(FILE, 'utf8'));
const OPTIONS = { now: '2026-11-25T13:30Z', seed: 1, budget: 400_000 };

const costs = ({ levels }: Plan, names: readonly string[]): readonly number[] =>
  names.map((name) => levels.find((level) => level.name === name)?.value ?? NaN);

test('one piece more, due after all others, leaves the most of forty pieces where they were and costs no date and no window', () => {
  if (!read.ok) throw new Error('the example has faults');
  const { shop } = read;
  const stood = planShop(shop, OPTIONS);
  const more: Shop = {
    ...shop,
    pieces: [...shop.pieces, { ...shop.pieces[0], id: 'one-more', due: '2027-01-20' }],
  };
  const after = planShop(more, { ...OPTIONS, standing: stood });
  expect(checkPlan(more, after)).toEqual([]);
  expect(costs(after, ['tardiness', 'windows'])).toEqual(costs(stood, ['tardiness', 'windows']));
  const starts = new Map(after.steps.map(({ piece, step, start }) => [`${piece} ${step}`, start]));
  const attended = stood.steps.filter(({ handsOnMinutes }) => handsOnMinutes > 0);
  const moved = attended.filter(({ piece, step, start }) => starts.get(`${piece} ${step}`) !== start);
  expect(moved.length / attended.length).toBeLessThan(1 / 4);
});
