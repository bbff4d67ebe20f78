/** What is written down to have happened at a time that is still far ahead: a slip, of which no plan is made. */
import { stepWords } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';
import { formatDuration, formatMoment, makeClock, toMinute } from '../time/index.ts';
import { aheadNote } from './ahead-notes.ts';
import type { PlanNote } from './document.ts';

/** So far the clock of the planning device may be behind; what is no further ahead has happened. */
const CLOCK_BEHIND_MINUTES = 24 * 60;

/** A note for each such time; none where all that is written down can have happened by now. */
export function writtenAhead(shop: Shop, now: string): PlanNote[] {
  const clock = makeClock(shop.zone, now);
  const present = toMinute(clock, now);
  return shop.pieces.flatMap(({ id, actuals, touchTests }) =>
    [
      ...actuals.map(({ step, started }) => ({ step, what: 'begun', at: started })),
      ...actuals.map(({ step, ended }) => ({ step, what: 'ended', at: ended })),
      ...touchTests.map(({ step, at }) => ({ step, what: 'touched', at })),
    ].flatMap(({ step, what, at }) => {
      const ahead = at === undefined ? 0 : toMinute(clock, at) - present;
      if (ahead <= CLOCK_BEHIND_MINUTES) return [];
      const written = `${stepWords(step)} is written down as ${what} ${formatMoment(clock, present + ahead)}`;
      const right = `right would be a time up to now, ${formatMoment(clock, present)}`;
      return aheadNote({ piece: id, step }, `${written}, ${formatDuration(ahead)} from now; ${right}`);
    }),
  );
}
