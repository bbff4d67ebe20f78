import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { readJobShop, verify, type Model } from '../../../src/engine/schedule/index.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import { ProjectLists } from '../../../src/engine/schedule/project-lists.ts';
import { asProject } from '../../../src/engine/schedule/project.ts';
import { eightActivities } from './eight-activities.ts';
import { FT06 } from './published-shops.ts';

const faults = (model: Model, starts: Int32Array): readonly string[] =>
  verify(model, { starts: [...starts], choices: [] });

test('a schedule placed backward and forward keeps every rule and is no longer; many get shorter', () => {
  let found = 0;
  let shorter = 0;
  // Even seeds: capacities that do not vary, so that time can be turned.
  for (let seed = 2; seed <= 300; seed += 2) {
    const model = eightActivities(seed);
    const project = asProject(model)!;
    const lists = new ProjectLists(project);
    if (!lists.isSound) continue;
    lists.byDue(1 + (seed % 5), new Chance(seed));
    const list = lists.placed(NEVER);
    if (list === null) continue;
    found++;
    expect(faults(model, list), `seed ${seed}`).toEqual([]);
    const justified = lists.justified(list);
    expect(faults(model, justified), `seed ${seed}`).toEqual([]);
    expect(justified[project.end], `seed ${seed}`).toBeLessThanOrEqual(list[project.end]);
    if (justified[project.end] < list[project.end]) shorter++;
  }
  expect(found).toBeGreaterThan(75);
  expect(shorter).toBeGreaterThan(found / 5);
});

test('where only least lags bind, a list between a schedule and itself is that schedule, nothing later', () => {
  const project = asProject(readJobShop(FT06))!;
  const lists = new ProjectLists(project);
  for (let seed = 1; seed <= 20; seed++) {
    lists.byDue(3, new Chance(seed));
    const list = lists.placed(NEVER)!;
    lists.between(list, list, 0.4);
    const again = lists.placed(NEVER)!;
    list.forEach((start, i) => expect(again[i], `seed ${seed}`).toBeLessThanOrEqual(start));
  }
});

test('a list between two schedules takes from one at its share 0 and from the other at 1', () => {
  const project = asProject(readJobShop(FT06))!;
  const lists = new ProjectLists(project);
  const listOf = (seed: number): Int32Array => {
    lists.byDue(9, new Chance(seed));
    return lists.placed(NEVER)!;
  };
  const [one, other] = [listOf(1), listOf(2)];
  expect([...one]).not.toEqual([...other]);
  const at = (share: number): number[] => {
    lists.between(one, other, share);
    return [...lists.placed(NEVER)!];
  };
  const nearest = (to: Int32Array, start: readonly number[]): number =>
    start.reduce((sum, time, i) => sum + Math.abs(time - to[i]), 0);
  expect(nearest(one, at(0))).toBeLessThan(nearest(one, at(1)));
  expect(nearest(other, at(1))).toBeLessThan(nearest(other, at(0)));
});

test('a shaken list is another, and keeps most of the order of the schedule that it comes from', () => {
  const project = asProject(readJobShop(FT06))!;
  const lists = new ProjectLists(project);
  const chance = new Chance(4);
  lists.byDue(5, chance);
  const start = lists.placed(NEVER)!;
  let changed = 0;
  for (let round = 0; round < 100; round++) {
    lists.shaken(start, chance);
    const next = lists.placed(NEVER)!;
    let pairs = 0;
    let turned = 0;
    for (let i = 0; i < start.length; i++)
      for (let j = 0; j < start.length; j++) {
        if (start[i] >= start[j]) continue;
        pairs++;
        if (next[i] > next[j]) turned++;
      }
    expect(turned, `round ${round}`).toBeLessThan(pairs / 20);
    if (turned > 0) changed++;
  }
  expect(changed).toBeGreaterThan(20);
});

test('no list is placed that ends behind the limit, and none that the lags forbid', () => {
  let refused = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const model = eightActivities(seed);
    const project = asProject(model)!;
    const lists = new ProjectLists(project);
    if (!lists.isSound) continue;
    for (const isContracted of [false, true]) {
      lists.isContracted = isContracted;
      lists.byDue(0, new Chance(seed));
      const free = lists.placed(NEVER);
      if (free === null) continue;
      expect(faults(model, free), `seed ${seed}`).toEqual([]);
      const limit = free[project.end] - 1;
      lists.byDue(0, new Chance(seed));
      const held = lists.placed(limit);
      if (held === null) refused++;
      else expect(held[project.end], `seed ${seed}`).toBeLessThanOrEqual(limit);
      expect(free[project.end]).toBeGreaterThanOrEqual(lists.leastEnd);
    }
  }
  expect(refused).toBeGreaterThan(50);
});
