import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanStep } from '../../../src/engine/plan/document.ts';
import { CAUTIONS, cautionsFor, cupsOf, foodContact } from '../../../src/engine/mix/index.ts';
import { at, mixingShop, planWith, pourSteps } from './bench-day.ts';

const shop = mixingShop();
const step = (kind: PlanStep['kind'], name: string = kind): PlanStep => ({
  piece: 'a',
  step: name,
  kind,
  start: at(3, '08:00'),
  end: at(3, '09:00'),
  handsOnMinutes: 60,
  people: ['wren'],
  room: 'shop',
  state: 'planned',
  pinned: false,
});
const idsFor = (steps: readonly PlanStep[]): string[] =>
  cautionsFor(steps, cupsOf(shop, planWith(shop, steps))).map(({ id }) => id);

describe('cautions', () => {
  test('stand where they matter, each once', () => {
    expect(idsFor([])).toEqual([]);
    expect(idsFor([step('bubbles', 'layer-1-bubbles-1')])).toEqual(['sheets', 'skin', 'torch']);
    expect(idsFor([step('sand'), step('flatten'), step('sand')])).toEqual(['sheets', 'dust']);
    expect(idsFor([step('finish')])).toEqual(['sheets', 'rags', 'food']);
    expect(idsFor([step('prepare')])).toEqual(['sheets']);
  });

  test('heat is spoken of for a large batch only', () => {
    const pour = (ml: number) =>
      pourSteps([{ piece: 'a', ml, mix: at(3, '08:00'), pour: at(3, '08:05'), end: at(3, '08:15') }]);
    expect(idsFor(pour(500))).toEqual(['sheets', 'skin']);
    expect(idsFor(pour(3600))).toEqual(['sheets', 'skin', 'heat']);
  });

  test('only the general one may be put away for good', () => {
    expect(CAUTIONS.filter(({ isDismissible }) => isDismissible).map(({ id }) => id)).toEqual(['sheets']);
  });

  test('each is in docs/safety.md with its title', () => {
    const page = readFileSync(new URL('../../../docs/safety.md', import.meta.url), 'utf8');
    for (const { title, id } of CAUTIONS) expect(page, id).toContain(title);
  });

  test('none reads like a certificate', () => {
    const words = CAUTIONS.map(({ title, text }) => `${title} ${text}`).join(' ');
    expect(words).not.toMatch(/\b(certified|guarantee|approved|safe for|food[- ]safe|is safe)\b/i);
  });
});

describe('food', () => {
  const applied = { ...step('pour', 'layer-1-pour'), resin: 'slow', batchMl: 500 };
  const cured = {
    ...step('cure', 'full-cure'),
    handsOnMinutes: 0,
    start: at(3, '09:00'),
    end: at(10, '09:00'),
  };
  const ready = { ...step('ready'), start: at(10, '09:00'), end: at(10, '09:00') };
  const steps = (state: PlanStep['state']): PlanStep[] => [{ ...applied, state }, cured, ready];

  test('before full cure there is none, and the plan says until when', () => {
    expect(foodContact(planWith(shop, steps('done'), { now: at(10, '08:59') }), 'a')).toMatchObject({
      isFullyCured: false,
      notBefore: at(10, '09:00'),
      text: 'No food contact: it is not fully cured.',
    });
  });

  test('after it the sheets decide, not we', () => {
    const { isFullyCured, text } = foodContact(planWith(shop, steps('done'), { now: at(10, '09:00') }), 'a');
    expect(isFullyCured).toBe(true);
    expect(text).toContain('only the sheets of the resin and finish makers can say');
  });

  test('a pour that nobody has entered as done is not cured however late it is', () => {
    expect(foodContact(planWith(shop, steps('planned'), { now: at(20, '09:00') }), 'a').isFullyCured).toBe(
      false,
    );
    expect(foodContact(planWith(shop, []), 'a').notBefore).toBeNull();
  });

  test('at no time before full cure, whatever has been entered, does it say anything but no', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 7 * 24 * 60 - 1 }),
        fc.constantFrom('planned' as const, 'begun' as const, 'done' as const),
        (minutes, state) => {
          const now = new Date(Date.parse(at(3, '09:00')) + minutes * 60_000)
            .toISOString()
            .replace(':00.000Z', 'Z');
          const { text, isFullyCured } = foodContact(planWith(shop, steps(state), { now }), 'a');
          expect(isFullyCured).toBe(false);
          expect(text.startsWith('No food contact')).toBe(true);
        },
      ),
      { seed: 20261126, numRuns: 200 },
    );
  });
});
