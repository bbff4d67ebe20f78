/** What stands in the way, as the maker is told. */
export interface Trouble {
  readonly title: string;
  readonly lines: readonly string[];
}

/** What an error says of itself. */
export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
