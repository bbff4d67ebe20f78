import type { StepName } from '../edits/index.ts';

/** What stands in the way, as the maker is told. */
export interface Trouble {
  readonly title: string;
  readonly lines: readonly string[];
  /** Steps that are written down for a time still far ahead. */
  readonly ahead?: readonly StepName[];
}

/** What an error says of itself. */
export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
