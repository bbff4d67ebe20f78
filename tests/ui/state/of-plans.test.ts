/** What planning asks of the plans it is given. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/engine/index.ts';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { isOverdue, isSameWorth, mayBeSooner, stillCuring } from '../../../src/ui/state/of-plans.ts';
import { planned } from '../small-shop.ts';

type Level = Plan['levels'][number];

const { plan, cures } = planned();
const withSteps = (change: (step: Plan['steps'][number]) => Plan['steps'][number]): Plan => ({
  ...plan,
  steps: plan.steps.map(change),
});

describe('a plan', () => {
  test('is overdue once work is ten minutes late, and not for what is begun, done or needs nobody', () => {
    const first = Math.min(
      ...plan.steps.filter(({ people }) => people.length > 0).map(({ start }) => minuteOf(start)),
    );
    expect(isOverdue(plan, first + 10)).toBe(false);
    expect(isOverdue(plan, first + 11)).toBe(true);
    const far = first + 100_000;
    for (const state of ['begun', 'done'] as const)
      expect(
        isOverdue(
          withSteps((step) => ({ ...step, state })),
          far,
        ),
      ).toBe(false);
    const waits = { ...plan, steps: plan.steps.filter(({ people }) => people.length === 0) };
    expect(waits.steps.length).toBeGreaterThan(0);
    expect(isOverdue(waits, far)).toBe(false);
  });

  test('is looked at for longer only while a piece is late that might not have to be', () => {
    const at = (name: Level['name'], value: number, proven: boolean): Plan => ({
      ...plan,
      levels: [
        { name: 'early', value: 7, bound: 0, proven: false },
        { name, value, bound: 0, proven },
      ],
    });
    expect(mayBeSooner(at('tardiness', 5, false))).toBe(true);
    expect(mayBeSooner(at('tardiness', 5, true))).toBe(false);
    expect(mayBeSooner(at('tardiness', 0, false))).toBe(false);
    expect(mayBeSooner(at('moved', 5, false))).toBe(false);
  });

  test('is worth the same when every level has the same value, proved or not', () => {
    const levels: readonly Level[] = [
      { name: 'tardiness', value: 5, bound: 5, proven: true },
      { name: 'early', value: 7, bound: 0, proven: false },
    ];
    const of = (...some: readonly Level[]): Plan => ({ ...plan, levels: some });
    const [late, early] = levels;
    expect(isSameWorth(of(late, early), of({ ...late, bound: 0, proven: false }, early))).toBe(true);
    expect(isSameWorth(of(late, early), of(late, { ...early, value: 8 }))).toBe(false);
    expect(isSameWorth(of(late, early), of(late))).toBe(false);
    expect(isSameWorth(of(late), of({ ...late, name: 'early' }))).toBe(false);
  });

  test('cures as before where it is poured at the same minute', () => {
    expect(stillCuring(plan, cures)).toEqual(cures);
    const [moved] = cures;
    const later = withSteps((step) =>
      step.piece === moved.piece && step.step === moved.step ? { ...step, start: step.end } : step,
    );
    expect(stillCuring(later, cures)).toEqual(cures.slice(1));
    expect(stillCuring({ ...plan, steps: [] }, cures)).toEqual([]);
  });
});
