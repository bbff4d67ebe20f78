import { describe, expect, test } from 'vitest';
import { readWords, type Command } from '../../src/cli/command.ts';

const command: Command = {
  name: 'pour',
  summary: '',
  operands: [
    { name: 'FILE', about: 'the shop file' },
    { name: 'PIECE', about: 'a piece', optional: true },
  ],
  options: { seed: { value: 'N', about: 'a number' }, json: { about: 'prints json' } },
  more: [],
  run: () => 0,
};

describe('the words of a command', () => {
  test('options may stand before, between and after the operands', () => {
    const given = readWords(command, ['--seed', '4', 'a.json', '--json', 'oak']);
    expect([given.operand('FILE'), given.optionalOperand('PIECE')]).toEqual(['a.json', 'oak']);
    expect([given.value('seed'), given.has('json')]).toEqual(['4', true]);
  });

  test('a value may be joined with an equals sign, and what was not given is not there', () => {
    const given = readWords(command, ['a.json', '--seed=4']);
    expect([given.value('seed'), given.has('json'), given.optionalOperand('PIECE')]).toEqual([
      '4',
      false,
      undefined,
    ]);
  });

  test('after a lone -- everything is an operand, and - is one anywhere', () => {
    expect(readWords(command, ['--', '--json']).operand('FILE')).toBe('--json');
    expect(readWords(command, ['-']).operand('FILE')).toBe('-');
  });

  test.each([
    [['a.json', '--jsn'], '--jsn is not an option of "pour"; it takes --seed, --json, --help'],
    [['a.json', '-x'], '-x is not an option'],
    [['a.json', '--constructor'], '--constructor is not an option'],
    [['a.json', '--seed'], '--seed needs a value: --seed N'],
    [['--seed', '--json', 'a.json'], '--seed needs a value'],
    [['a.json', '--json=yes'], '--json takes no value, found "yes"'],
    [['a.json', '--seed', '1', '--seed', '2'], '--seed is given twice'],
    [['--json'], 'FILE is missing: the shop file'],
    [['a.json', 'oak', 'tray'], '"tray" is one word too many'],
  ])('%j is refused: %s', (words, message) => {
    expect(() => readWords(command, words)).toThrow(message);
  });
});
