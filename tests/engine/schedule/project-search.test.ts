import { expect, test } from 'vitest';
import { readJobShop, solve, verify } from '../../../src/engine/schedule/index.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import { ProjectSearch } from '../../../src/engine/schedule/project-search.ts';
import { asProject } from '../../../src/engine/schedule/project.ts';
import { eightActivities } from './eight-activities.ts';
import { FT06 } from './published-shops.ts';

const never = (): boolean => false;

test('list schedules keep every rule, are never better than the proved best, and mostly reach it', () => {
  let found = 0;
  let reached = 0;
  for (let seed = 1; seed <= 300; seed++) {
    const model = eightActivities(seed);
    const outcome = solve(model, { seed, budget: 1_000_000 });
    const search = new ProjectSearch(asProject(model)!, seed);
    search.run(search.work + 20_000, 0, never);
    const assignment = search.assignment();
    if (outcome.status === 'infeasible') {
      expect(assignment).toBeNull();
      continue;
    }
    if (outcome.status !== 'optimal') throw new Error(`seed ${seed}: ${outcome.status}`);
    if (assignment === null) continue;
    expect(verify(model, assignment)).toEqual([]);
    expect(search.makespan).toBeGreaterThanOrEqual(outcome.levels[0].value);
    found++;
    if (search.makespan === outcome.levels[0].value) reached++;
  }
  expect(found).toBeGreaterThan(150);
  expect(reached).toBeGreaterThan((2 / 3) * found);
});

test('a published shop is scheduled at its published best', () => {
  const search = new ProjectSearch(asProject(readJobShop(FT06))!, 1);
  search.run(search.work + 300_000, 55, never);
  expect(search.makespan).toBe(55);
});

test('where nothing shorter is found, some of the work is left to others', () => {
  const search = new ProjectSearch(asProject(readJobShop(FT06))!, 1);
  search.run(search.work + 300_000, 55, never);
  const before = search.work;
  // Nothing is shorter than the published best.
  search.run(before + 300_000, 0, never);
  expect(search.work - before).toBeLessThan(300_000);
});

test('the same seed gives the same schedules, however the work is cut up', () => {
  const model = readJobShop(FT06);
  const whole = new ProjectSearch(asProject(model)!, 7);
  const again = new ProjectSearch(asProject(model)!, 7);
  whole.run(whole.work + 5_000, 0, never);
  again.run(again.work + 5_000, 0, never);
  expect(again.assignment()).toEqual(whole.assignment());
});

test('a project without any shared thing ends when its longest path does', () => {
  const model = { ...eightActivities(4), resources: [] };
  const search = new ProjectSearch(asProject(model)!, 1);
  search.run(1_000_000, 0, never);
  const outcome = solve(model, { seed: 1, budget: 100_000 });
  expect(outcome).toMatchObject({ status: 'optimal', levels: [{ value: search.makespan }] });
});

test('it does not matter when time begins: a project long before or after it is scheduled alike', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const model = eightActivities(2 * seed);
    const run = (shift: number): number[] | null => {
      const starts = model.starts.map(({ name, earliest, latest }) => ({
        name,
        earliest: earliest + shift,
        latest: latest + shift,
      }));
      const shifted = { ...model, starts };
      const search = new ProjectSearch(asProject(shifted)!, 1);
      search.run(search.work + 3_000, -NEVER, never);
      const assignment = search.assignment();
      if (assignment !== null) expect(verify(shifted, assignment)).toEqual([]);
      return assignment && assignment.starts.map((start) => start - shift);
    };
    const plain = run(0);
    expect(run(-1000)).toEqual(plain);
    expect(run(5000)).toEqual(plain);
  }
});
