/**
 * Any shop, planned with a small budget, and checked by rules that were written a second time. Then the same plans
 * with one step a minute past its bound, which must not get through. The bounds for the breaking come from the plan,
 * the recipe and the calendar, not from the checker.
 */
import { sample } from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop } from '../../../src/engine/plan/index.ts';
import type { Plan, PlanStep } from '../../../src/engine/plan/index.ts';
import type { Shop } from '../../../src/engine/shop/index.ts';
import { intervalAt, makeClock, openIntervals, toIso, toMinute } from '../../../src/engine/time/index.ts';
import type { Clock } from '../../../src/engine/time/index.ts';
import { anyOccasion } from '../random-shop.ts';
import type { Occasion } from '../random-shop.ts';

const SEED = 20261125;
const SHOPS = 160;
/** So many steps of every plan are broken. */
const BROKEN_A_PLAN = 5;
/** So many more are planned with next to no search, and only checked. */
const MORE_SHOPS = 2000;
const MORE_SEED = 77;
const LONG = 900_000;

/** A planned step and all that is needed to break it. */
interface Target {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly clock: Clock;
  readonly step: PlanStep;
  readonly start: number;
  readonly end: number;
  /** Another planned step of the same piece. */
  other(step: string): { readonly start: number; readonly end: number } | undefined;
}

/** A plan with one fault in it, and the rule that must find it. */
interface Fault {
  readonly rule: string;
  readonly plan: Plan;
  readonly what: string;
}

/** The plan with some steps of a piece put elsewhere. */
function moved({ plan, step, clock }: Target, to: Readonly<Record<string, readonly [number, number]>>): Plan {
  return {
    ...plan,
    steps: plan.steps.map((each) => {
      const place = each.piece === step.piece ? to[each.step] : undefined;
      return place ? { ...each, start: toIso(clock, place[0]), end: toIso(clock, place[1]) } : each;
    }),
  };
}

const isAttended = ({ kind }: PlanStep): boolean => !['set', 'cure', 'rest', 'ready'].includes(kind);

function faultsOf(target: Target): Fault[] {
  const { shop, plan, step, start, end, other, clock } = target;
  const faults: Fault[] = [];
  const add = (rule: string, what: string, broken: Plan): void =>
    void faults.push({ rule, what, plan: broken });
  const recipe = shop.recipes.find(({ id }) =>
    shop.pieces.some((p) => p.id === step.piece && p.recipe === id),
  );

  const layer = /^(layer-\d+)-bubbles-/.exec(step.step)?.[1];
  const isOverFact = layer !== undefined && other(`${layer}-pour`) === undefined;
  const leftOut = { ...plan, steps: plan.steps.filter((each) => each !== step) };
  add(isOverFact ? 'bubbles' : 'order', 'left out', leftOut);
  add('order', 'a minute longer', moved(target, { [step.step]: [start, end + 1] }));
  add(
    'earliest',
    'a minute before now',
    moved(target, { [step.step]: [toMinute(clock, plan.now) - 1, end] }),
  );
  if (step.form && step.step === 'demold') {
    const otherForm = { ...step.form, unit: step.form.unit + 1 };
    const steps = plan.steps.map((each) => (each === step ? { ...each, form: otherForm } : each));
    add('form', 'in another form', { ...plan, steps });
  }
  const before = ['demold', 'turnaround', 'flatten', 'sand', 'finish'].includes(step.kind)
    ? { demold: undefined, turnaround: 'demold', flatten: 'demold', sand: 'flatten', finish: undefined }[
        step.kind as 'demold'
      ]
    : undefined;
  const ahead = before === undefined ? undefined : other(before);
  if (ahead)
    add(
      'order',
      `a minute before ${before} ends`,
      moved(target, { [step.step]: [ahead.end - 1, ahead.end - 1 + end - start] }),
    );

  if (step.kind === 'bubbles') {
    const [, layer, pass] = /^layer-(\d+)-bubbles-(\d+)$/.exec(step.step) ?? [];
    const pour = other(`layer-${layer}-pour`);
    const over = plan.steps.find((each) => each.piece === step.piece && each.window?.of === `layer-${layer}`);
    if (!pour && over?.window) {
      const late = toMinute(clock, over.window.opens) + 1 - (end - start);
      add(
        'bubbles',
        'over a minute after its layer has set',
        moved(target, { [step.step]: [late, late + end - start] }),
      );
    }
    const bounds = recipe?.layers[Number(layer) - 1].bubblePasses[Number(pass) - 1];
    if (pour && bounds) {
      const late = pour.end + bounds.toMinutes + 1;
      add('bubbles', 'a minute too late', moved(target, { [step.step]: [late, late + end - start] }));
      const soon = pour.end + bounds.fromMinutes - 1;
      add('bubbles', 'a minute too soon', moved(target, { [step.step]: [soon, soon + end - start] }));
    }
  }

  const isBoxed = plan.steps.some((each) => each.piece === step.piece && each.warmBox !== undefined);
  const mixId = step.step.replace(/-pour$/, '') + '-mix';
  const mix = other(mixId);
  if (step.window && step.way === 'recoat' && mix && !isBoxed) {
    const pourAt = (at: number): Plan =>
      moved(target, { [mixId]: [at - (mix.end - mix.start), at], [step.step]: [at, at + end - start] });
    add('window', 'a minute before the window opens', pourAt(toMinute(clock, step.window.opens) - 1));
    add(
      'window',
      'a minute after it closes',
      pourAt(toMinute(clock, step.window.closes) + 1 - (end - start)),
    );
    const shifted = { ...step.window, opens: toIso(clock, toMinute(clock, step.window.opens) + 1) };
    const steps = plan.steps.map((each) => (each === step ? { ...each, window: shifted } : each));
    add('window', 'its window told a minute wrong', { ...plan, steps });
  }

  const person = shop.people.find(({ id }) => id === step.people[0]);
  if (person) {
    const open = openIntervals(
      person.hours,
      [...person.off, ...shop.closures],
      clock,
      end + 14 * 1440,
      start - 1440,
    );
    const at = intervalAt(open, start);
    const closing = open[2 * at + 1];
    const isSplit = ['prepare', 'flatten', 'sand', 'finish'].includes(step.kind);
    if (at >= 0 && !isSplit && closing < end + 13 * 1440) {
      const late = closing + 1 - (end - start);
      add('hours', 'a minute after they leave', moved(target, { [step.step]: [late, late + end - start] }));
    }
  }
  return faults;
}

function targetsOf({ shop, now }: Occasion, plan: Plan): Target[] {
  const clock = makeClock(shop.zone, now);
  const timed = (step: PlanStep) => ({ start: toMinute(clock, step.start), end: toMinute(clock, step.end) });
  return plan.steps
    .filter((step) => step.state === 'planned' && isAttended(step))
    .map((step) => ({
      shop,
      plan,
      clock,
      step,
      ...timed(step),
      other: (id) => {
        const found = plan.steps.find((each) => each.piece === step.piece && each.step === id);
        return found?.state === 'planned' ? timed(found) : undefined;
      },
    }));
}

describe('any shop', () => {
  const cases: { readonly occasion: Occasion; readonly plan: Plan }[] = [];

  beforeAll(() => {
    for (const occasion of sample(anyOccasion, { seed: SEED, numRuns: SHOPS })) {
      let polls = 0;
      const stop = (): boolean => ++polls > 2000;
      const plan = planShop(occasion.shop, { now: occasion.now, seed: 1, budget: 500, stop });
      cases.push({ occasion, plan });
    }
  }, LONG);

  test('is planned so that the checker finds nothing', () => {
    cases.forEach(({ occasion, plan }, i) => {
      expect(checkPlan(occasion.shop, plan), `shop ${i} of seed ${SEED}`).toEqual([]);
    });
    // Most of these shops can be worked, or the test would prove little.
    const worked = cases.filter(({ plan }) => plan.steps.length > 0).length;
    expect(worked).toBeGreaterThan(SHOPS * 0.6);
  });

  test(
    'has its plan refused when any one step is a minute past its bound',
    () => {
      const found = new Set<string>();
      cases.forEach(({ occasion, plan }, i) => {
        const targets = targetsOf(occasion, plan);
        for (let k = 0; k < Math.min(BROKEN_A_PLAN, targets.length); k++) {
          const target = targets[(i + k * 7) % targets.length];
          const faults = faultsOf(target);
          const { rule, plan: broken, what } = faults[(i * 3 + k) % faults.length];
          const rules = checkPlan(target.shop, broken).map((each) => each.rule);
          const name = `shop ${i} of seed ${SEED}: ${target.step.piece} ${target.step.step}, ${what}`;
          expect(rules, name).toContain(rule);
          found.add(rule);
        }
      });
      expect([...found].sort()).toEqual(['bubbles', 'earliest', 'form', 'hours', 'order', 'window']);
    },
    LONG,
  );

  test(
    'is planned so that the checker finds nothing, two thousand times more',
    () => {
      let worked = 0;
      sample(anyOccasion, { seed: MORE_SEED, numRuns: MORE_SHOPS }).forEach(({ shop, now }, i) => {
        let polls = 0;
        const stop = (): boolean => ++polls > 2000;
        const plan = planShop(shop, { now, seed: 1, budget: 300, stop });
        expect(checkPlan(shop, plan), `shop ${i} of seed ${MORE_SEED}`).toEqual([]);
        if (plan.steps.length > 0) worked += 1;
      });
      expect(worked).toBeGreaterThan(MORE_SHOPS * 0.6);
    },
    LONG,
  );
});
