import { describe, expect, it } from 'vitest';
import { readShop } from '../../../src/engine/shop/index.ts';
import { edited } from './shop-edits.ts';

/** The market shop as the version before the first release would have written it. */
const version0 = (): unknown =>
  edited({
    format: undefined,
    version: 0,
    'rooms[0].temperature': undefined,
    'rooms[0].temperatureC': { nightLow: 18.5, dayHigh: 21 },
    'rooms[1].temperature': undefined,
    'rooms[1].temperatureC': { nightLow: 7, dayHigh: 14 },
    'forms[0].count': undefined,
    'forms[0].quantity': 2,
  });

describe('a shop file of an older version', () => {
  it('gives the same shop as the present version of it', () => {
    const old = readShop(version0());
    const present = readShop(
      edited({ 'rooms[0].temperature': { pattern: { nightLowDegC: 18.5, dayHighDegC: 21 } } }),
    );
    expect(old.ok).toBe(true);
    expect(old).toEqual(present);
  });

  it('is left as it was', () => {
    const file = version0();
    readShop(file);
    expect(file).toEqual(version0());
  });

  it('still has its own faults named', () => {
    const file = edited({
      version: 0,
      format: undefined,
      'forms[0].count': undefined,
      'forms[0].quantity': 'two',
    });
    expect(readShop(file)).toEqual({
      ok: false,
      faults: [
        { path: 'forms[0].count', found: '"two"', message: expect.stringContaining('a number') as string },
      ],
    });
  });
});

describe('a shop file that is not for this release', () => {
  it('is refused when it is newer, and says what to do', () => {
    expect(readShop(edited({ version: 2, sparkle: true }))).toEqual({
      ok: false,
      faults: [
        { path: 'version', found: '2', message: expect.stringContaining('update the program') as string },
      ],
    });
  });

  it('is refused when it is some other kind of file', () => {
    const read = readShop({ format: 'pourwright.plan', version: 1 });
    expect(read).toEqual({
      ok: false,
      faults: [
        {
          path: 'format',
          found: '"pourwright.plan"',
          message: expect.stringContaining('some other kind') as string,
        },
      ],
    });
  });
});
