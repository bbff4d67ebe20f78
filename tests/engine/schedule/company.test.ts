import { expect, test } from 'vitest';
import { Chance } from '../../../src/engine/schedule/chance.ts';
import { Company } from '../../../src/engine/schedule/company.ts';

/** Schedules of one kind are alike. */
interface Schedule {
  readonly makespan: number;
  readonly kind: string;
}

const newCompany = (): Company<Schedule> => new Company<Schedule>(3, (a, b) => a.kind === b.kind);

const membersOf = (company: Company<Schedule>): Set<Schedule> => {
  const chance = new Chance(1);
  return new Set(Array.from({ length: 100 }, () => company.pair(chance)).flat());
};

test('the company keeps the best few', () => {
  const company = newCompany();
  expect(company.makespan).toBe(Infinity);
  const all = [50, 40, 60, 30, 70].map((makespan) => ({ makespan, kind: `${makespan}` }));
  for (const one of all) company.welcome(one);
  expect(company.isFull).toBe(true);
  expect(company.makespan).toBe(30);
  expect(membersOf(company)).toEqual(new Set([all[0], all[1], all[3]]));
  company.dissolve();
  expect(company.isFull).toBe(false);
});

test('of schedules that are alike the company keeps the best, and of equals the latest', () => {
  const company = newCompany();
  const other = { makespan: 90, kind: 'other' };
  const [good, worse, equal, better] = [50, 60, 50, 40].map((makespan) => ({ makespan, kind: 'one' }));
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
  const company = newCompany();
  for (const makespan of [1, 2, 3]) company.welcome({ makespan, kind: `${makespan}` });
  const chance = new Chance(7);
  for (let k = 0; k < 200; k++) {
    const [one, two] = company.pair(chance);
    expect(one).not.toBe(two);
  }
});
