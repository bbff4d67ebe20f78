/** Exit codes, and the one way for a command to give up: a `Refusal` with a message for the person at the keyboard. */

export const EXIT = {
  /** Done; for `check`: every rule holds. */
  fine: 0,
  /** `check`: a rule is broken. Otherwise: no plan can exist. */
  no: 1,
  /** The command line, or a file it names, cannot be used as it stands. */
  badInput: 2,
  /** The budget ran out before there was a plan or a proof that none exists. */
  outOfBudget: 3,
  /** A fault of the program itself (EX_SOFTWARE of sysexits.h). */
  ownFault: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** The same, for the help page. */
export const EXIT_WORDS: readonly (readonly [string, string])[] = [
  ['0', 'done; for check: every rule holds'],
  ['1', 'check: a rule is broken; otherwise: no plan can exist'],
  ['2', 'the command line, or a file it names, cannot be used as it stands'],
  ['3', 'the budget ran out without a plan'],
  ['70', 'a fault of the program itself'],
];

/** Thrown for anything the user can put right. Its message says where, what stands there, what would be right. */
export class Refusal extends Error {
  readonly exitCode: ExitCode;

  constructor(message: string, exitCode: ExitCode = EXIT.badInput) {
    super(message);
    this.exitCode = exitCode;
  }
}
