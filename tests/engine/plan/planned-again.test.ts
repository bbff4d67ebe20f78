/**
 * The engine keeps what it last routed, read and told. Whatever it planned before, the same shop gets the same plan.
 */
import { sample } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import type { Piece, Shop } from '../../../src/engine/shop/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { anyOccasion } from '../random-shop.ts';
import { shifted } from '../../moments.ts';

const SHOPS = 16;
const BUDGET = 3000;

const withPieces = (shop: Shop, change: (piece: Piece, index: number) => Piece): Shop => ({
  ...shop,
  pieces: shop.pieces.map(change),
});

/** The shop as after a drop: a planned step of its first piece is pinned where the plan has it, or a little later. */
const pinnedIn = (shop: Shop, plan: Plan, minutesLater: number): Shop => {
  const step = plan.steps.find((each) => each.handsOnMinutes > 0 && each.state === 'planned');
  if (!step) return shop;
  const at = shifted(step.start, minutesLater);
  return withPieces(shop, (piece) =>
    piece.id === step.piece ? { ...piece, pins: [...piece.pins, { step: step.step, at }] } : piece,
  );
};

describe('a shop that is planned again', () => {
  const occasions = sample(anyOccasion, { seed: 20261125, numRuns: SHOPS });
  const plan = (shop: Shop, now: string, standing?: Plan): Plan =>
    planShop(shop, { now, seed: 1, budget: BUDGET, standing });
  /** Something else altogether: what was kept of the shop before is gone. */
  const forget = (i: number): void => {
    const { shop, now } = occasions[(i + 1) % SHOPS];
    plan(
      withPieces(shop, (piece) => ({ ...piece, name: `${piece.name}, another` })),
      now,
    );
  };

  test('has the same plan after a pin was tried and taken out again', () => {
    let pinned = 0;
    occasions.forEach(({ shop, now }, i) => {
      forget(i);
      const first = plan(shop, now);
      const tried = pinnedIn(shop, first, 45);
      if (tried !== shop) pinned++;
      plan(tried, now, first);
      expect(plan(shop, now), `shop ${i}`).toEqual(first);
    });
    expect(pinned).toBeGreaterThan(SHOPS / 2);
  });

  test('is planned around a drop as by an engine that has never seen it, and the checker finds nothing', () => {
    let moved = 0;
    occasions.forEach(({ shop, now }, i) => {
      forget(i);
      const standing = plan(shop, now);
      for (const later of [0, 30]) {
        const dropped = pinnedIn(shop, standing, later);
        const known = plan(dropped, now, standing);
        forget(i);
        expect(plan(dropped, now, standing), `shop ${i}`).toEqual(known);
        if (known.steps.length > 0) {
          moved++;
          expect(checkPlan(dropped, known), `shop ${i}`).toEqual([]);
        }
        // Back to where the shop was known.
        plan(shop, now);
      }
    });
    expect(moved).toBeGreaterThan(SHOPS / 2);
  });

  test('at another minute is planned as by an engine that has never seen it', () => {
    let differ = 0;
    occasions.forEach(({ shop, now }, i) => {
      const then = shifted(now, 187);
      forget(i);
      const fresh = plan(shop, then);
      forget(i);
      const before = plan(shop, now);
      expect(plan(shop, then), `shop ${i}`).toEqual(fresh);
      if (JSON.stringify(before.steps) !== JSON.stringify(fresh.steps)) differ++;
    });
    expect(differ).toBeGreaterThan(0);
  });

  test('has other hands at the same times when the plan that stands says so', () => {
    const shop = littleShop((file) => file.people.push({ ...file.people[0], id: 'other', name: 'Other' }));
    const first = plan(shop, NOW);
    const one = shop.people[0].id;
    const swapped = JSON.parse(
      JSON.stringify(first).replaceAll(
        /"people":\[("[^\]]*")\]/g,
        (_, people: string) => `"people":[${people.includes(one) ? '"other"' : `"${one}"`}]`,
      ),
    ) as Plan;
    expect(swapped).not.toEqual(first);
    const again = plan(shop, NOW, swapped);
    expect(again.steps.map(({ start, people }) => [start, people])).toEqual(
      swapped.steps.map(({ start, people }) => [start, people]),
    );
  });

  test('has its piece in the other of two alike forms when another piece now comes before it', () => {
    const shop = littleShop((file) => {
      file.pieces = [piece('a'), piece('b')];
      file.forms = [{ ...file.forms[0], count: 2 }];
      file.people.push({ ...file.people[0], id: 'other', name: 'Other' });
    });
    const first = plan(shop, NOW);
    const formOf = (made: Plan, id: string): number | undefined =>
      made.holds.find((hold) => hold.what === 'form' && hold.piece === id)?.unit;
    const prepare = (id: string): string =>
      first.steps.find((step) => step.piece === id && step.step === 'prepare')!.start;
    const [early, late] = ['a', 'b'].sort((x, y) => Date.parse(prepare(x)) - Date.parse(prepare(y)));
    const at = (id: string, days: number): string => shifted(prepare(id), days * 1440);
    const pinned = withPieces(shop, (each) =>
      each.id === early ? { ...each, pins: [{ step: 'prepare', at: at(early, 2) }] } : each,
    );
    const moved = plan(pinned, NOW, first);
    const same = (step: { piece: string }): boolean => step.piece === late;
    expect(moved.steps.filter(same).map(({ start }) => start)).toEqual(
      first.steps.filter(same).map(({ start }) => start),
    );
    expect([formOf(first, early), formOf(first, late)]).toEqual([1, 2]);
    expect([formOf(moved, early), formOf(moved, late)]).toEqual([2, 1]);
  });
});
