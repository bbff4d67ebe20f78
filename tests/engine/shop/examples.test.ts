import { describe, expect, it } from 'vitest';
import { makeShop, shopText, SIX_WEEKS } from '../../../bench/make-shop.ts';
import { parseShop, readShop } from '../../../src/engine/shop/index.ts';
import { exampleText } from './shop-edits.ts';

describe('the example shops', () => {
  it.each([
    ['evening-board', 1, 1, 1],
    ['market-week', 4, 8, 2],
    ['cold-garage', 2, 3, 1],
    ['six-weeks', 12, 40, 3],
  ])('%s is sound, without a warning: %i forms, %i pieces, %i people', (name, forms, pieces, people) => {
    const parsed = parseShop(exampleText(name));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults));
    expect(parsed.warnings).toEqual([]);
    expect(parsed.shop.forms.reduce((sum, form) => sum + form.count, 0)).toBe(forms);
    expect(parsed.shop.pieces).toHaveLength(pieces);
    expect(parsed.shop.people).toHaveLength(people);
  });

  it('six-weeks is what the shop maker makes', () => {
    expect(exampleText('six-weeks')).toBe(shopText(SIX_WEEKS));
  });
});

describe('the shop maker', () => {
  it.each([10, 20, 40, 80, 160, 320])('makes a sound shop of %i pieces', (pieces) => {
    const measure = {
      pieces,
      forms: Math.max(2, Math.round(pieces * 0.3)),
      people: Math.min(9, 1 + Math.floor(pieces / 20)),
      seed: pieces,
    };
    const read = readShop(makeShop(measure));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.warnings).toEqual([]);
    expect(read.shop.pieces).toHaveLength(pieces);
    expect(read.shop.forms.reduce((sum, form) => sum + form.count, 0)).toBe(measure.forms);
    expect(makeShop(measure)).toEqual(makeShop(measure));
  });
});
