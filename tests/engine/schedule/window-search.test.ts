import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { readJobShop, verify } from '../../../src/engine/schedule/index.ts';
import { asProject } from '../../../src/engine/schedule/project.ts';
import { ProjectSearch } from '../../../src/engine/schedule/project-search.ts';
import { WindowSearch } from '../../../src/engine/schedule/window-search.ts';
import { fortyActivities } from './forty-activities.ts';
import { FT06 } from './published-shops.ts';

const never = (): boolean => false;
/** Ends a search that does not end by itself. */
const PLENTY = 5_000_000;

test('windows solved anew keep every rule and make no schedule longer; most get shorter', () => {
  let begun = 0;
  let shorter = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const model = fortyActivities(seed);
    const project = asProject(model)!;
    const first = new ProjectSearch(project, seed).assignment();
    if (first === null) continue;
    begun++;
    const windows = new WindowSearch(project, new Chance(seed));
    let starts = Int32Array.from(first.starts);
    for (let turn = 1; turn <= 8; turn++) {
      const next = windows.run(starts, turn * 10_000, 0, never);
      expect(verify(model, { starts: [...next], choices: [] }), `seed ${seed}`).toEqual([]);
      expect(next[project.end], `seed ${seed}`).toBeLessThanOrEqual(starts[project.end]);
      starts = Int32Array.from(next);
    }
    if (starts[project.end] < first.starts[project.end]) shorter++;
  }
  expect(begun).toBeGreaterThan(30);
  expect(shorter).toBeGreaterThan(begun / 2);
});

test('the same seed and work lead to the same schedule', () => {
  const project = asProject(fortyActivities(3))!;
  const first = Int32Array.from(new ProjectSearch(project, 3).assignment()!.starts);
  const run = (): number[] => [...new WindowSearch(project, new Chance(5)).run(first, 40_000, 0, never)];
  expect(run()).toEqual(run());
});

test('it ends at the goal, and when it is told to stop', () => {
  const project = asProject(fortyActivities(3))!;
  const first = Int32Array.from(new ProjectSearch(project, 3).assignment()!.starts);
  const windows = new WindowSearch(project, new Chance(5));
  expect(windows.run(first, 40_000, first[project.end], never)).toBe(first);
  expect(windows.run(first, 40_000, 0, () => true)).toBe(first);
  expect(windows.work).toBe(0);
});

test('a schedule that cannot be shorter is barren after two rounds of windows; another one begins a first round', () => {
  const project = asProject(readJobShop(FT06))!;
  const search = new ProjectSearch(project, 1);
  search.run(search.work + 300_000, 55, never);
  const best = Int32Array.from(search.assignment()!.starts);
  // Fisher, Thompson 1963: no schedule is shorter than 55.
  expect(best[project.end]).toBe(55);
  const windows = new WindowSearch(project, new Chance(5));
  const last = windows.run(best, PLENTY, 0, never);
  expect(last[project.end]).toBe(55);
  expect(windows.isBarren).toBe(true);
  const { work } = windows;
  expect(windows.run(last, PLENTY, 0, never)).toBe(last);
  expect(windows.work).toBe(work);
  windows.forget();
  windows.run(last, PLENTY, 0, never);
  expect(windows.work).toBeGreaterThan(work);
});
