/** What is typed into fields: measures, stretches of time, names, and where a fault is shown. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureText, shownNumber, storedNumber } from '../../../src/ui/fields/measure.ts';
import { idFor } from '../../../src/ui/fields/names.ts';
import { faultsAt, isUnder, joinPath, pathWords } from '../../../src/ui/fields/places.ts';
import { minutesTyped, typedMinutes } from '../../../src/ui/fields/time-typed.ts';

describe('measures', () => {
  test('an inch is 25.4 mm, a US fluid ounce 29.5735295625 mL (NIST Handbook 44, Appendix C)', () => {
    expect(storedNumber('1', 'length', 'us')).toBe(25.4);
    expect(storedNumber('100', 'volume', 'us')).toBe(2957.353);
    expect(storedNumber('32', 'warmth', 'us')).toBe(0);
    expect(storedNumber('212', 'warmth', 'us')).toBe(100);
    expect(storedNumber('9', 'warmer', 'us')).toBe(5);
    expect(storedNumber('1', 'area', 'us')).toBe(6.452);
  });

  test('what is shown and not touched is what was shown before', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20_000 }),
        fc.constantFrom('metric' as const, 'us' as const),
        (mm, units) => {
          const shown = shownNumber(mm, 'length', units);
          expect(shownNumber(storedNumber(shown, 'length', units), 'length', units)).toBe(shown);
        },
      ),
      { seed: 20261125 },
    );
  });

  test('what is no number is none, and a comma is a decimal point', () => {
    expect(storedNumber('12,5', 'length', 'metric')).toBe(12.5);
    expect(storedNumber('', 'length', 'metric')).toBeNaN();
    expect(storedNumber('12 mm', 'length', 'metric')).toBeNaN();
    expect(measureText(18.5, 'warmth', 'metric')).toBe('18.5 °C');
  });
});

describe('stretches of time', () => {
  test.each([
    ['90', 90],
    ['24 h', 1440],
    ['24h', 1440],
    ['1 h 30', 90],
    ['1h30min', 90],
    ['1:30', 90],
    ['1,5 h', 90],
    ['3 days', 4320],
    ['3 days 4', 3 * 1440 + 240],
    ['7d', 10_080],
    ['0', 0],
  ])('"%s" is %i minutes', (typed, minutes) => {
    expect(minutesTyped(typed)).toBe(minutes);
  });

  test.each(['', 'soon', '3 weeks', '-5', 'h'])('"%s" is no stretch of time', (typed) => {
    expect(minutesTyped(typed)).toBeNaN();
  });

  test('what is shown is read back as the same minutes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 527_040 }), (minutes) => {
        expect(minutesTyped(typedMinutes(minutes))).toBe(minutes);
      }),
      { seed: 20261125 },
    );
  });
});

describe('names for the file', () => {
  test('they are small letters, digits and hyphens, and never taken', () => {
    expect(idFor('Board form', [])).toBe('board-form');
    expect(idFor('Board form', ['board-form', 'board-form-2'])).toBe('board-form-3');
    expect(idFor('Zoë’s tray', [])).toBe('zoe-s-tray');
    expect(idFor('木', [], 'form')).toBe('form');
  });

  test('they always pass as an id of the shop file', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 400 }), (name) => {
        expect(idFor(name, ['entry', 'a'])).toMatch(/^[a-z0-9][a-z0-9-]{0,59}$/);
      }),
      { seed: 20261125 },
    );
  });
});

describe('where a fault is shown', () => {
  const fault = (path: string) => ({ path, found: '', message: '' });

  test('at its own field and at no other', () => {
    const faults = [fault('forms[1].inside.depthMm'), fault('forms[10].name')];
    expect(faultsAt(faults, joinPath('forms[1]', 'inside.depthMm'))).toEqual([faults[0]]);
    expect(faultsAt(faults, 'forms[1].inside')).toEqual([]);
    expect(isUnder(faults[0], 'forms[1]')).toBe(true);
    expect(isUnder(faults[1], 'forms[1]')).toBe(false);
    expect(joinPath('recipes[0]', '')).toBe('recipes[0]');
    expect(joinPath('recipes[0].layers', '[2]')).toBe('recipes[0].layers[2]');
  });

  test('a path is said as a person would find the place', () => {
    expect(pathWords('recipes[2].layers[0].depthMm', null)).toBe('recipe 3, layer 1, depth');
    expect(pathWords('rooms[0].temperature.pattern.nightLowDegC', null)).toBe(
      'room 1, temperature, pattern, night low',
    );
    expect(pathWords('zone', null)).toBe('zone');
  });
});
