/** Every bubble pass begins so long after the end of its pour as the recipe says. */
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';

export function bubbles(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { applications, byId } of evidence.pieces) {
    for (const application of applications) {
      const pour = byId.get(application.apply);
      application.passes.forEach(({ fromMinutes, toMinutes }, j) => {
        const pass = byId.get(`${application.id}-bubbles-${j + 1}`);
        if (!pour || !pass || isPast(pour, pass)) return;
        const after = pass.start - pour.end;
        // A pass that is overdue at a pour of the past is still done, as soon as it can be.
        if (after >= fromMinutes && (after <= toMinutes || pour.started)) return;
        const bounds = `between ${evidence.say(pour.end + fromMinutes)} and ${evidence.say(pour.end + toMinutes)}`;
        const text = `${nameOf(pass)} starts ${evidence.say(pass.start)}; it has to start ${bounds}.`;
        broken.push(brokenAt('bubbles', pass, text));
      });
    }
  }
  return broken;
}
