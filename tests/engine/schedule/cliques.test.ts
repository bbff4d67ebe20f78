import { describe, expect, test } from 'vitest';
import { constantLag, type Model, type Task } from '../../../src/engine/schedule/index.ts';
import { checkProof, solve, solveWithProof, verify } from '../../../src/engine/schedule/index.ts';
import { makespanModel } from '../../../src/engine/schedule/plain-model.ts';

/** Activities from 0 on, the end last; each resource is a list of [activity, amount, time], of which there is so much. */
function project(
  count: number,
  resources: readonly { readonly capacity: number; readonly uses: readonly (readonly number[])[] }[],
): Model {
  const tasks = resources.map(({ uses }) =>
    uses.map(([start, amount, time]): Task => ({ from: start, to: start, until: constantLag(time), amount })),
  );
  return makespanModel(
    Array.from({ length: count + 1 }, (_, k) => ({ name: `${k}`, earliest: 0, latest: 60 })),
    tasks.flat().map(({ from, until }) => ({ from, to: count, kind: 'least' as const, map: until })),
    resources.map(({ capacity }, r) => ({
      name: `r${r}`,
      capacity: Int32Array.of(0, capacity),
      tasks: tasks[r],
    })),
    count,
  );
}

describe('activities that are kept apart in pairs, each pair by another thing,', () => {
  const lengths = [3, 5, 7, 4, 6];
  const pairs = lengths.flatMap((_, i) => lengths.slice(i + 1).map((_, k) => [i, i + 1 + k]));
  const model = project(
    lengths.length,
    pairs.map((pair) => ({ capacity: 3, uses: pair.map((i) => [i, 2, lengths[i]]) })),
  );
  const { outcome, lines } = solveWithProof(model, { seed: 1, budget: 1_000_000 });

  const withoutTrials = lines.filter((line) => !/^(clause|window)/.test(line));

  test('take the sum of their times, which follows without any trial', () => {
    expect(outcome).toMatchObject({ status: 'optimal', levels: [{ value: 3 + 5 + 7 + 4 + 6 }] });
    const shown = { isAccepted: true, shows: 'optimal', bounds: [25] };
    expect(checkProof(model, lines)).toMatchObject(shown);
    expect(checkProof(model, withoutTrials)).toMatchObject(shown);
  });

  test('are one machine, and a proof that does not say so needs the trials', () => {
    const untold = withoutTrials.filter((line) => !line.startsWith('clique'));
    expect(checkProof(model, untold)).toMatchObject({ isAccepted: false });
  });
});

test('an activity that holds two things for different times keeps others away for the time of what they share', () => {
  // By hand: 0 begins first; 1 and 2 may follow at 2, one after the other; 8 is the end, and 0 holds its other thing until 6.
  const model = project(3, [
    {
      capacity: 3,
      uses: [
        [0, 2, 2],
        [1, 2, 3],
      ],
    },
    {
      capacity: 3,
      uses: [
        [0, 2, 2],
        [2, 2, 3],
      ],
    },
    {
      capacity: 3,
      uses: [
        [1, 2, 3],
        [2, 2, 3],
      ],
    },
    { capacity: 1, uses: [[0, 1, 6]] },
  ]);
  const outcome = solve(model, { seed: 1, budget: 1_000_000 });
  expect(outcome).toMatchObject({ status: 'optimal', levels: [{ value: 8 }] });
  if ('best' in outcome) expect(verify(model, outcome.best)).toEqual([]);
});
