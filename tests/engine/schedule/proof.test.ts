import { describe, expect, test } from 'vitest';
import {
  checkProof,
  constantLag,
  readJobShop,
  readSch,
  solveWithProof,
  type Assignment,
  type Model,
} from '../../../src/engine/schedule/index.ts';
import { plainModel } from '../../../src/engine/schedule/plain-model.ts';
import { allSolutions } from './explanations.ts';
import { FT06 } from './published-shops.ts';
import { randomFrom, tinyMachines, tinyModel } from './tiny-models.ts';

const TINY = 600;
const BUDGET = 20_000_000;

/** A random project of the size of the J10 sets: ten activities, five resources, minimum and maximum lags. */
function tenActivities(seed: number): string {
  const random = randomFrom(seed);
  const n = 10;
  const rows = Array.from({ length: n + 2 }, (): [number, number][] => []);
  const duration = Array.from({ length: n + 2 }, (_, i) => (i === 0 || i === n + 1 ? 0 : 1 + random(10)));
  for (let i = 1; i <= n; i++) {
    rows[0].push([i, 0]);
    rows[i].push([n + 1, duration[i]]);
    for (let j = i + 1; j <= n; j++) {
      if (random(4) > 0) continue;
      const gap = random(8);
      rows[i].push([j, gap]);
      if (random(2) === 0) rows[j].push([i, -gap - 4 - random(14)]);
    }
  }
  const uses = duration.map((d) =>
    Array.from({ length: 5 }, () => (d === 0 || random(3) === 0 ? 0 : 1 + random(6))),
  );
  return [
    `${n} 5 0 0`,
    ...rows.map(
      (row, i) =>
        `${i} 1 ${row.length} ${row.map(([j]) => j).join(' ')} ${row.map(([, gap]) => `[${gap}]`).join(' ')}`,
    ),
    ...uses.map((use, i) => `${i} 1 ${duration[i]} ${use.join(' ')}`),
    '8 8 8 8 8',
  ].join('\n');
}

const proofOf = (model: Model) => solveWithProof(model, { seed: 1, budget: BUDGET });

describe('a proof that nothing better exists', () => {
  test(`is accepted for each of ${TINY} tiny problems with every feature and as many of machines, and shows what the solver says`, () => {
    for (let seed = 1; seed <= TINY; seed++)
      for (const model of [tinyModel(seed), tinyMachines(seed)]) {
        const { outcome, lines } = proofOf(model);
        const verdict = checkProof(model, lines);
        expect(verdict, `seed ${seed}`).toMatchObject({ isAccepted: true, shows: outcome.status });
      }
  });

  test('is accepted for a shop of six jobs on six machines, whose published optimum is 55', () => {
    const model = readJobShop(FT06);
    const { lines } = proofOf(model);
    expect(checkProof(model, lines)).toMatchObject({ shows: 'optimal', values: [55], bounds: [55] });
  });

  test('is accepted for projects of ten activities with lags both ways, those without a schedule included', () => {
    const shown = new Map<string, number>();
    for (let seed = 1; seed <= 60; seed++) {
      const model = readSch(tenActivities(seed));
      const { outcome, lines } = proofOf(model);
      const verdict = checkProof(model, lines);
      expect(verdict, `seed ${seed}`).toMatchObject({ isAccepted: true, shows: outcome.status });
      shown.set(outcome.status, (shown.get(outcome.status) ?? 0) + 1);
    }
    // The generator must keep making both kinds.
    expect(shown.get('optimal')).toBeGreaterThan(5);
    expect(shown.get('infeasible')).toBeGreaterThan(5);
  });
});

describe('the checker refuses', () => {
  const model = readJobShop(FT06);
  const { lines } = proofOf(model);
  const isConclusive = (proof: readonly string[]): boolean => {
    const verdict = checkProof(model, proof);
    return verdict.isAccepted && verdict.shows === 'optimal';
  };
  const without = (proof: readonly string[], k: number): string[] => proof.filter((_, at) => at !== k);

  test('a proof from which a step that matters was dropped', () => {
    let core: readonly string[] = lines;
    for (let k = lines.length - 1; k > 0; k--) {
      const shorter = without(core, k);
      if (isConclusive(shorter)) core = shorter;
    }
    expect(isConclusive(core)).toBe(true);
    const steps = core.map((line) => line.split(' ')[0]);
    expect(steps).toContain('clause');
    expect(steps).toContain('order');
    core.forEach((line, k) => expect(isConclusive(without(core, k)), line).toBe(false));
  });

  test('a bound that is one too high, and the claim that there is no schedule', () => {
    const altered = lines.map((line) => line.replace('empty t0<=54', 'empty t0<=55'));
    expect(altered).not.toEqual(lines);
    expect(checkProof(model, altered)).toMatchObject({ isAccepted: false, text: 'empty t0<=55' });
    expect(checkProof(model, [...lines.slice(0, -1), 'empty'])).toMatchObject({ isAccepted: false });
  });

  test('a schedule in which two jobs are on one machine at once', () => {
    const at = lines.findIndex((line) => line.startsWith('best '));
    const altered = lines.map((line, k) => (k === at ? line.replace(/^best \d+ \d+/, 'best 0 0') : line));
    expect(checkProof(model, altered)).toMatchObject({ isAccepted: false, line: at + 1 });
  });

  test('a conclusion from energy in the wrong window', () => {
    const at = lines.findIndex((line) => line.startsWith('window '));
    const altered = lines.map((line, k) =>
      k === at ? line.replace(/^window -?\d+ -?\d+/, 'window 0 1') : line,
    );
    expect(at).toBeGreaterThan(0);
    expect(checkProof(model, altered)).toMatchObject({ isAccepted: false, line: at + 1 });
  });

  test('an order of two tasks that may run side by side, and words that are no step', () => {
    const pair = plainModel(
      [0, 1].map((k) => ({ name: `${k}`, earliest: 0, latest: 9 })),
      [],
      [
        {
          name: 'bench',
          capacity: Int32Array.of(0, 2),
          tasks: [0, 1].map((k) => ({ from: k, to: k, until: constantLag(3), amount: 1 })),
        },
      ],
    );
    const [heading] = lines;
    for (const line of [
      'order o0 0 0 1',
      'after 0 0 1',
      'clique 0 3 1 3',
      'clique 0 3 0 3',
      'clique 0 3 2 3',
      'clique 0 3 1',
      'clause s2>=0',
      'clause s0>=x',
      'trust me',
      'window 3',
    ])
      expect(checkProof(pair, [heading, line]), line).toMatchObject({ isAccepted: false, line: 2 });
    expect(checkProof(pair, ['clause s0>=0'])).toMatchObject({ isAccepted: false, line: 1 });
    expect(checkProof(pair, [heading, 'clause s0>=0'])).toMatchObject({ isAccepted: true, shows: 'unknown' });
  });

  test('every clause and window that some schedule breaks, whatever came before it', () => {
    let refused = 0;
    let accepted = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const tiny = tinyModel(seed);
      const solutions = allSolutions(tiny);
      const random = randomFrom(seed);
      const valueOf = ({ starts, choices }: Assignment, name: string): number =>
        name[0] === 's' ? starts[Number(name.slice(1))] : Number(choices[Number(name.slice(1))]);
      const names = [...tiny.starts.map((_, s) => `s${s}`), ...tiny.choices.map((_, c) => `c${c}`)];
      const proof = [lines[0]];
      for (let k = 0; k < 12; k++) {
        const clause = Array.from({ length: 1 + random(3) }, () => ({
          name: names[random(names.length)],
          isLeast: random(2) === 0,
          value: random(8) - 1,
        }));
        const text = clause
          .map(({ name, isLeast, value }) => `${name}${isLeast ? '>=' : '<='}${value}`)
          .join(' ');
        const a = random(6);
        const line = random(2) === 0 ? `clause ${text}` : `window ${a} ${a + 1 + random(5)} ${text}`;
        const broken = solutions.some((solution) =>
          clause.every(({ name, isLeast, value }) =>
            isLeast ? valueOf(solution, name) < value : valueOf(solution, name) > value,
          ),
        );
        const verdict = checkProof(tiny, [...proof, line]);
        if (verdict.isAccepted) {
          accepted++;
          expect(broken, `seed ${seed}: ${line}`).toBe(false);
          proof.push(line);
        } else refused++;
      }
    }
    expect(accepted).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(500);
  });
});
