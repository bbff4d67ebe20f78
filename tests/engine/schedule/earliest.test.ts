import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { Earliest } from '../../../src/engine/schedule/earliest.ts';
import { constantLag, no, yes } from '../../../src/engine/schedule/index.ts';
import type { Model } from '../../../src/engine/schedule/index.ts';
import { partsOf } from '../../../src/engine/schedule/parts.ts';
import { Placer } from '../../../src/engine/schedule/placer.ts';
import { reachOfChoices } from '../../../src/engine/schedule/questions.ts';
import { usesOf } from '../../../src/engine/schedule/uses.ts';
import { randomFrom, tinyModel } from './tiny-models.ts';
import { workshop } from './workshop.ts';

const HORIZON = 60;

interface Person {
  readonly minutes: number;
  readonly comes: number;
  readonly goes: number;
  readonly busyUntil: number;
}

/** One step that any of some people may do, each at other hours, busy at first and with a pace of their own; and what follows it. */
const stepOf = (people: readonly Person[]): Model => ({
  starts: ['step', 'next'].map((name) => ({ name, earliest: 0, latest: HORIZON })),
  choices: people.map((_, k) => `by ${k}`),
  lags: people.map(({ minutes }, k) => ({
    from: 0,
    to: 1,
    kind: 'least',
    map: constantLag(minutes),
    when: [yes(k)],
  })),
  openings: people.map(({ comes, goes }, k) => ({
    start: 0,
    allowed: Int32Array.of(comes, goes),
    when: [yes(k)],
  })),
  clauses: [
    { literals: people.map((_, k) => yes(k)) },
    ...people.flatMap((_, a) => people.slice(0, a).map((__, b) => ({ literals: [no(a), no(b)] }))),
  ],
  resources: people.map(({ minutes, busyUntil }, k) => ({
    name: `hands ${k}`,
    capacity: Int32Array.of(0, busyUntil > 0 ? 0 : 1, Math.max(1, busyUntil), 1),
    tasks: [{ from: 0, to: 0, until: constantLag(minutes), amount: 1, when: [yes(k)] }],
  })),
  exclusions: [],
  levels: [],
  reasons: 0,
});

test('before it is said who does a step, it and what follows are as early as with whoever has them earliest', () => {
  let told = 0;
  for (let seed = 1; seed <= 500; seed++) {
    const random = randomFrom(seed);
    const people = Array.from({ length: 2 + random(2) }, (): Person => {
      const comes = random(25);
      return { minutes: 1 + random(12), comes, goes: comes + 1 + random(10), busyUntil: random(25) };
    });
    const beginnings = people.map(({ comes, goes, busyUntil }) => {
      const at = Math.max(comes, busyUntil);
      return at < goes ? at : Infinity;
    });
    const first = Math.min(...beginnings);
    const model = stepOf(people);
    const placer = new Placer(model, partsOf(model), new Chance(seed));
    expect(placer.isHopeless, `seed ${seed}`).toBe(first === Infinity);
    if (first === Infinity) continue;
    expect(placer.leastAlone(0), `seed ${seed}`).toBe(first);
    const next = Math.min(...beginnings.map((at, k) => at + people[k].minutes));
    expect(placer.leastAlone(1), `seed ${seed}`).toBe(next);
    if (next > first + Math.min(...people.map(({ minutes }) => minutes))) told++;
  }
  expect(told).toBeGreaterThan(50);
});

test('once the room is said in which people come at other hours, a step is as early as whoever comes there first', () => {
  for (let seed = 1; seed <= 100; seed++) {
    const random = randomFrom(seed);
    const rooms = 2;
    const people = 2 + random(2);
    const comes = Array.from({ length: rooms }, () => Array.from({ length: people }, () => random(HORIZON)));
    const by = (k: number): number => yes(rooms + k);
    const model: Model = {
      ...stepOf([]),
      choices: [...comes.map((_, room) => `room ${room}`), ...comes[0].map((_, k) => `by ${k}`)],
      openings: comes.flatMap((hours, room) =>
        hours.map((from, k) => ({
          start: 0,
          allowed: Int32Array.of(from, HORIZON + 1),
          when: [yes(room), by(k)],
        })),
      ),
      clauses: [
        { literals: [yes(0), yes(1)] },
        { literals: [no(0), no(1)] },
        { literals: comes[0].map((_, k) => by(k)) },
      ],
    };
    const times = new Earliest(model, partsOf(model), usesOf(model), reachOfChoices(model).wakes);
    const part = partsOf(model).findIndex(({ starts }) => starts.includes(0));
    expect(times.begin(part) && times.least[0], `seed ${seed}`).toBe(0);
    const room = random(rooms);
    expect(times.assign(yes(room)) && times.propagate(), `seed ${seed}`).toBe(true);
    expect(times.least[0], `seed ${seed}`).toBe(Math.min(...comes[room]));
  }
});

test('an answer is free when, and only when, all it leads to moves no start', () => {
  const seen = { free: 0, moving: 0 };
  const models = Array.from({ length: 500 }, (_, k) => tinyModel(k + 1)).concat(
    workshop(8, 1),
    workshop(8, 2),
  );
  for (const model of models) {
    const parts = partsOf(model);
    const times = new Earliest(model, parts, usesOf(model), reachOfChoices(model).wakes);
    parts.forEach(({ choices }, p) => {
      if (!times.begin(p)) return;
      const before = times.least.slice();
      const mark = times.mark();
      for (const c of choices.filter((each) => times.truth[each] < 0))
        for (const literal of [yes(c), no(c)]) {
          const isFree = times.assign(literal) && times.propagate(true);
          times.undoTo(mark);
          expect(times.least).toEqual(before);
          const isStill =
            times.assign(literal) && times.propagate() && times.least.every((t, s) => t === before[s]);
          times.undoTo(mark);
          expect(isFree).toBe(isStill);
          seen[isFree ? 'free' : 'moving']++;
        }
    });
  }
  expect(Math.min(seen.free, seen.moving)).toBeGreaterThan(100);
});
