/** Hours in which a step can never be done: told with whose they are, how long the step is, and what would be right. */
import { expect, test } from 'vitest';
import { parseShop, planShop, promise } from '../../../src/engine/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { shopText } from '../../ui/small-shop.ts';

interface File {
  people: { id: string; name: string; hours: { rule: string; from: string; to: string }[] }[];
  recipes: { prepare: { work: object }; demold: { work: object } }[];
}

const clashOf = (change: (file: File) => void): readonly string[] => {
  const file = JSON.parse(shopText) as File;
  change(file);
  const read = parseShop(JSON.stringify(file));
  if (!read.ok) throw new Error(read.faults[0].message);
  const made = planShop(read.shop, { now: '2026-11-25T14:30', seed: 1, budget: 15_000 });
  expect(made.status).toBe('infeasible');
  return made.clash;
};
const daily = (from: string, to: string, days = 'FREQ=DAILY') => [{ rule: days, from, to }];
const bo = (from: string, to: string) => ({ id: 'bo', name: 'Bo', hours: daily(from, to) });

test('a step that is longer than anyone is there in one go', () => {
  const clash = clashOf((file) => {
    file.people[0].hours = daily('08:00', '08:30');
    file.people.push(bo('09:00', '09:40'));
  });
  expect(clash).toEqual([
    'Wren, Robin - cleaning the form takes 45 min at a stretch, and of those who can do it Bo is there for 40 min at most and no one longer; ' +
      'right would be longer hours, less work at a time, or someone else who can do it',
  ]);
});

test('what is mixed and laid on in one go is one stretch', () => {
  const clash = clashOf((file) => (file.people[0].hours = daily('08:00', '08:04')));
  expect(clash.join('\n')).toMatch(
    /brushing on the seal with its mixing takes \d+ min at a stretch, and Ada is there for 4 min at most/,
  );
});

test('work in parts for which there are not hours enough in all', () => {
  const clash = clashOf(
    (file) => (file.people[0].hours = daily('08:00', '15:00', 'FREQ=DAILY;UNTIL=20261125')),
  );
  expect(clash[0]).toMatch(
    /^Wren, Robin - preparing takes 1 h in all, and Ada is there for 30 min until \w+ \d+ \w+ \d+; right would be longer hours, less work/,
  );
});

test('who is away for months is waited for, by the plan and by a promise', () => {
  const shop = littleShop((file) => {
    file.pieces = [piece('a')];
    file.closures = [{ from: '2026-03-02T00:00', to: '2026-07-20T00:00' }];
  });
  const options = { now: NOW, seed: 1, budget: 50_000 };
  const standing = planShop(shop, options);
  expect(standing.pieces[0]?.ready).toMatch(/^2026-07-2/);
  const size = { lengthMm: 400, widthMm: 200 };
  const answer = promise(shop, { ...options, recipe: 'three-layer', size, standing });
  expect(answer.ok && answer.ready).toMatch(/^2026-07-2/);
});

test('two who are needed together and never are', () => {
  const clash = clashOf((file) => {
    file.recipes[0].prepare.work = { minutes: 60, hands: 2 };
    file.people.push(bo('21:00', '22:00'));
  });
  expect(clash).toEqual([
    'Wren, Robin - preparing takes 1 h in all, and Ada and Bo are never there together; ' +
      'right would be hours that they share, less work, or others who can do it',
  ]);
});

test('two who are needed together, and are for too short a time', () => {
  const clash = clashOf((file) => {
    file.recipes[0].demold.work = { minutes: 20, hands: 2 };
    file.people.push(bo('19:45', '22:00'));
  });
  expect(clash[0]).toContain(
    'demolding takes 20 min at a stretch, and Ada and Bo are there together for 15 min at most',
  );
});
