import type { PathKey } from '../faults.ts';

type Say = (keys: readonly PathKey[], found: unknown, message: string) => void;

/** Where a judge of the file's meaning says what it found: wrong (no plan is made) or odd (legal, but look again). */
export interface Verdict {
  readonly wrong: Say;
  readonly odd: Say;
}
