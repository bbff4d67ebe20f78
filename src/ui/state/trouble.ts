import type { Plan } from '../../engine/plan/document.ts';
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

/** Why there is no plan, as one that came to nothing tells it. */
export const troubleOf = ({ status, clash, notes }: Plan): Trouble => {
  if (status === 'unknown') return { title: 'No plan was found in the time given', lines: clash };
  const ahead = notes.flatMap(({ kind, piece, step }) =>
    kind === 'ahead' && piece !== undefined && step !== undefined ? [{ piece, step }] : [],
  );
  return ahead.length > 0
    ? { title: 'Nothing is planned: this is written down for a time still to come', lines: clash, ahead }
    : { title: 'No plan can exist: these cannot all hold', lines: clash };
};
