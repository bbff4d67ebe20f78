import { describe, expect, test } from 'vitest';
import { swapsOf } from '../../../src/ui/forms/model/index.ts';
import { NOW, planned } from '../small-shop.ts';

type Change = Parameters<typeof planned>[0];
const apart: Change = (shop) => ({
  ...shop,
  pieces: shop.pieces.map((piece) => ({ ...piece, forms: [piece.id === 'wren' ? 'tray' : 'slab'] })),
});

describe('with whom a piece could change forms', () => {
  test('two pieces in forms of different kinds that both would fit may swap, seen from either', () => {
    const { shop, plan } = planned(apart);
    for (const [one, other] of [
      ['wren', 'robin'],
      ['robin', 'wren'],
    ] as const) {
      expect(swapsOf(shop, plan, one).map((swap) => [swap.own.piece.id, swap.other.piece.id])).toEqual([
        [one, other],
      ]);
    }
  });

  test('two pieces in forms of one kind have nothing to swap', () => {
    const { shop, plan } = planned((file) => ({
      ...file,
      pieces: file.pieces.map((piece) => ({ ...piece, forms: ['tray'] })),
    }));
    expect(swapsOf(shop, plan, 'wren')).toEqual([]);
  });

  test('a piece too long for the form of the other does not swap', () => {
    const { shop, plan } = planned((file) => ({
      ...file,
      pieces: file.pieces.map((piece) =>
        piece.id === 'robin'
          ? { ...piece, forms: ['slab'], size: { lengthMm: 800, widthMm: 250 } }
          : { ...piece, forms: ['tray'] },
      ),
    }));
    expect(swapsOf(shop, plan, 'wren')).toEqual([]);
  });

  test('a piece that is begun stays in its form', () => {
    const { shop, plan } = planned((file) => ({
      ...file,
      pieces: file.pieces.map((piece) =>
        piece.id === 'wren'
          ? {
              ...piece,
              forms: ['tray'],
              actuals: [
                { step: 'prepare', started: `${NOW.slice(0, 10)}T14:00`, form: 'tray', person: 'ada' },
              ],
            }
          : { ...piece, forms: ['slab'] },
      ),
    }));
    expect(plan.steps.some((step) => step.piece === 'wren' && step.state !== 'planned')).toBe(true);
    expect(swapsOf(shop, plan, 'robin')).toEqual([]);
  });
});
