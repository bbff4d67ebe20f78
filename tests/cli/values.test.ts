import { describe, expect, test } from 'vitest';
import { Refusal } from '../../src/cli/exit.ts';
import { readNow, readSize, readWhole } from '../../src/cli/values.ts';

describe('the size of a piece on the command line', () => {
  test.each([
    ['600x300', 600, 300],
    ['600 x 300', 600, 300],
    ['600x300mm', 600, 300],
    ['60x30cm', 600, 300],
    ['60,5x30cm', 605, 300],
    // The international inch is 25.4 mm exactly (NIST SP 811, B.8).
    ['24x12in', 609.6, 304.8],
    ['10in x 4.5in', 254, 114.3],
    ['24X12IN', 609.6, 304.8],
  ])('%s is read as %d mm by %d mm', (text, lengthMm, widthMm) => {
    expect(readSize(text)).toEqual({ lengthMm, widthMm });
  });

  test.each([
    '600',
    '600x',
    'x300',
    '600x300x20',
    '600*300',
    '-600x300',
    '600x300ft',
    '10cmx4in',
    '0x300',
    '60000x300',
  ])('%s is refused, and the message shows what would be right', (text) => {
    expect(() => readSize(text)).toThrow(Refusal);
    expect(() => readSize(text)).toThrow(`found "${text}"`);
  });
});

describe('the moment to plan from', () => {
  test.each(['2026-11-25T14:30', '2026-11-25T14:30Z', '2026-11-25T14:30:59+05:30', '2024-02-29T00:00'])(
    '%s is taken',
    (text) => {
      expect(readNow(text)).toBe(text);
    },
  );

  test.each([
    '',
    'now',
    '2026-11-25',
    '14:30',
    '2026-11-31T14:30',
    '2025-02-29T10:00',
    '2026-11-25T24:30',
    '2026-11-25 14:30',
    '2026-11-25T14:30+1',
  ])('"%s" is refused', (text) => {
    expect(() => readNow(text)).toThrow(Refusal);
  });

  test('left out, it is the whole minute of the real clock', () => {
    const before = Date.now();
    const now = readNow(undefined);
    expect(now).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}Z$/);
    expect(before - Date.parse(now)).toBeLessThan(120_000);
    expect(Date.parse(now)).toBeLessThanOrEqual(Date.now());
  });
});

describe('whole numbers', () => {
  const range = { least: 1, most: 100, fallback: 7 };

  test('are taken inside their range, and have a usual value', () => {
    expect([undefined, '1', '100'].map((text) => readWhole('seed', text, range))).toEqual([7, 1, 100]);
  });

  test.each(['0', '101', '-1', '1.5', '1e1', 'ten', '', '0x10', ' 5'])(
    '"%s" is refused with the range',
    (text) => {
      expect(() => readWhole('seed', text, range)).toThrow('needs a whole number from 1 to 100');
    },
  );
});
