import { describe, expect, it } from 'vitest';
import { parseShop } from '../../../src/engine/shop/index.ts';
import { exampleText } from './shop-edits.ts';

const faultsOf = (text: string): string[] => {
  const parsed = parseShop(text);
  return parsed.ok ? [] : parsed.faults.map(({ path, found, message }) => `${path}: ${found}: ${message}`);
};

describe('text that is no JSON', () => {
  it.each([
    [
      'a missing comma',
      '{\n  "format": "x"\n  "version": 1\n}',
      'line 3, column 3: "\\"version\\"": a comma must stand',
    ],
    [
      'a comma too many',
      '{\n  "version": 1,\n}',
      'line 3, column 1: "}": a key in double quotes must stand here',
    ],
    ['a key without quotes', '{\n  version: 1\n}', 'line 2, column 3: "version": no such word in JSON'],
    ['a missing colon', '{ "version" 1 }', 'line 1, column 13: "1": a colon must stand'],
    ['a comment', '{\n  // mine\n  "version": 1 }', 'line 2, column 3: "// mine": JSON has no comments'],
    ['text cut off', '{ "name": "Lark', 'line 1, column 11: "\\"Lark": the closing double quote is missing'],
    ['a list cut off', '[1, 2', 'line 1, column 6: the end of the file: a closing ] is missing'],
    ['something after the end', '{} {}', 'line 1, column 4: "{": nothing may stand after the end'],
    ['nothing', '  \n', 'line 1, column 1: an empty file: must hold { "format"'],
  ])('names the line and column of %s', (_title, text, told) => {
    expect(faultsOf(text)[0]).toContain(told);
  });

  it('has its slips named in every line that has one', () => {
    const lines = exampleText('evening-board').split('\n');
    lines[2] = lines[2].replace(',', '');
    lines[17] = lines[17].replace(',', '');
    expect(faultsOf(lines.join('\n')).map((told) => told.split(',')[0])).toEqual(['line 4', 'line 19']);
  });

  it('does not exhaust the reader however deep it is nested', () => {
    expect(faultsOf('['.repeat(200_000))).toHaveLength(1);
    expect(faultsOf('['.repeat(200_000) + ']'.repeat(200_000)).length).toBeGreaterThan(0);
    expect(faultsOf('{"a":'.repeat(100_000))).toHaveLength(1);
  });
});

describe('text that is JSON', () => {
  it('may begin with a byte order mark', () => {
    expect(faultsOf(`\uFEFF${exampleText('evening-board')}`)).toEqual([]);
  });

  it('may not give a key twice, for one of the two would be lost', () => {
    const text = exampleText('evening-board').replace('"zone":', '"zone": "Europe/Lisbon",\n  "zone":');
    expect(faultsOf(text)).toEqual([
      'zone: the key once more, in line 6, column 3: must be given only once; take one of the two out',
    ]);
  });
});
