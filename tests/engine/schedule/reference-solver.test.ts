import highsLoader from 'highs';
import { expect, test } from 'vitest';
import {
  checkProof,
  constantLag,
  solve,
  solveWithProof,
  tableMap,
  verify,
  yes,
  no,
  type Lag,
  type Model,
  type MonotoneMap,
} from '../../../src/engine/schedule/index.ts';
import { PartSearch } from '../../../src/engine/schedule/improve-by-parts.ts';
import { PartBounds } from '../../../src/engine/schedule/part-bounds.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { randomFrom } from './tiny-models.ts';

const HORIZON = 26;

/** A cure as a table: the later a layer is poured, the later it is tacky; by chance cold and warm hours. */
function cure(random: (below: number) => number, least: number): Int32Array {
  let at = least;
  return Int32Array.from({ length: HORIZON + 1 }, (_, s) => (at = Math.max(s + least, at + random(3))));
}

interface Board {
  readonly demold: number;
  readonly due: number;
  readonly weight: number;
  /** Into `forms`. */
  readonly choices: readonly number[];
}

interface Shop {
  readonly model: Model;
  readonly boards: readonly Board[];
}

/**
 * Two or three boards of two layers: each in one of two forms from its first pour until it is demolded, windows between its layers by random cure
 * tables, one pair of hands for all, with hours, and weighted lateness.
 */
function randomShop(seed: number): Shop {
  const random = randomFrom(seed);
  const count = 2 + random(2);
  const starts: Model['starts'][number][] = [];
  const lags: Lag[] = [];
  const boards: Board[] = [];
  const open = cure(random, 2 + random(3));
  const opens = tableMap(open);
  let last = 0;
  const closes = tableMap(open.map((v) => (last = Math.max(last, v + 1 + random(4)))));
  const demolds = tableMap(cure(random, 3 + random(4)));
  for (let b = 0; b < count; b++) {
    const first = starts.length;
    for (const step of ['first', 'second', 'demold'])
      starts.push({ name: `${b} ${step}`, earliest: 0, latest: HORIZON - 2 });
    lags.push({ from: first, to: first + 1, kind: 'least', map: opens });
    lags.push({ from: first, to: first + 1, kind: 'most', map: closes });
    lags.push({ from: first + 1, to: first + 2, kind: 'least', map: demolds });
    boards.push({
      demold: first + 2,
      due: 8 + random(8),
      weight: 1 + random(3),
      choices: [2 * b, 2 * b + 1],
    });
  }
  const night = 6 + random(4);
  const allowed = Int32Array.of(0, night, night + 2 + random(4), HORIZON);
  const work = 1 + random(2);
  const model: Model = {
    starts,
    choices: boards.flatMap((_, b) => [`${b} in form 0`, `${b} in form 1`]),
    lags,
    openings: starts.map((_, start) => ({ start, allowed })),
    clauses: boards.flatMap(({ choices: [a, b] }) => [
      { literals: [yes(a), yes(b)] },
      { literals: [no(a), no(b)] },
    ]),
    resources: [
      ...[0, 1].map((f) => ({
        name: `form ${f}`,
        capacity: Int32Array.of(0, 1),
        tasks: boards.map(({ demold, choices }) => ({
          from: demold - 2,
          to: demold,
          until: constantLag(1 + f),
          amount: 1,
          when: [yes(choices[f])],
        })),
      })),
      {
        name: 'hands',
        capacity: Int32Array.of(0, 1),
        tasks: starts.map((_, s) => ({ from: s, to: s, until: constantLag(work), amount: 1 })),
      },
    ],
    exclusions: [],
    levels: [
      {
        name: 'lateness',
        costs: boards.map(({ demold, due, weight }) => ({ kind: 'late', start: demold, after: due, weight })),
      },
    ],
    reasons: 0,
  };
  return { model, boards };
}

/**
 * The shop as a program over "begun by t" variables y_s_t (1 when start s is at most t), choices and lateness. A lag is
 * `y_to_(map(t) - 1) <= y_from_(t - 1)`: not begun before t, the other does not begin before map(t).
 */
function program({ model, boards }: Shop): string {
  const rows: string[] = [];
  const T = HORIZON;
  /** The sum of terms and a constant on the left; `y` outside the table is 0 before and 1 after. */
  const row = (
    terms: readonly (readonly [number, string | 0 | 1])[],
    sign: '<=' | '>=' | '=',
    right: number,
  ): void => {
    let rest = right;
    const words: string[] = [];
    for (const [factor, name] of terms) {
      if (typeof name === 'number') rest -= factor * name;
      else words.push(`${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`);
    }
    if (words.length > 0) rows.push(`${words.join(' ')} ${sign} ${rest}`);
    else if (!(sign === '<=' ? 0 <= rest : sign === '>=' ? 0 >= rest : rest === 0)) rows.push('0 never = 1');
  };
  const y = (s: number, t: number): string | 0 | 1 =>
    t < 0 ? 0 : t >= model.starts[s].latest ? 1 : `y_${s}_${t}`;
  const atMost = (map: MonotoneMap, t: number): number => Math.min(map.at(t), T + 1);
  const used: string[] = [];
  model.starts.forEach((_, s) => {
    for (let t = 0; t < T; t++) {
      const name = y(s, t);
      if (typeof name === 'string') used.push(name);
      row(
        [
          [1, y(s, t - 1)],
          [-1, y(s, t)],
        ],
        '<=',
        0,
      );
    }
  });
  for (const { from, to, kind, map } of model.lags)
    for (let t = 0; t <= model.starts[from].latest; t++) {
      const v = atMost(map, t);
      // Begun at t or later: the other at map(t) or later. Begun at t or earlier: the other at map(t) or earlier.
      if (kind === 'least')
        row(
          [
            [1, y(to, v - 1)],
            [-1, y(from, t - 1)],
          ],
          '<=',
          0,
        );
      else
        row(
          [
            [1, y(from, t)],
            [-1, y(to, v)],
          ],
          '<=',
          0,
        );
    }
  for (const { start, allowed } of model.openings)
    for (let t = 0; t < T; t++) {
      const isOpen = allowed.some((from, k) => k % 2 === 0 && from <= t && t < allowed[k + 1]);
      if (!isOpen)
        row(
          [
            [1, y(start, t)],
            [-1, y(start, t - 1)],
          ],
          '=',
          0,
        );
    }
  const hands = model.resources[2];
  for (let t = 0; t < T; t++) {
    row(
      hands.tasks.flatMap(({ from, until }): [number, string | 0 | 1][] => [
        [1, y(from, t)],
        [-1, y(from, t - until.at(0))],
      ]),
      '<=',
      1,
    );
    // In the form at t: begun by t, and demolding not begun so long ago that the form is free.
    model.resources.slice(0, 2).forEach(({ tasks }, f) => {
      tasks.forEach(({ from, to, until }, b) => {
        // z is 1 at least when the board is there and in this form.
        row(
          [
            [1, y(from, t)],
            [-1, y(to, t - until.at(0))],
            [1, `f_${b}_${f}`],
            [-1, `z_${b}_${f}_${t}`],
          ],
          '<=',
          1,
        );
      });
      row(
        tasks.map((_, b) => [1, `z_${b}_${f}_${t}`] as const),
        '<=',
        1,
      );
    });
  }
  boards.forEach(({ demold, due }, b) => {
    row(
      [
        [1, `f_${b}_0`],
        [1, `f_${b}_1`],
      ],
      '=',
      1,
    );
    // Late minutes: those from the due time on at which it has not begun.
    const terms: [number, string | 0 | 1][] = [[1, `late_${b}`]];
    let minutes = 0;
    for (let t = due; t < T; t++) {
      minutes++;
      terms.push([1, y(demold, t)]);
    }
    row(terms, '>=', minutes);
  });
  const objective = boards.map(({ weight }, b) => `+ ${weight} late_${b}`).join(' ');
  const binary = [...used, ...boards.flatMap((_, b) => [`f_${b}_0`, `f_${b}_1`])];
  return (
    `Minimize\n obj: ${objective}\nSubject To\n${rows.map((text, k) => ` c${k}: ${text}`).join('\n')}\n` +
    `Bounds\n never = 0\nBinary\n ${binary.join(' ')}\nEnd\n`
  );
}

const COUNT = 200;

test(`on ${COUNT} random shops with cure tables, forms, hours and hands the least lateness is that of the HiGHS solver, and no bound is above it`, async () => {
  const highs = await highsLoader();
  let late = 0;
  let raised = 0;
  let infeasible = 0;
  for (let seed = 1; seed <= COUNT; seed++) {
    const shop = randomShop(seed);
    const reference = highs.solve(program(shop));
    const outcome = solve(shop.model, { seed, budget: 20_000_000 });
    const where = `seed ${seed}`;
    if (reference.Status === 'Infeasible') {
      infeasible++;
      expect(outcome.status, where).toBe('infeasible');
      continue;
    }
    expect(reference.Status, where).toBe('Optimal');
    expect(outcome.status, where).toBe('optimal');
    if (outcome.status !== 'optimal') continue;
    expect(verify(shop.model, outcome.best), where).toEqual([]);
    expect(outcome.levels[0].value, where).toBe(Math.round(reference.ObjectiveValue));
    if (outcome.levels[0].value > 0) late++;
    const parts = partsOf(shop.model);
    const bounds = new PartBounds(shop.model, parts, new PartSearch(shop.model, seed, parts).alone);
    const [alone] = bounds.of([]);
    // An upper end above the truth: the prices are to be driven on when the bound is tight.
    bounds.raise(outcome.best, [outcome.levels[0].value + 5], 20_000, () => false);
    const [bound] = bounds.of([]);
    expect(bound, where).toBeLessThanOrEqual(Math.round(reference.ObjectiveValue));
    if (bound > alone) raised++;
  }
  // The generator must keep making shops of every kind.
  expect(late).toBeGreaterThan(COUNT / 5);
  expect(raised).toBeGreaterThan(COUNT / 20);
  expect(infeasible).toBeGreaterThan(0);
  expect(infeasible).toBeLessThan(COUNT / 2);
}, 120_000);

test('of the same shops the proofs are accepted', () => {
  for (let seed = 1; seed <= COUNT / 5; seed++) {
    const { model } = randomShop(seed);
    const { outcome, lines } = solveWithProof(model, { seed, budget: 20_000_000 });
    expect(checkProof(model, lines), `seed ${seed}`).toMatchObject({
      isAccepted: true,
      shows: outcome.status,
    });
  }
});
