/** What a plan strives for, level by level, told from its own steps. */
import { describe, expect, it } from 'vitest';
import { checkPlan, planShop } from '../../../src/engine/index.ts';
import type { Plan, Shop } from '../../../src/engine/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';

const BUDGET = 300_000;
const plan = (shop: Shop, standing?: Plan): Plan =>
  planShop(shop, { now: NOW, seed: 1, budget: BUDGET, standing });
const level = (made: Plan, name: string) => made.levels.find((l) => l.name === name);
const startOf = (made: Plan, of: string, step: string): number =>
  Date.parse(made.steps.find((s) => s.piece === of && s.step === step)?.start ?? '') / 60_000;
const minuteOfNow = Date.parse(`${NOW}+01:00`) / 60_000;
const handsOn = (made: Plan) => made.steps.filter((s) => s.people.length > 0 && s.kind !== 'mix');

describe('a tool', () => {
  const both = (planers: number): Shop =>
    littleShop((file) => {
      file.people = [...file.people, { ...file.people[0], id: 'rook', name: 'Rook' }];
      file.tools = [{ id: 'planer', name: 'Planer', room: 'lean-to', count: planers }];
      const pins = [{ step: 'flatten', at: '2026-03-20T10:00' }];
      file.pieces = [piece('a', { pins }), piece('b', { pins })];
    });

  it('serves one piece at a time, however many hands there are', () => {
    const made = plan(both(1));
    expect(made.status).toBe('infeasible');
    expect(made.clash.join()).toContain('the tool is used for one piece at a time');
  });

  it('serves two when there are two of it', () => {
    const made = plan(both(2));
    expect(checkPlan(both(2), made)).toEqual([]);
    expect(startOf(made, 'a', 'flatten')).toBe(startOf(made, 'b', 'flatten'));
  });
});

describe('visits', () => {
  it('are the evenings on which someone with another job comes for anything', () => {
    const shop = littleShop((file) => {
      file.people[0].hours = [{ rule: 'FREQ=DAILY', from: '18:00', to: '22:00' }];
      file.pieces = [piece('a', { due: '2026-05-01' })];
    });
    const made = plan(shop);
    const evenings = new Set(handsOn(made).map((s) => s.start.slice(0, 10)));
    expect(evenings.size).toBeGreaterThan(1);
    expect(level(made, 'visits')?.value).toBe(evenings.size);
  });

  it('do not count for who is there all day, but hours that are not loved do, and are kept clear', () => {
    const shop = littleShop((file) => {
      file.people[0].unloved = [{ rule: 'FREQ=DAILY', from: '07:00', to: '09:00' }];
    });
    const made = plan(shop);
    expect(level(made, 'visits')).toMatchObject({ value: 0, proven: true });
    for (const { start } of handsOn(made)) expect(start.slice(11, 16) >= '09:00').toBe(true);
  });
});

describe('things free early', () => {
  it('are counted in minutes until the form is cleaned and the piece ready, and an hour a soiled cup', () => {
    const made = plan(littleShop());
    const waits = ['turnaround', 'ready'].map((step) => startOf(made, 'a', step) - minuteOfNow);
    // The slow resin is poured twice, a day and more apart: two cups. One pour of the fast resin has none to share.
    expect(level(made, 'early')?.value).toBe(waits[0] + waits[1] + 2 * 60);
  });
});

describe('a plan that stands', () => {
  it('is moved as little as can be before visits are saved or time is gained', () => {
    const shop = littleShop((file) => (file.pieces = [piece('a'), piece('b')]));
    const first = plan(shop);
    const again = plan(shop, first);
    expect(again.levels.map((l) => l.name)).toEqual(['tardiness', 'windows', 'moved', 'visits', 'early']);
    expect(level(again, 'moved')).toMatchObject({ value: 0, proven: true });
    expect(first.levels.map((l) => l.name)).toEqual(['tardiness', 'windows', 'visits', 'early']);
  });
});
