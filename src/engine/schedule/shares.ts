/** How the quick and the exact search share the work: more goes to the one that has found more of late. */

import type { Sharing } from './quick-search.ts';

/** Closing so much of the gap counts as luck of the exact search. */
const LUCKY_SHARE = 1 / 4;

export class Shares implements Sharing {
  private exact = 1;

  /**
   * @param quick the quick search's luck at first; that of the exact one is 1
   * @param least to so much the luck of a search that finds nothing falls
   */
  constructor(
    private quick: number,
    private readonly least: { readonly quick: number; readonly exact: number },
  ) {}

  ofQuick(work: number): number {
    return work * (this.quick / (this.quick + this.exact));
  }

  quickClosed(before: number, after: number): void {
    this.quick = after < before ? 1 : Math.max(this.least.quick, this.quick / 2);
  }

  exactClosed(before: number, after: number): void {
    const isLucky = after < before * (1 - LUCKY_SHARE);
    this.exact = isLucky ? 1 : Math.max(this.least.exact, this.exact / 2);
  }
}
