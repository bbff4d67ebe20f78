import { expect, test } from 'vitest';
import {
  constantLag,
  modelFaults,
  readFlexibleJobShop,
  readJobShop,
  solve,
  solveWithProof,
  tableMap,
  yes,
  type Model,
  type SolveOptions,
} from '../../../src/engine/schedule/index.ts';
import { FT06 } from './published-shops.ts';
import { tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

/** Something of each kind, so that each can be broken. */
const sound: Model = {
  starts: [
    { name: 'pour', earliest: 0, latest: 50, reason: 0 },
    { name: 'demold', earliest: 0, latest: 60 },
  ],
  choices: ['in the small form'],
  lags: [
    { from: 0, to: 1, kind: 'least', map: tableMap(Int32Array.of(5, 5, 7, 9), 0, 'last'), when: [yes(0)] },
  ],
  openings: [{ start: 0, allowed: Int32Array.of(0, 10, 20, 30) }],
  clauses: [{ literals: [yes(0)] }],
  resources: [
    {
      name: 'form',
      capacity: Int32Array.of(0, 1, 40, 2),
      tasks: [{ from: 0, to: 1, until: constantLag(0), amount: 1 }],
    },
  ],
  exclusions: [
    {
      name: 'dust',
      one: [{ from: 0, to: 0, until: constantLag(2), amount: 1 }],
      other: [{ from: 1, to: 1, until: constantLag(2), amount: 1 }],
    },
  ],
  levels: [
    {
      name: 'late',
      costs: [
        { kind: 'late', start: 1, after: 10, weight: 1 },
        { kind: 'early', start: 0, before: 5, weight: 2 },
        { kind: 'choice', when: yes(0), weight: 1 },
        { kind: 'buckets', starts: [0, 1], when: [[yes(0)], []], edges: Int32Array.of(0, 20, 40), weight: 3 },
      ],
    },
  ],
  reasons: 1,
};

// oxlint-disable-next-line typescript/no-explicit-any -- what is broken here is what types would forbid
type Loose = { -readonly [K in keyof Model]: any };

/** What is broken, and the place that the fault must name. */
const BROKEN: readonly (readonly [place: string, breaks: (model: Loose) => void])[] = [
  ['reasons', (m) => (m.reasons = 1.5)],
  ['starts[1].earliest', (m) => (m.starts[1].earliest = NaN)],
  ['starts[1].latest', (m) => (m.starts[1].latest = 60.5)],
  ['starts[0].reason', (m) => (m.starts[0].reason = 1)],
  ['lags[0].from', (m) => (m.lags[0].from = -1)],
  ['lags[0].to', (m) => (m.lags[0].to = 2)],
  ['lags[0].kind', (m) => (m.lags[0].kind = 'atLeast')],
  ['lags[0].map', (m) => (m.lags[0].map = (s: number) => s + 5)],
  // An inverse that leads back too late, one that leads back to where the map is less, and a map that has fractions.
  ['lags[0].map', (m) => (m.lags[0].map = { at: (s: number) => s + 5, leastReaching: (v: number) => v - 4 })],
  ['lags[0].map', (m) => (m.lags[0].map = { at: (s: number) => s + 5, leastReaching: (v: number) => v - 6 })],
  [
    'lags[0].map',
    (m) => (m.lags[0].map = { at: (s: number) => s + 0.5, leastReaching: (v: number) => v - 0.5 }),
  ],
  ['lags[0].when', (m) => (m.lags[0].when = [2])],
  ['lags[0].reason', (m) => (m.lags[0].reason = 1)],
  ['openings[0].start', (m) => (m.openings[0].start = 0.5)],
  ['openings[0].allowed', (m) => (m.openings[0].allowed = Int32Array.of(0, 10, 20))],
  ['openings[0].allowed', (m) => (m.openings[0].allowed = Int32Array.of(20, 30, 0, 10))],
  ['openings[0].when', (m) => (m.openings[0].when = [-1])],
  ['openings[0].reason', (m) => (m.openings[0].reason = -1)],
  ['clauses[0].literals', (m) => (m.clauses[0].literals = [3])],
  ['clauses[0].reason', (m) => (m.clauses[0].reason = 9)],
  ['resources[0].capacity', (m) => (m.resources[0].capacity = Int32Array.of())],
  ['resources[0].capacity', (m) => (m.resources[0].capacity = Int32Array.of(0, 1, 40))],
  ['resources[0].capacity', (m) => (m.resources[0].capacity = Int32Array.of(5, 1))],
  ['resources[0].capacity', (m) => (m.resources[0].capacity = Int32Array.of(0, 1, 40, 2, 30, 1))],
  ['resources[0].capacity[3]', (m) => (m.resources[0].capacity = Int32Array.of(0, 1, 40, -2))],
  ['resources[0].tasks[0].from', (m) => (m.resources[0].tasks[0].from = 7)],
  ['resources[0].tasks[0].to', (m) => (m.resources[0].tasks[0].to = 7)],
  ['resources[0].tasks[0].until', (m) => (m.resources[0].tasks[0].until = undefined)],
  ['resources[0].tasks[0].amount', (m) => (m.resources[0].tasks[0].amount = -1)],
  ['resources[0].tasks[0].when', (m) => (m.resources[0].tasks[0].when = [5])],
  ['resources[0].tasks[0].reason', (m) => (m.resources[0].tasks[0].reason = 5)],
  ['exclusions[0].one[0].from', (m) => (m.exclusions[0].one[0].from = 5)],
  ['exclusions[0].other[0].amount', (m) => (m.exclusions[0].other[0].amount = 1.5)],
  ['levels[0].costs[0].start', (m) => (m.levels[0].costs[0].start = 2)],
  ['levels[0].costs[0].after', (m) => (m.levels[0].costs[0].after = undefined)],
  ['levels[0].costs[0].weight', (m) => (m.levels[0].costs[0].weight = 0)],
  ['levels[0].costs[1].before', (m) => (m.levels[0].costs[1].before = 0.25)],
  ['levels[0].costs[2].when', (m) => (m.levels[0].costs[2].when = 2)],
  ['levels[0].costs[3].starts[1]', (m) => (m.levels[0].costs[3].starts[1] = 2)],
  ['levels[0].costs[3].when', (m) => (m.levels[0].costs[3].when = [[]])],
  ['levels[0].costs[3].when[0]', (m) => (m.levels[0].costs[3].when[0] = [8])],
  ['levels[0].costs[3].edges', (m) => (m.levels[0].costs[3].edges = Int32Array.of(20, 0))],
  ['levels[0].costs[2].kind', (m) => (m.levels[0].costs[2].kind = 'sometimes')],
];

/** A copy down to the numbers; maps stay the same. */
function copy<T>(value: T): T {
  if (Array.isArray(value)) return value.map(copy) as T;
  if (value instanceof Int32Array) return value.slice() as T;
  if (typeof value !== 'object' || value === null || 'at' in value) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, copy(each)])) as T;
}

test('a sound model has no faults', () => {
  expect(modelFaults(sound)).toEqual([]);
  expect(modelFaults(readJobShop(FT06))).toEqual([]);
  expect(modelFaults(readFlexibleJobShop('1 2 1\n1 2 1 3 2 4\n'))).toEqual([]);
  for (let seed = 1; seed <= 200; seed++) {
    expect(modelFaults(tinyModel(seed)), `tiny ${seed}`).toEqual([]);
    if (seed <= 20) expect(modelFaults(workshop(4, seed, 2)), `workshop ${seed}`).toEqual([]);
  }
});

test('whatever is broken is told alone, with its place and with what would be right', () => {
  for (const [place, breaks] of BROKEN) {
    const model = copy(sound) as Loose;
    breaks(model);
    const found = modelFaults(model as Model);
    expect(found, place).toHaveLength(1);
    expect(found[0].startsWith(`${place}: `), found[0]).toBe(true);
    expect(found[0], place).toContain('; right would be ');
  }
});

test('a model with faults is not solved, and neither is one with options that mean nothing', () => {
  const model = copy(sound) as Loose;
  model.lags[0].to = 9;
  const options = { seed: 1, budget: 1000 };
  expect(() => solve(model as Model, options)).toThrow(
    /lags\[0\]\.to: 9; right would be the number of a start, 0 to 1/,
  );
  expect(() => solveWithProof(model as Model, options)).toThrow(/lags\[0\]\.to: 9/);
  const wrong: readonly (readonly [RegExp, Partial<SolveOptions>])[] = [
    [/seed: 1\.5/, { seed: 1.5 }],
    [/budget: NaN/, { budget: NaN }],
    [/budget: -1/, { budget: -1 }],
    [/hint: 1 starts and 1 choices; right would be 2 and 1/, { hint: { starts: [0], choices: [true] } }],
    [/others: 2 starts and 0 choices/, { others: [{ starts: [0, 5], choices: [] }] }],
  ];
  for (const [message, each] of wrong) expect(() => solve(sound, { ...options, ...each })).toThrow(message);
  expect(solve(sound, { ...options, budget: Infinity }).status).toBe('optimal');
});

test('of very many faults the first ten are told, and how many more there are', () => {
  const model = copy(sound) as Loose;
  model.clauses = Array.from({ length: 25 }, () => ({ literals: [99] }));
  expect(modelFaults(model as Model)).toHaveLength(25);
  expect(() => solve(model as Model, { seed: 1, budget: 1 })).toThrow(/clauses\[9\].*; and 15 more$/);
});
