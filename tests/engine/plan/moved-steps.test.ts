import { expect, test } from 'vitest';
import { movedSteps, planShop } from '../../../src/engine/index.ts';
import type { Plan } from '../../../src/engine/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { shifted } from '../../moments.ts';

const shop = littleShop((file) => (file.pieces = [piece('a'), piece('b')]));
const stood = planShop(shop, { now: NOW, seed: 1, budget: 20_000 });
type Step = Plan['steps'][number];

/** The plan with some of its steps changed. */
const changed = (change: (step: Step) => Partial<Step>): Plan => ({
  ...stood,
  steps: stood.steps.map((step) => ({ ...step, ...change(step) })),
});
const told = (after: Plan) => movedSteps(stood, after).map(({ piece, step }) => `${piece} ${step}`);
const is = (step: Step, of: string, name: string): boolean => step.piece === of && step.step === name;

test('what is attended and at another time has moved, the soonest first', () => {
  const [sand, demold] = ['sand', 'demold'].map((name) => stood.steps.find((step) => is(step, 'a', name))!);
  const after = changed((step) => (step === sand || step === demold ? { start: '2026-06-01T08:00Z' } : {}));
  expect(movedSteps(stood, { ...after, steps: [...after.steps].reverse() })).toEqual(
    [demold, sand].map(({ piece, step, start }) => ({ piece, step, from: start, to: '2026-06-01T08:00Z' })),
  );
});

test('what waits by itself, is begun, or was not there before has not moved', () => {
  const later = '2026-06-01T08:00Z';
  expect(told(changed((step) => (step.handsOnMinutes === 0 ? { start: later } : {})))).toEqual([]);
  expect(told(changed(() => ({ state: 'begun', start: later })))).toEqual([]);
  expect(told(changed((step) => (step.piece === 'b' ? { piece: 'c', start: later } : {})))).toEqual([]);
});

test('the same moment written with another offset has not moved', () => {
  const after = changed(({ start }) => ({ start: shifted(start, 0) }));
  expect(after.steps[0].start).not.toBe(stood.steps[0].start);
  expect(told(after)).toEqual([]);
});
