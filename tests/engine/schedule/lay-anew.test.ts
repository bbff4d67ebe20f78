import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { evaluate } from '../../../src/engine/schedule/evaluate.ts';
import { verify, type Model } from '../../../src/engine/schedule/index.ts';
import { LayAnew } from '../../../src/engine/schedule/lay-anew.ts';
import { PartMoves } from '../../../src/engine/schedule/part-moves.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { Placer } from '../../../src/engine/schedule/placer.ts';
import { workshop } from './workshop.ts';

function standing(model: Model, seed: number) {
  const parts = partsOf(model);
  const chance = new Chance(seed);
  const placer = new Placer(model, parts, chance);
  parts.forEach((_, p) => expect(placer.place(p)).toBe(true));
  let places = 0;
  const laying = new LayAnew(placer, parts, (p, wishes) => {
    places++;
    return placer.place(p, { ...wishes, isLate: chance.next() < 0.5 });
  });
  const moves = new PartMoves(parts, placer, chance, model.levels[0].costs);
  return { parts, placer, laying, moves, places: () => places };
}

test('a move leads to a plan that keeps every rule and costs what is counted, or leaves everything as it was', () => {
  const done = { reorder: 0, push: 0, undone: 0 };
  for (let seed = 1; seed <= 6; seed++) {
    const model = workshop(10, seed);
    const { placer, laying, moves } = standing(model, seed);
    for (let k = 0; k < 120; k++) {
      const kind = k % 2 === 0 ? 'reorder' : 'push';
      const before = [placer.assignment(), [...placer.tally.values]];
      // Any plan is good at some moves, only a better one at the others.
      const old = placer.tally.values[0];
      const isKept = (values: Float64Array): boolean => k % 3 === 0 || values[0] < old;
      if (laying.attempt(moves[kind](), isKept)) {
        done[kind]++;
        expect(isKept(placer.tally.values)).toBe(true);
      } else {
        done.undone++;
        expect([placer.assignment(), [...placer.tally.values]]).toEqual(before);
      }
      const plan = placer.assignment();
      expect(verify(model, plan)).toEqual([]);
      expect([...placer.tally.values]).toEqual(model.levels.map((level) => evaluate(level, plan)));
    }
  }
  expect(Math.min(done.reorder, done.push, done.undone)).toBeGreaterThan(20);
});

test('of those that may go back where they were, what still fits is not laid down anew', () => {
  let [back, pushed] = [0, 0];
  for (let seed = 1; seed <= 6; seed++) {
    const { parts, placer, laying, moves, places } = standing(workshop(10, seed), seed);
    for (let k = 0; k < 60; k++) {
      const move = moves.push();
      const old = placer.assignment().starts;
      const before = places();
      if (!laying.attempt(move, () => true)) continue;
      const others = move.order.slice(move.anew);
      const moved = others.filter((p) => parts[p].starts.some((s) => placer.least[s] !== old[s]));
      const anew = places() - before - move.anew!;
      expect(anew).toBeGreaterThanOrEqual(moved.length);
      back += others.length - anew;
      pushed += moved.length;
    }
  }
  expect(Math.min(back, pushed)).toBeGreaterThan(20);
});

test('a move whose parts cost too much even beside nothing but what stands is given up before any is laid down', () => {
  const { placer, laying, places } = standing(workshop(10, 2), 2);
  const order = [3, 5, 1];
  for (const p of order) placer.remove(p);
  const least = [...placer.tally.values];
  for (const p of order) {
    const own = new Float64Array(least.length);
    expect(placer.leastBeside(p, {}, own)).toBe(true);
    own.forEach((cost, k) => (least[k] += cost));
  }
  for (const p of order) expect(placer.place(p)).toBe(true);
  expect(least[0]).toBeGreaterThan(0);
  expect(laying.attempt({ order, wishes: {} }, (values) => values[0] < least[0])).toBe(false);
  expect(places()).toBe(0);
});

test('what is laid down by a move lies no later for what was known of it before', () => {
  let looked = 0;
  for (let seed = 1; seed <= 6; seed++) {
    const { parts, placer, laying, moves } = standing(workshop(10, seed), seed);
    for (let k = 0; k < 60; k++) {
      const { order } = moves.reorder();
      if (!laying.attempt({ order, wishes: {} }, () => true)) continue;
      const last = order[order.length - 1];
      const end = (): number => Math.max(...parts[last].starts.map((s) => placer.least[s]));
      const before = end();
      placer.remove(last);
      expect(placer.place(last, { isLate: true })).toBe(true);
      looked++;
      expect(end()).toBeGreaterThanOrEqual(before);
    }
  }
  expect(looked).toBeGreaterThan(100);
});
