/** Nothing is planned before now, and no piece is begun before the day it may be. */
import { brokenAt, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import { readMoment } from '../minutes.ts';

export function earliest(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { piece, expected, byId } of evidence.pieces) {
    const from = piece.earliest === undefined ? evidence.now : readMoment(piece.earliest, evidence.zone);
    for (const { id } of expected) {
      const timed = byId.get(id);
      if (!timed || timed.started) continue;
      // A pin is a closer word than a wish not to begin earlier.
      const isPinned = piece.pins.some((pin) => pin.step === id && pin.at !== undefined);
      const bound = id === 'prepare' && !isPinned ? Math.max(from, evidence.now) : evidence.now;
      if (timed.start >= bound) continue;
      const text = `${nameOf(timed)} starts ${evidence.say(timed.start)}, before ${evidence.say(bound)}.`;
      broken.push(brokenAt('earliest', timed, text));
    }
  }
  return broken;
}
