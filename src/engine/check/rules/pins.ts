/** A step that the maker has pinned starts then and not otherwise, and is met in the way they said. */
import { brokenAt, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import type { Pin } from '../../shop/index.ts';
import { readMoment } from '../minutes.ts';

const RULE = 'pins';

export function pins(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { piece, byId, applications } of evidence.pieces) {
    // The last word on a step counts, and mixing and pouring are one step here: the pour follows its mix at once.
    const lastWords = new Map<string, Pin>();
    for (const pin of piece.pins) {
      const oneWith = applications.find(({ mix, apply }) => pin.step === mix || pin.step === apply);
      if (pin.at !== undefined) lastWords.set(oneWith?.id ?? pin.step, pin);
    }
    for (const { step, at } of lastWords.values()) {
      const timed = byId.get(step);
      if (!timed || timed.started || at === undefined) continue;
      const pinned = readMoment(at, evidence.zone);
      // A pin whose time has gone by unused no longer binds; for a pour that is the time of its mix.
      const mix = applications.find(({ apply }) => apply === step)?.mixMinutes ?? 0;
      if (timed.start === pinned || pinned - mix < evidence.now) continue;
      const text = `${nameOf(timed)} starts ${evidence.say(timed.start)}; it is pinned to ${evidence.say(pinned)}.`;
      broken.push(brokenAt(RULE, timed, text));
    }
    for (const application of applications) {
      const timed = byId.get(application.apply);
      const wish = piece.pins
        .filter(
          (pin) => pin.way && (pin.step === application.apply || pin.step.startsWith(`${application.id}-`)),
        )
        .at(-1);
      if (!timed || timed.started || !wish || !application.over || timed.step.way === wish.way) continue;
      const text = `${nameOf(timed)} is met by ${timed.step.way ?? 'nothing'}; you said ${wish.way}.`;
      broken.push(brokenAt(RULE, timed, text));
    }
  }
  return broken;
}
