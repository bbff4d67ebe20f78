import * as fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { shopSchema } from '../../../src/engine/shop/schema/shop.ts';
import { shapeFaults } from '../../../src/engine/shop/shape.ts';
import { exampleText } from './shop-edits.ts';

const OPTIONS = { seed: 20261125, numRuns: 400 };

/** Every object and list inside a value, itself among them. */
const holdersIn = (value: unknown): object[] =>
  typeof value === 'object' && value !== null ? [value, ...Object.values(value).flatMap(holdersIn)] : [];

describe('the walk that names every fault of shape', () => {
  it('finds the same in a file that the schema takes, told so or not, and a fault in each that it refuses', () => {
    const seen = { taken: 0, refused: 0 };
    fc.assert(
      fc.property(
        fc.nat(),
        fc.nat(),
        fc.constantFrom('left out', 'added', 'replaced'),
        fc.jsonValue(),
        (where, which, what, strange) => {
          const file: unknown = JSON.parse(exampleText('market-week'));
          const holders = holdersIn(file);
          const holder = holders[where % holders.length] as Record<string, unknown>;
          const keys = Object.keys(holder);
          const key = keys[which % Math.max(1, keys.length)];
          if (what === 'added' && !Array.isArray(holder)) holder.strange = strange;
          else if (key !== undefined && what === 'replaced') holder[key] = strange;
          else if (key !== undefined && !Array.isArray(holder)) delete holder[key];
          const isTaken = v.is(shopSchema, file);
          seen[isTaken ? 'taken' : 'refused']++;
          const faults = shapeFaults(shopSchema, file, false);
          if (isTaken) expect(shapeFaults(shopSchema, file, true)).toEqual(faults);
          else expect(faults).not.toEqual([]);
        },
      ),
      OPTIONS,
    );
    expect(seen.taken).toBeGreaterThan(20);
    expect(seen.refused).toBeGreaterThan(20);
  });

  it('finds a list in place of an object, which the schema lets pass where every key may be left out', () => {
    const file: unknown = { ...JSON.parse(exampleText('market-week')), mixing: [] };
    expect(v.is(shopSchema, file)).toBe(true);
    expect(shapeFaults(shopSchema, file, true).map(({ path }) => path)).toEqual(['mixing']);
  });
});
