import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseShop, readShop } from '../../../src/engine/shop/index.ts';
import { edited, exampleText } from './shop-edits.ts';

const OPTIONS = { seed: 20261125, numRuns: 400 };

/** An answer that a person can use: a shop, or at least one fault and every fault complete. */
function expectAnswer(answer: ReturnType<typeof parseShop>): void {
  if (answer.ok) return;
  expect(answer.faults.length).toBeGreaterThan(0);
  for (const { path, found, message } of answer.faults) {
    expect(path).not.toBe('');
    expect(found.length).toBeLessThan(200);
    expect(message).not.toMatch(/undefined|NaN|\[object|Invalid type|^$/);
  }
}

/** The path of every value in the market example. */
function pathsIn(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inside = Array.isArray(value)
    ? value.flatMap((each: unknown, k) => pathsIn(each, `${path}[${k}]`))
    : Object.entries(value).flatMap(([key, each]) => pathsIn(each, path === '' ? key : `${path}.${key}`));
  return path === '' ? inside : [path, ...inside];
}

const PATHS = pathsIn(edited({}));

const strangeValue = fc.oneof(
  fc.jsonValue(),
  fc.constantFrom(
    undefined,
    null,
    '',
    0,
    -1,
    1e308,
    1e-308,
    9_007_199_254_740_992,
    [],
    {},
    [[]],
    '2026-11-25',
  ),
  fc.constantFrom(
    '__proto__',
    'constructor',
    '24:00',
    'FREQ=YEARLY;BYEASTER=1',
    'FREQ=WEEKLY;INTERVAL=0',
    '9999-12-31',
  ),
  fc.integer({ min: -5, max: 600_000 }),
  fc.double(),
);

describe('any text at all', () => {
  it('is answered, never thrown at: arbitrary text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => expectAnswer(parseShop(text))),
      OPTIONS,
    );
  });

  it('is answered, never thrown at: arbitrary JSON', () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        const answer = parseShop(text);
        expect(answer.ok).toBe(false);
        expectAnswer(answer);
      }),
      OPTIONS,
    );
  });

  it('is answered, never thrown at: a sound file cut off or with a stretch taken out', () => {
    const text = exampleText('market-week');
    const place = fc.integer({ min: 0, max: text.length - 2 });
    fc.assert(
      fc.property(place, fc.integer({ min: 1, max: 40 }), (at, length) => {
        const cut = parseShop(text.slice(0, at));
        expect(cut.ok).toBe(false);
        expectAnswer(cut);
        expectAnswer(parseShop(text.slice(0, at) + text.slice(at + length)));
      }),
      OPTIONS,
    );
  });

  it('is answered, never thrown at: a sound file with any three values replaced by strange ones', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...PATHS), strangeValue), { minLength: 1, maxLength: 3 }),
        (edits) => {
          // Deepest first, so that an earlier edit does not take a later one's owner away.
          const sorted = [...edits].sort(([a], [b]) => b.length - a.length);
          expectAnswer(readShop(edited(Object.fromEntries(sorted))));
        },
      ),
      { ...OPTIONS, numRuns: 1500 },
    );
  });

  it('is answered, never thrown at: a sound file with a strange key in any object', () => {
    const owners = [
      'rooms[0]',
      'people[0].hours[0]',
      'forms[0].inside',
      'recipes[0].layers[0]',
      'pieces[0].size',
    ];
    const key = fc.oneof(
      fc.string().filter((text) => !/[.[\]]/.test(text) && text !== ''),
      fc.constantFrom('toString', 'constructor'),
    );
    fc.assert(
      fc.property(fc.constantFrom(...owners), key, strangeValue, (owner, name, value) => {
        fc.pre(value !== undefined && name !== '__proto__');
        const before = readShop(edited({}));
        const answer = readShop(edited({ [`${owner}.${name}`]: value }));
        expectAnswer(answer);
        if (answer.ok) expect(before.ok && Object.keys(before.shop)).toContain('rooms');
      }),
      OPTIONS,
    );
  });
});
