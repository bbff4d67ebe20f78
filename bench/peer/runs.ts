/** What a run of either scheduler reports. */

/** A schedule, and when the page heard of it. */
export interface Found {
  readonly ms: number;
  readonly starts: readonly number[];
}

export interface Run {
  /** In the order of arrival, those after the limit left out. */
  readonly found: readonly Found[];
  /** What was said before the limit about the last schedule found, or about there being none. */
  readonly verdict: 'optimal' | 'infeasible' | 'open';
  readonly msTotal: number;
}

/** What the page is asked for: an instance's text, its format, and the wall time. */
export interface Request {
  readonly text: string;
  readonly format: 'sch' | 'job-shop';
  readonly limitMs: number;
}

/** From the worker with Pourwright's scheduler to the page. */
export type Word =
  | { readonly kind: 'found'; readonly starts: readonly number[] }
  | { readonly kind: 'end'; readonly verdict: Run['verdict'] };
