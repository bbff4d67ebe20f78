/**
 * Any shop, day after day: planned, recorded not quite as planned, changed, and planned again around what stands. Whatever
 * has happened, the checker finds nothing in any plan that is told, on the way to the last one or as the last one.
 */
import { gen, sample, tuple } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import { laterOccasion } from '../random-days.ts';
import { anyOccasion } from '../random-shop.ts';
import type { Occasion } from '../random-shop.ts';

const SEED = 20261127;
const SHOPS = 60;
/** So often each is planned again. */
const DAYS = 4;
const LONG = 900_000;

/** Every plan that is told, the last one last. */
function plansOf({ shop, now }: Occasion, standing: Plan | undefined): readonly Plan[] {
  const told: Plan[] = [];
  let polls = 0;
  const stop = (): boolean => ++polls > 300;
  const progress = (plan: Plan): void => void told.push(plan);
  const last = planShop(shop, { now, seed: 1, budget: 1000, stop, progress, standing });
  return [...told, last];
}

describe('any shop, day after day', () => {
  test(
    'is planned again so that the checker finds nothing',
    () => {
      const met = { recorded: 0, 'under way': 0, 'in a box': 0, pinned: 0, scuffed: 0, worked: 0 };
      const cases = sample(tuple(anyOccasion, gen()), { seed: SEED, numRuns: SHOPS });
      cases.forEach(([first, g], i) => {
        let occasion = first;
        let standing: Plan | undefined;
        for (let day = 0; day <= DAYS; day++) {
          const plans = plansOf(occasion, standing);
          for (const plan of plans)
            expect(checkPlan(occasion.shop, plan), `shop ${i} of seed ${SEED}, day ${day}`).toEqual([]);
          const plan = plans[plans.length - 1];
          if (plan.steps.length === 0 && !standing) break;
          if (plan.steps.length > 0) {
            standing = plan;
            if (day > 0) {
              met.worked += 1;
              met.recorded += Number(plan.steps.some(({ state }) => state === 'done'));
              met['under way'] += Number(
                plan.steps.some(({ state, people }) => state === 'begun' && people.length > 0),
              );
              met['in a box'] += Number(plan.steps.some(({ warmBox }) => warmBox !== undefined));
              met.pinned += Number(plan.steps.some(({ pinned }) => pinned));
              met.scuffed += Number(plan.steps.some(({ way }) => way === 'scuff'));
            }
          }
          if (standing) occasion = laterOccasion(occasion, standing, g);
        }
      });
      // Each of these is met time and again, or the test would prove little.
      for (const [what, times] of Object.entries(met)) expect(times, what).toBeGreaterThan(SHOPS / 6);
      expect(met.worked).toBeGreaterThan(SHOPS * 2);
    },
    LONG,
  );
});
