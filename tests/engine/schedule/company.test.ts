import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { Company } from '../../../src/engine/schedule/company.ts';
import type { Sequenced } from '../../../src/engine/schedule/machine-sequences.ts';

/** Ten nodes, of which the last `moved` have another before them than in every other schedule. */
function schedule(makespan: number, moved: number): Sequenced {
  const before = Int32Array.from({ length: 10 }, (_, u) =>
    u < 10 - moved ? u - 1 : 1000 * moved + makespan,
  );
  return { makespan, before, mode: new Int32Array(10), order: new Int32Array(10) };
}

const membersOf = (company: Company): Set<Sequenced> => {
  const chance = new Chance(1);
  return new Set(Array.from({ length: 100 }, () => company.pair(chance)).flat());
};

test('the company keeps the best few', () => {
  const company = new Company(3);
  expect(company.makespan).toBe(Infinity);
  const all = [50, 40, 60, 30, 70].map((makespan) => schedule(makespan, 5));
  for (const one of all) company.welcome(one);
  expect(company.isFull).toBe(true);
  expect(company.makespan).toBe(30);
  expect(membersOf(company)).toEqual(new Set([all[0], all[1], all[3]]));
  company.dissolve();
  expect(company.isFull).toBe(false);
});

test('of schedules that are alike the company keeps the best, and of equals the latest', () => {
  const company = new Company(3);
  const other = schedule(90, 5);
  const [good, worse, equal, better] = [50, 60, 50, 40].map((makespan) => schedule(makespan, 1));
  company.welcome(other);
  company.welcome(good);
  company.welcome(worse);
  expect(membersOf(company)).toEqual(new Set([other, good]));
  company.welcome(equal);
  expect(membersOf(company)).toEqual(new Set([other, equal]));
  company.welcome(better);
  expect(membersOf(company)).toEqual(new Set([other, better]));
});

test('a pair is always of two', () => {
  const company = new Company(3);
  for (const makespan of [1, 2, 3]) company.welcome(schedule(makespan, 5));
  const chance = new Chance(7);
  for (let k = 0; k < 200; k++) {
    const [one, two] = company.pair(chance);
    expect(one).not.toBe(two);
  }
});
