import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseShop, readShop, serializeShop, type Shop } from '../../../src/engine/shop/index.ts';
import { edited, exampleText } from './shop-edits.ts';

const soundShop = (value: unknown): Shop => {
  const read = readShop(value);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.shop;
};

const NAMES = ['evening-board', 'market-week', 'cold-garage', 'six-weeks'];

/** The same value with the keys of every object in some other order. */
function shuffled(value: unknown, rank: (key: string) => number): unknown {
  if (Array.isArray(value)) return value.map((each: unknown) => shuffled(each, rank));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, each]) => [key, shuffled(each, rank)] as const);
  return Object.fromEntries(entries.sort(([a], [b]) => rank(a) - rank(b)));
}

describe('a shop written to a file', () => {
  it.each(NAMES)('is read back the same: %s', (name) => {
    const shop = soundShop(JSON.parse(exampleText(name)));
    const text = serializeShop(shop);
    const again = parseShop(text);
    expect(again).toEqual({ ok: true, shop, warnings: [] });
    expect(again.ok && serializeShop(again.shop)).toBe(text);
  });

  it('has the same bytes whatever order its keys came in', () => {
    const shop = soundShop(
      edited({
        'rooms[1].humidityPercent': [{ percent: 60, at: '2026-11-24T10:00' }],
        'recipes[1].layers[0].wood': { pieces: [{ thicknessMm: 10, widthMm: 40, lengthMm: 200 }] },
        'recipes[1].layers[1].wood': {
          outlines: [
            [
              [0, 0],
              [100, 0],
              [100, 50],
            ],
          ],
        },
      }),
    );
    const text = serializeShop(shop);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (salt) => {
        const rank = (key: string): number =>
          [...key].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0) * salt) % 9973, 7);
        expect(serializeShop(shuffled(shop, rank) as Shop)).toBe(text);
      }),
      { seed: 20261125, numRuns: 50 },
    );
  });

  it('ends with a new line, is indented by two spaces and begins with its format', () => {
    const text = serializeShop(soundShop(edited({})));
    expect(text).toMatch(/^\{\n {2}"format": "pourwright.shop",\n {2}"version": 1,\n/);
    expect(text.endsWith('}\n')).toBe(true);
  });
});
