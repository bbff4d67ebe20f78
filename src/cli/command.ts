/**
 * What a command is, and how its words are read. `util.parseArgs` of Node cuts the words into tokens; the messages
 * are ours, because they name what the command would take instead.
 */
import { parseArgs } from 'node:util';
import { Refusal, type ExitCode } from './exit.ts';
import type { Terminal } from './terminal.ts';

export interface Operand {
  /** In capitals, as in the usage line. */
  readonly name: string;
  readonly about: string;
  readonly optional?: boolean;
}

export interface Option {
  /** What the option's value is called; left out for a plain yes. */
  readonly value?: string;
  readonly about: string;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  readonly operands: readonly Operand[];
  readonly options: Readonly<Record<string, Option>>;
  /** Further lines of its help page: examples, what is printed. */
  readonly more: readonly string[];
  run(given: Given, terminal: Terminal): ExitCode | Promise<ExitCode>;
}

/** The words of one call, sorted. */
export interface Given {
  /** The operand of that name. Only for operands the command declares and does not call optional. */
  operand(name: string): string;
  optionalOperand(name: string): string | undefined;
  has(option: string): boolean;
  value(option: string): string | undefined;
}

/** Sorts `words` into operands and options of `command`. @throws Refusal for anything the command does not take. */
export function readWords(command: Command, words: readonly string[]): Given {
  const { tokens } = parseArgs({
    args: [...words],
    options: Object.fromEntries(
      Object.entries(command.options).map(([name, { value }]) => [
        name,
        { type: value === undefined ? ('boolean' as const) : ('string' as const) },
      ]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const operands: string[] = [];
  const options = new Map<string, string | undefined>();
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    if (token.kind !== 'option') continue;
    const known = Object.hasOwn(command.options, token.name) ? command.options[token.name] : undefined;
    if (known === undefined) {
      const names = [...Object.keys(command.options).map((name) => `--${name}`), '--help'].join(', ');
      throw misuse(command, `${token.rawName} is not an option of "${command.name}"; it takes ${names}`);
    }
    if (options.has(token.name)) throw misuse(command, `${token.rawName} is given twice; once is enough`);
    if (known.value === undefined && token.value !== undefined) {
      throw misuse(command, `${token.rawName} takes no value, found "${token.value}"`);
    }
    const missing = token.value === undefined || (!token.inlineValue && /^-\D/.test(token.value));
    if (known.value !== undefined && missing) {
      throw misuse(
        command,
        `${token.rawName} needs a value: ${token.rawName} ${known.value} (${known.about})`,
      );
    }
    options.set(token.name, token.value);
  }
  const needed = command.operands.filter(({ optional }) => optional !== true);
  if (operands.length < needed.length) {
    const { name, about } = needed[operands.length];
    throw misuse(command, `${name} is missing: ${about}`);
  }
  if (operands.length > command.operands.length) {
    const extra = operands[command.operands.length];
    throw misuse(command, `"${extra}" is one word too many (a name with spaces goes in quotes)`);
  }
  const at = (name: string) => operands[command.operands.findIndex((operand) => operand.name === name)];
  return {
    operand: at,
    optionalOperand: at,
    has: (option) => options.has(option),
    value: (option) => options.get(option),
  };
}

export function usageLine(command: Command): string {
  const operands = command.operands.map(({ name, optional }) => (optional ? `[${name}]` : name));
  const options = Object.entries(command.options).map(([name, { value }]) =>
    value === undefined ? `[--${name}]` : `[--${name} ${value}]`,
  );
  return ['pourwright', command.name, ...operands, ...options].join(' ');
}

const misuse = (command: Command, what: string) =>
  new Refusal(`${what}\nusage: ${usageLine(command)}\nmore: pourwright ${command.name} --help`);
