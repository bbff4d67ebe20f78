/**
 * The engine keeps what it last routed, read and told. Whatever it planned before, the same shop gets the same plan.
 */
import { sample } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import type { Piece, Shop } from '../../../src/engine/shop/index.ts';
import { anyOccasion } from '../random-shop.ts';

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
  const at = `${new Date(Date.parse(step.start) + minutesLater * 60_000).toISOString().slice(0, 16)}Z`;
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

  test('at another minute, or with a way pinned, is another shop', () => {
    const { shop, now } = occasions[0];
    const later = new Date(Date.parse(now) + 7 * 60_000).toISOString().slice(0, 16);
    forget(0);
    const alone = plan(shop, `${later}Z`);
    plan(shop, now);
    expect(plan(shop, `${later}Z`)).toEqual(alone);
  });
});
