import { expect, test } from 'vitest';
import {
  constantLag,
  nextOpen,
  type Lag,
  type Model,
  type Task,
} from '../../../src/engine/schedule/index.ts';
import {
  asProject,
  listArcs,
  mirroredArcs,
  opposedArcs,
  raiseAlong,
} from '../../../src/engine/schedule/project.ts';
import { NEVER } from '../../../src/engine/schedule/model.ts';
import { makespanModel } from '../../../src/engine/schedule/plain-model.ts';
import { randomFrom } from './tiny-models.ts';

const task = (start: number, length: number): Task => ({
  from: start,
  to: start,
  until: constantLag(length),
  amount: 1,
});
const lag = (from: number, to: number, gap: number, kind: Lag['kind'] = 'least'): Lag => ({
  from,
  to,
  kind,
  map: constantLag(gap),
});
/** Two activities, the end behind both, one shared thing. */
const plain = makespanModel(
  ['a', 'b', 'end'].map((name) => ({ name, earliest: 0, latest: 40 })),
  [lag(0, 2, 3), lag(1, 2, 4), lag(0, 1, 9, 'most')],
  [{ name: 'hands', capacity: Int32Array.of(0, 1), tasks: [task(0, 3), task(1, 4)] }],
  2,
);

test('a model of activities, constant lags and one end is a project', () => {
  const project = asProject(plain);
  expect(project).toMatchObject({ n: 3, end: 2, due: 0 });
  expect([...project!.length]).toEqual([3, 4, 0]);
});

test.each<[string, Partial<Model>]>([
  ['hours', { openings: [{ start: 0, allowed: Int32Array.of(0, 10) }] }],
  ['choices', { choices: ['long way'] }],
  ['things that keep apart', { exclusions: [{ name: 'dust', one: [task(0, 3)], other: [task(1, 4)] }] }],
  ['two levels', { levels: [...plain.levels, ...plain.levels] }],
  [
    'a lag that follows a calendar',
    { lags: [{ from: 0, to: 1, kind: 'least', map: nextOpen(Int32Array.of(5, 9)) }] },
  ],
  [
    'a thing held from one step to another',
    { resources: [{ ...plain.resources[0], tasks: [{ ...task(0, 3), to: 1 }] }] },
  ],
  [
    'an activity that takes longer on one thing than on another',
    { resources: [...plain.resources, { ...plain.resources[0], tasks: [task(0, 5)] }] },
  ],
  [
    'an objective that wants things late',
    { levels: [{ name: 'early', costs: [{ kind: 'early', start: 2, before: 9, weight: 1 }] }] },
  ],
])('a model with %s is none', (_, part) => {
  expect(asProject({ ...plain, ...part })).toBeNull();
});

test('backward in time the same lags hold, and the opposite arcs bound the same starts from above', () => {
  const random = randomFrom(11);
  for (let round = 0; round < 200; round++) {
    const n = 2 + random(6);
    const hidden = Array.from({ length: n }, () => random(30));
    const length = Int32Array.from({ length: n }, () => random(6));
    const count = random(3 * n);
    const from = Array.from({ length: count }, () => random(n));
    const to = Array.from({ length: count }, () => random(n));
    // The hidden schedule keeps them all, some tightly.
    const gap = from.map((i, k) => hidden[to[k]] - hidden[i] - random(3));
    const arcs = listArcs(n, from, to, gap);
    const project = { ...asProject(plain)!, n, length, arcs };
    const mirrored = mirroredArcs(project);
    const turned = Int32Array.from(hidden, (start, i) => -start - length[i]);
    const same = turned.slice();
    expect(raiseAlong(mirrored, same, NEVER)).toBe(true);
    expect(same).toEqual(turned);
    // Moved earlier by more than its slack, an activity breaks a lag forward if and only if it does so backward.
    const moved = random(n);
    const breaks = from.some(
      (i, k) => (to[k] === moved || i === moved) && i !== to[k] && at(i) + gap[k] > at(to[k]),
    );
    function at(i: number): number {
      return hidden[i] - (i === moved ? 2 : 0);
    }
    const after = Int32Array.from(hidden, (_, i) => -at(i) - length[i]);
    const raised = after.slice();
    raiseAlong(mirrored, raised, NEVER);
    expect(raised.some((value, i) => value !== after[i])).toBe(breaks);
    const least = Int32Array.from(hidden, (start) => -start);
    expect(raiseAlong(opposedArcs(n, arcs), least, NEVER)).toBe(true);
    expect(least).toEqual(Int32Array.from(hidden, (start) => -start));
  }
});

test('a circle of lags that gains has no schedule', () => {
  const arcs = listArcs(2, [0, 1], [1, 0], [5, -4]);
  expect(raiseAlong(arcs, Int32Array.of(0, 0), 1000)).toBe(false);
  expect(raiseAlong(listArcs(2, [0, 1], [1, 0], [5, -5]), Int32Array.of(0, 0), 1000)).toBe(true);
});
