import { writtenAheadIn, type Plan, type WrittenAhead } from '../../engine/plan/index.ts';

/** What stands in the way, as the maker is told. */
export interface Trouble {
  readonly title: string;
  readonly lines: readonly string[];
  /** Steps that are written down for a time still far ahead. */
  readonly ahead?: readonly WrittenAhead[];
}

/** What an error says of itself. */
export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Why there is no plan, as one that came to nothing tells it. */
export const troubleOf = (plan: Plan): Trouble => {
  const { status, clash } = plan;
  if (status === 'unknown') return { title: 'No plan was found in the time given', lines: clash };
  const ahead = writtenAheadIn(plan);
  return ahead.length > 0
    ? { title: 'Nothing is planned: this is written down for a time still to come', lines: clash, ahead }
    : { title: 'No plan can exist: these cannot all hold', lines: clash };
};
