import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import { PartMoves } from '../../../src/engine/schedule/part-moves.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { Placer } from '../../../src/engine/schedule/placer.ts';
import { workshop } from './workshop.ts';

/** A workshop's parts, all laid down, and the moves with them. */
const laidDown = () => {
  const model = workshop(8, 5);
  const parts = partsOf(model);
  const chance = new Chance(3);
  const placer = new Placer(model, parts, chance);
  parts.forEach((_, p) => expect(placer.place(p)).toBe(true));
  const moves = new PartMoves(parts, placer, chance, model.levels[0].costs);
  return { parts, placer, moves };
};

test('a move takes up one part or a few, each once, and lets at most one start of them wait', () => {
  const { parts, placer, moves } = laidDown();
  let waits = 0;
  for (let k = 0; k < 300; k++) {
    const { order, wishes } = moves.reorder();
    expect(new Set(order).size).toBe(order.length);
    expect(order.length).toBeGreaterThan(0);
    expect(order.length).toBeLessThanOrEqual(6);
    const waiting = [...(wishes.floor ?? [])].flatMap((time, s) => (time === -NEVER ? [] : [s]));
    expect(waiting.length).toBe(wishes.floor === undefined ? 0 : 1);
    for (const s of waiting) {
      expect(order.some((p) => parts[p].starts.includes(s))).toBe(true);
      expect(wishes.floor![s]).toBeGreaterThan(placer.least[s]);
      waits++;
    }
  }
  expect(waits).toBeGreaterThan(30);
});

test('a move that pushes lays one part or two anew, and has about them some that meet them, in the order of time', () => {
  const { parts, placer, moves } = laidDown();
  const begin = (p: number): number => Math.min(...parts[p].starts.map((s) => placer.least[s]));
  let pushed = 0;
  for (let k = 0; k < 300; k++) {
    const { order, anew } = moves.push();
    expect(new Set(order).size).toBe(order.length);
    expect([1, 2]).toContain(anew);
    const others = order.slice(anew);
    expect(others.map(begin)).toEqual(others.map(begin).sort((a, b) => a - b));
    pushed += others.length;
  }
  expect(pushed).toBeGreaterThan(600);
});

test('a move that goes home lays one part or two that have left it down first, no earlier than they stood', () => {
  const { parts, placer, moves } = laidDown();
  expect(moves.goHome()).toBeNull();
  const stood = placer.assignment();
  moves.stood(stood, 0);
  // Being late costs at this level, and some parts are.
  const share = new Float64Array(placer.tally.values.length);
  const isCostly = (p: number): boolean => {
    placer.tally.share(p, share);
    return share[0] > 0;
  };
  const costly = parts.map((_, p) => p).filter(isCostly);
  expect(costly.length).toBeGreaterThan(0);
  for (let k = 0; k < 100; k++) {
    const { order, anew, wishes } = moves.goHome()!;
    expect(costly).toContain(order[0]);
    expect([1, 2]).toContain(anew);
    expect(new Set(order).size).toBe(order.length);
    expect([...wishes.floor!]).toEqual(stood.starts);
    expect([...wishes.prefer!].map((value) => value === 1)).toEqual(stood.choices);
  }
});
