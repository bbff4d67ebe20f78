import { expect, test } from 'vitest';
import { constantLag, verify, yes, type Cost, type Model } from '../../../src/engine/schedule/index.ts';
import { PriceBound } from '../../../src/engine/schedule/bounds-by-prices.ts';
import { heldTo } from '../../../src/engine/schedule/held-to.ts';
import { PartSearch } from '../../../src/engine/schedule/improve-by-parts.ts';
import { PartBounds } from '../../../src/engine/schedule/part-bounds.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { solveWatched } from '../../../src/engine/schedule/solve.ts';
import type { Assignment } from '../../../src/engine/schedule/index.ts';
import { everyAnswer, tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

/** The bounds of all levels for plans like this one. */
function boundsFor(model: Model, plan: Assignment, values: readonly number[]): readonly number[] {
  const parts = partsOf(model);
  const bounds = new PartBounds(model, parts, new PartSearch(model, 1, parts).alone);
  bounds.raise(plan, values, 200_000, () => false);
  return bounds.of(values);
}

/** Boards that stand ten minutes in one of some forms of their own kind each, all due after ten minutes. */
function boards(forms: readonly (readonly number[])[], kinds: readonly number[]): Model {
  const starts = forms.flatMap((_, b) =>
    ['pour', 'demold'].map((step) => ({ name: `${b} ${step}`, earliest: 0, latest: 200 })),
  );
  const options = forms.flatMap((kind, board) => kind.map((form) => ({ board, form })));
  return {
    starts,
    choices: options.map(({ board, form }) => `${board} in ${form}`),
    lags: forms.map((_, b) => ({ from: 2 * b, to: 2 * b + 1, kind: 'least', map: constantLag(10) })),
    openings: [],
    clauses: forms.map((_, b) => ({
      literals: options.flatMap(({ board }, choice) => (board === b ? [yes(choice)] : [])),
    })),
    resources: kinds.map((count, kind) => ({
      name: `form ${kind}`,
      capacity: Int32Array.of(0, count),
      tasks: options.flatMap(({ board, form }, choice) =>
        form === kind
          ? [{ from: 2 * board, to: 2 * board + 1, until: constantLag(0), amount: 1, when: [yes(choice)] }]
          : [],
      ),
    })),
    exclusions: [],
    levels: [
      {
        name: 'late',
        costs: forms.map((_, b): Cost => ({ kind: 'late', start: 2 * b + 1, after: 10, weight: 1 })),
      },
    ],
    reasons: 0,
  };
}

/** A plan that ends late enough for every moment that matters to have a price. */
const until = ({ starts, choices }: Model, end: number): Assignment => ({
  starts: starts.map(() => end),
  choices: choices.map(() => false),
});

test('the bound meets the optimum where that is worked out by hand', () => {
  // One form, three boards: demolded at 10, 20 and 30, so 0 + 10 + 20 late.
  const one = boards([[0], [0], [0]], [1]);
  expect(boundsFor(one, until(one, 60), [90])[0]).toBe(30);
  // Two alike: two at 10, two at 20, one at 30.
  const two = boards([[0], [0], [0], [0], [0]], [2]);
  expect(boundsFor(two, until(two, 60), [90])[0]).toBe(40);
  // Two of one kind go into the small form alone, the third may take the large one that nobody else wants.
  const other = boards([[0], [0], [0, 1]], [1, 1]);
  expect(boundsFor(other, until(other, 60), [90])[0]).toBe(10);
});

test('no answer is below the bound: of tiny problems every answer is looked at', () => {
  let counted = 0;
  for (let seed = 1; seed <= 800; seed++) {
    const model = tinyModel(seed);
    const answers = [...everyAnswer(model)];
    const search = new PartSearch(model, seed);
    if (answers.length === 0 || !search.construct()) continue;
    const { assignment, values } = search.found!;
    const parts = partsOf(model);
    const alone = new PartBounds(model, parts, search.alone).of(values);
    values.forEach((value, k) => {
      const held = heldTo(model, k, values, search.alone);
      expect(verify(held, assignment), `seed ${seed} level ${k}`).toEqual([]);
      const by = new PriceBound(held, parts, k, Math.max(...assignment.starts) + 3);
      // An upper end above the truth: the prices are to be driven on when the bound is tight.
      by.raise(value + 20, 2_000, () => false);
      if (by.bound > 0) counted++;
      const least = answers
        .filter((answer) => values.slice(0, k).every((most, earlier) => answer[earlier] <= most))
        .reduce((min, answer) => Math.min(min, answer[k]), Infinity);
      for (const bound of [by.bound, alone[k]])
        expect(bound, `seed ${seed} level ${k}`).toBeLessThanOrEqual(least);
    });
  }
  expect(counted).toBeGreaterThan(50);
});

test('no proved optimum is below the bound: workshops with too few benches', () => {
  let raised = 0;
  for (let seed = 1; seed <= 25; seed++) {
    const plain = workshop(4, seed, 1 + (seed % 2));
    const ends = plain.levels[0].costs.flatMap((cost): Cost[] =>
      cost.kind === 'late' ? [{ ...cost, after: 0, weight: 1 }] : [],
    );
    const model: Model = { ...plain, levels: [...plain.levels, { name: 'early', costs: ends }] };
    const outcome = solveWatched(model, { seed, budget: 20_000_000 }, null);
    if (outcome.status !== 'optimal') continue;
    const values = outcome.levels.map(({ value }) => value);
    const alone = new PartBounds(model, partsOf(model), new PartSearch(model, 1).alone).of(values);
    boundsFor(model, outcome.best, [values[0] + 1, ...values.slice(1)]).forEach((bound, k) => {
      if (bound > alone[k]) raised++;
      expect(bound, `seed ${seed} level ${k}`).toBeLessThanOrEqual(values[k]);
    });
    boundsFor(model, outcome.best, [values[0], values[1], values[2] + 1]).forEach((bound, k) => {
      expect(bound, `seed ${seed} level ${k}`).toBeLessThanOrEqual(values[k]);
    });
  }
  expect(raised).toBeGreaterThan(20);
});

test('a bound that rests on the values of earlier levels does not count for a plan that is worse there', () => {
  let seen = 0;
  for (let seed = 1; seed <= 25; seed++) {
    const plain = workshop(4, seed, 1);
    const ends = plain.levels[0].costs.flatMap((cost): Cost[] =>
      cost.kind === 'late' ? [{ ...cost, after: 0, weight: 1 }] : [],
    );
    const model: Model = { ...plain, levels: [...plain.levels, { name: 'early', costs: ends }] };
    const parts = partsOf(model);
    const search = new PartSearch(model, 1, parts);
    if (!search.construct()) continue;
    const { assignment, values } = search.found!;
    const bounds = new PartBounds(model, parts, search.alone);
    const alone = bounds.of(values);
    bounds.raise(assignment, values, 200_000, () => false);
    const last = values.length - 1;
    const worse = values.map((value, k) => (k === 0 ? value + 1 : value));
    const better = values.map((value, k) => (k === 0 ? Math.max(0, value - 1) : value));
    expect(bounds.of(worse)[last]).toBe(alone[last]);
    expect(bounds.of(better)[last]).toBe(bounds.of(values)[last]);
    if (bounds.of(values)[last] > alone[last]) seen++;
  }
  expect(seen).toBeGreaterThan(5);
});

test('a bound by prices is found in any number of turns, and the shortest turn reads no more than one part', () => {
  const model = workshop(12, 3, 1);
  const parts = partsOf(model);
  const price = (): PriceBound => new PriceBound(model, parts, 0, 40 * 1440);
  const atOnce = price();
  const enough = atOnce.work + 400_000;
  atOnce.raise(1e6, enough, () => false);
  const inTurns = price();
  let turns = 0;
  for (; inTurns.bound === 0; turns++) inTurns.raise(1e6, inTurns.work + 1, () => false);
  expect(turns).toBeGreaterThanOrEqual(parts.length);
  inTurns.raise(1e6, enough, () => false);
  expect(inTurns.bound).toBe(atOnce.bound);
});
