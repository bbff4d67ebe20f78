import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { evaluate, makeOracle, verify } from '../../../src/engine/schedule/index.ts';
import type { Assignment, Model } from '../../../src/engine/schedule/index.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { Placer } from '../../../src/engine/schedule/placer.ts';
import { bruteForce, tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

/** All parts laid down one after the other at their earliest, and then each once more as late as can be at the same cost; null: no way was found. */
function bothWays(model: Model): { readonly early: Assignment; readonly late: Assignment } | null {
  const parts = partsOf(model);
  const placer = new Placer(model, parts, new Chance(1));
  if (placer.isHopeless || !parts.every((_, p) => placer.place(p))) return null;
  const early = placer.assignment();
  const sameWayButLate = { isLate: true, prefer: Int8Array.from(early.choices, Number), isStrict: true };
  for (let p = parts.length - 1; p >= 0; p--) {
    const old = placer.remove(p);
    if (!placer.place(p, sameWayButLate)) placer.restore(old);
  }
  return { early, late: placer.assignment() };
}

const valuesOf = (model: Model, assignment: Assignment): number[] =>
  model.levels.map((level) => evaluate(level, assignment));

test('what is laid down late keeps every rule and costs no more than early', () => {
  let later = 0;
  let tried = 0;
  const models = [
    ...Array.from({ length: 400 }, (_, k) => tinyModel(k + 1)).filter((model) => bruteForce(model) !== null),
    ...Array.from({ length: 12 }, (_, k) => workshop(10, k + 1)),
  ];
  for (const model of models) {
    const ways = bothWays(model);
    if (ways === null) continue;
    tried++;
    expect(verify(model, ways.late)).toEqual([]);
    const [early, late] = [valuesOf(model, ways.early), valuesOf(model, ways.late)];
    late.forEach((value, k) => expect(value).toBeLessThanOrEqual(early[k]));
    if (ways.late.starts.some((at, s) => at > ways.early.starts[s])) later++;
  }
  expect(tried).toBeGreaterThan(150);
  expect(later).toBeGreaterThan(50);
});

test('the last part laid down late has no start that alone could be later at the same cost', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const model = workshop(10, seed);
    const { late } = bothWays(model)!;
    const values = valuesOf(model, late);
    const oracle = makeOracle(model, late);
    for (const start of partsOf(model)[0].starts) {
      const legal = oracle.legalStarts(start);
      const at = late.starts[start];
      for (let k = 0; k < legal.length; k += 2)
        for (const other of [Math.max(legal[k], at + 1), legal[k + 1] - 1]) {
          if (other <= at || other >= legal[k + 1]) continue;
          const moved = { ...late, starts: late.starts.map((time, s) => (s === start ? other : time)) };
          expect(verify(model, moved)).toEqual([]);
          expect(valuesOf(model, moved), `seed ${seed}, start ${start} at ${other}`).not.toEqual(values);
        }
    }
  }
});
