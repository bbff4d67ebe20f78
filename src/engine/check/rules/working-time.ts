/** What is mixed is poured out while it still flows; the air of the room and the size of the cup decide how long. */
import { AGE_TOLERANCE } from '../age.ts';
import type { Curing } from '../cure.ts';
import { brokenAt, nameOf, stillToPour } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import type { Application } from '../expected.ts';

/**
 * Equivalent minutes from first contact of A and B. A cup larger than the sheet's has less: by the cube root of the
 * ratio, as a larger mass sheds its heat more slowly; a smaller cup has no more than stated.
 */
function workingMinutes({ resin, cupMl }: Application): number {
  const { minutes, batchMl } = resin.workingTime;
  return cupMl > batchMl ? minutes * (batchMl / cupMl) ** (1 / 3) : minutes;
}

export function workingTime(evidence: Evidence, curing: Curing): Broken[] {
  const broken: Broken[] = [];
  for (const piece of evidence.pieces) {
    for (const { application, mix, apply } of stillToPour(piece)) {
      const allowed = workingMinutes(application);
      const each = application.pouringMinutes / application.cups;
      for (let cup = 0; cup < application.cups; cup++) {
        const from = mix.start + Math.round(cup * (application.mixMinutes + each));
        const out = application.cups === 1 ? apply.end : from + application.mixMinutes + Math.ceil(each);
        const age = curing.ageInRoom(mix.step.room, application, from, out, { stalls: false });
        if (age <= allowed + AGE_TOLERANCE) continue;
        const when = `mixed from ${evidence.say(from)} and poured out at ${evidence.say(out)}`;
        const cured = `is ${age.toFixed(1)} minutes old at the reference temperature; it flows for ${allowed.toFixed(1)}`;
        broken.push(brokenAt('working-time', apply, `${nameOf(apply)}: ${when} it ${cured}.`));
      }
    }
  }
  return broken;
}
