import { describe, expect, it } from 'vitest';
import { applicationWords, itinerary, stepWords } from '../../../src/engine/routing/index.ts';
import { littleShop, piece } from '../little-shop.ts';

describe('the words for steps', () => {
  it('say every step of every recipe without a hyphen of its name', () => {
    const shop = littleShop((file) => (file.pieces = [piece('a'), piece('b', { recipe: 'coated' })]));
    const ids = shop.pieces.flatMap((p) =>
      itinerary(shop, p).blocks.flatMap((b) => b.steps.map((s) => s.id)),
    );
    for (const id of ids) expect(stepWords(id)).not.toMatch(/-\d|-[a-z]/);
    expect(stepWords('layer-2-pour')).toBe('pouring layer 2');
    expect(stepWords('coat-12')).toBe('putting on coat 12');
  });

  it('say a name they do not know as it is', () => {
    expect(stepWords('polish')).toBe('polish');
    expect(applicationWords('layer-3')).toBe('layer 3');
  });
});
