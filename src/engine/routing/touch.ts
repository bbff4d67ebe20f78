/** What a finger on the surface says of a cure: the sheet's times stretched, or its window shut early. */
import type { Resin, TouchTest } from '../shop/index.ts';
import { ageBetween } from '../cure/index.ts';
import { toMinute } from '../time/index.ts';
import type { Ground, Standing } from './ground.ts';
import { standingAge } from './standing-age.ts';

export interface Touched {
  /** All milestones of this application are multiplied by it. */
  readonly factor: number;
  /** The tack window closes at this equivalent age at the latest, minutes; Infinity when nothing was found. */
  readonly closesAtMost: number;
}

export const UNTOUCHED: Touched = { factor: 1, closesAtMost: Infinity };

/**
 * Wet when the sheet has it tacky: the whole cure is slower. Tacky before the sheet has it: the whole cure is faster.
 * Tacky after the sheet has it closed: the window is open still. Hard: the window is shut from that age on.
 */
export function touched(
  ground: Ground,
  standing: Standing,
  resin: Resin,
  appliedMinute: number,
  tests: readonly TouchTest[],
  demoldedMinute: number | undefined,
): Touched {
  const ageAt = (at: number): number => {
    if (demoldedMinute === undefined || at <= demoldedMinute)
      return standingAge(ground, standing, resin, appliedMinute, at);
    // Out of its form it is out of its box.
    const outside = ageBetween(ground.age(standing.room, resin), demoldedMinute, at);
    return standingAge(ground, standing, resin, appliedMinute, demoldedMinute) + outside;
  };
  let { factor, closesAtMost } = UNTOUCHED;
  for (const test of tests) {
    const at = toMinute(ground.clock, test.at);
    if (at <= appliedMinute) continue;
    const age = ageAt(at);
    if (age <= 0) continue;
    if (test.found === 'wet') factor = Math.max(factor, age / resin.tackOpensMinutes);
    else if (test.found === 'tacky') {
      if (age < resin.tackOpensMinutes * factor) factor = age / resin.tackOpensMinutes;
      else factor = Math.max(factor, age / resin.tackClosesMinutes);
    } else closesAtMost = Math.min(closesAtMost, age);
  }
  return { factor, closesAtMost };
}
