/** Every command of the program, in the order in which help lists them. */
import type { Command } from '../command.ts';
import { EXIT, Refusal } from '../exit.ts';
import { commandHelp, programHelp } from '../help-page.ts';
import { check } from './check.ts';
import { mix } from './mix.ts';
import { plan } from './plan.ts';
import { promise } from './promise.ts';
import { serve } from './serve.ts';
import { split } from './split.ts';
import { why } from './why.ts';

const help: Command = {
  name: 'help',
  summary: 'explains the program, or one command of it',
  operands: [{ name: 'COMMAND', about: 'the command to explain; left out, all of them', optional: true }],
  options: {},
  more: [],
  run(given, terminal) {
    const name = given.optionalOperand('COMMAND');
    const command = COMMANDS.find((known) => known.name === name);
    if (name !== undefined && command === undefined) {
      const names = COMMANDS.map((known) => known.name).join(', ');
      throw new Refusal(`"${name}" is not a command; the commands are ${names}`);
    }
    terminal.print(command === undefined ? programHelp(COMMANDS) : commandHelp(command));
    return EXIT.fine;
  },
};

export const COMMANDS: readonly Command[] = [plan, mix, check, why, promise, split, serve, help];
