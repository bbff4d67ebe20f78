/** How the quick and the exact search share the work: by how much of the gap each has closed of late, for each step of its work. */
import type { Sharing } from './quick-search.ts';

/** The quick search's share at first, and the least of each. */
const FIRST = 1 / 4;
const LEAST = 1 / 8;
/** The weight of the last turn. */
const LAST = 1 / 2;

export class Yields implements Sharing {
  private share = FIRST;
  private quick: number | null = null;
  private exact: number | null = null;
  private hasFound = false;

  ofQuick(work: number): number {
    const { quick, exact } = this;
    if (quick !== null && exact !== null && quick + exact > 0)
      this.share = Math.min(1 - LEAST, Math.max(LEAST, quick / (quick + exact)));
    return work * this.share;
  }

  quickClosed(before: number, after: number): void {
    this.hasFound = after < before;
    this.quick = mean(this.quick, closed(before, after) / this.share);
  }

  /** Where neither finds anything, nothing is held against the exact search: it may be at the proof. */
  exactClosed(before: number, after: number): void {
    if (after === before && !this.hasFound && this.exact !== null) return;
    this.exact = mean(this.exact, closed(before, after) / (1 - this.share));
  }
}

const closed = (before: number, after: number): number => (before - after) / Math.max(1, before);

const mean = (before: number | null, now: number): number =>
  before === null ? now : before + (now - before) * LAST;
