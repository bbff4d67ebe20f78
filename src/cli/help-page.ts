/** The help of the whole program, and of one command. */
import { usageLine, type Command } from './command.ts';
import { EXIT_WORDS } from './exit.ts';
import { fill, table } from './table.ts';

const WIDTH = 88;

export function programHelp(commands: readonly Command[]): string {
  return page([
    ['Pourwright plans a shop that pours layered resin-and-wood boards.'],
    ['usage: pourwright COMMAND ...    (npm run plan -- ..., npm run check -- ..., and so on)'],
    ['commands', ...rows(commands.map(({ name, summary }) => [name, summary]))],
    ['Each command has its own page: pourwright COMMAND --help'],
    exitCodes(),
  ]);
}

export function commandHelp(command: Command): string {
  const options = Object.entries(command.options).map(
    ([name, { value, about }]): readonly [string, string] => [
      value === undefined ? `--${name}` : `--${name} ${value}`,
      about,
    ],
  );
  return page([
    fill(`usage: ${usageLine(command)}`, WIDTH, '', ' '.repeat(8)),
    [command.summary],
    command.operands.length === 0 ? [] : rows(command.operands.map(({ name, about }) => [name, about])),
    ['options', ...rows([...options, ['--help', 'prints this page']])],
    command.more,
    exitCodes(),
  ]);
}

const exitCodes = () => ['exit codes', ...rows(EXIT_WORDS)];

const rows = (pairs: readonly (readonly [string, string])[]) =>
  table(pairs, { columns: [{}, { wraps: true }], width: WIDTH, indent: '  ' });

const page = (parts: readonly (readonly string[])[]) =>
  `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
