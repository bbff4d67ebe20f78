/** Attended steps lie inside the hours of everyone who does them; what may not be split lies in one stretch of them. */
import { brokenAt, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';

export function hours(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  for (const { expected, byId } of evidence.pieces) {
    for (const { id, split } of expected) {
      const timed = byId.get(id);
      if (!timed || timed.started) continue;
      const { start, end, step } = timed;
      // Split work rests while the shop is closed; that it has its minutes is the rule of order.
      const until = split ? start + 1 : end;
      for (const person of step.people) {
        let away = start;
        while (away < until && evidence.isThere(person, away)) away++;
        if (away >= until) continue;
        const when = `${evidence.say(start)} to ${evidence.say(end)}`;
        const text = `${nameOf(timed)} runs ${when}, but ${person} is not there at ${evidence.say(away)}.`;
        broken.push(brokenAt('hours', timed, text));
      }
    }
  }
  return broken;
}
