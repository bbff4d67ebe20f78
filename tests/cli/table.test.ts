import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fill, table } from '../../src/cli/table.ts';

describe('columns of text', () => {
  test('stand under each other, and a column without any text takes no room', () => {
    const rows = [
      ['07:30', 'Oak tray', '', '5 min'],
      ['11:05', 'Ash', '', '1 h'],
    ];
    expect(table(rows, { columns: [{}, {}, {}, { align: 'right' }], width: 80 })).toEqual([
      '07:30  Oak tray  5 min',
      '11:05  Ash         1 h',
    ]);
  });

  test('are folded at words when the line would be too long', () => {
    const rows = [['07:30', 'mix for layer 2 and bring the torch']];
    expect(table(rows, { columns: [{}, { wraps: true }], width: 25, indent: '  ' })).toEqual([
      '  07:30  mix for layer 2',
      '         and bring the',
      '         torch',
    ]);
  });

  test('never run over the width while folding can prevent it', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'b', ' ', '-'), maxLength: 60 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(cell, cell, cell), { maxLength: 5 }),
        fc.integer({ min: 40, max: 100 }),
        (rows, width) => {
          const columns = [{ wraps: true }, { wraps: true }, { wraps: true }];
          for (const line of table(rows, { columns, width, indent: '  ' }))
            expect(line.length).toBeLessThanOrEqual(width);
        },
      ),
      { seed: 3 },
    );
  });

  test('folding loses no word and cuts only what is too long', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(
        fc.array(word, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 8, max: 40 }),
        (words, width) => {
          const lines = fill(words.join(' '), width, '', '  ');
          expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
          if (words.every((each) => each.length <= width - 2))
            expect(lines.join(' ').split(/\s+/)).toEqual(words);
        },
      ),
      { seed: 3 },
    );
  });
});
