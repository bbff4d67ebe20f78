/** The program: finds the command, reads its words, runs it, and turns whatever goes wrong into a message and a code. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as v from 'valibot';
import { PACKAGE_ROOT } from './app.ts';
import { readWords } from './command.ts';
import { COMMANDS } from './commands/index.ts';
import { EXIT, Refusal, type ExitCode } from './exit.ts';
import { programHelp, commandHelp } from './help-page.ts';
import { processTerminal, type Terminal } from './terminal.ts';

/** Runs `pourwright` with the words after its name. Returns the exit code; see exit.ts. Never throws. */
export async function main(words: readonly string[]): Promise<ExitCode> {
  const terminal = processTerminal();
  try {
    return await dispatch(words, terminal);
  } catch (fault) {
    if (fault instanceof Refusal) {
      terminal.say(`pourwright: ${fault.message}\n`);
      return fault.exitCode;
    }
    const what = fault instanceof Error ? fault.message : String(fault);
    terminal.say(
      `pourwright: ${what}\nThis is a fault of the program, not of your file. Please report it.\n`,
    );
    if (process.env.POURWRIGHT_TRACE !== undefined && fault instanceof Error)
      terminal.say(`${fault.stack}\n`);
    return EXIT.ownFault;
  }
}

async function dispatch(words: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [name, ...rest] = words;
  if (name === undefined) {
    terminal.say(programHelp(COMMANDS));
    return EXIT.badInput;
  }
  if (name === '--help' || name === '-h') {
    terminal.print(programHelp(COMMANDS));
    return EXIT.fine;
  }
  if (name === '--version') {
    terminal.print(`pourwright ${version()}\n`);
    return EXIT.fine;
  }
  const command = COMMANDS.find((known) => known.name === name);
  if (command === undefined) {
    const names = COMMANDS.map((known) => known.name).join(', ');
    throw new Refusal(`"${name}" is not a command; the commands are ${names}`);
  }
  const cut = rest.indexOf('--');
  const own = cut < 0 ? rest : rest.slice(0, cut);
  if (own.includes('--help') || own.includes('-h')) {
    terminal.print(commandHelp(command));
    return EXIT.fine;
  }
  return command.run(readWords(command, rest), terminal);
}

function version(): string {
  const text = readFileSync(join(PACKAGE_ROOT, 'package.json'), 'utf8');
  return v.parse(v.object({ version: v.string() }), JSON.parse(text)).version;
}
