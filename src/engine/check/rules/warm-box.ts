/** A warm box takes so much and no more, and stands in the room of the piece that goes into it. */
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence } from '../evidence.ts';
import { overfull } from '../stays.ts';
import type { Stay } from '../stays.ts';

const RULE = 'warm-box';

export function warmBox(evidence: Evidence, stays: readonly Stay[]): Broken[] {
  const broken: Broken[] = [];
  for (const { steps } of evidence.pieces) {
    const inBox = steps.filter(({ step }) => step.warmBox !== undefined);
    for (const timed of inBox) {
      if (isPast(timed)) continue;
      const { warmBox: said, room } = timed.step;
      const box = evidence.shop.warmBoxes.find((each) => each.id === said);
      if (!box)
        broken.push(brokenAt(RULE, timed, `${nameOf(timed)} is in ${said}, which the shop does not have.`));
      else if (box.room !== room)
        broken.push(brokenAt(RULE, timed, `${nameOf(timed)} is in ${room}; ${said} stands in ${box.room}.`));
      if (said !== inBox[0].step.warmBox)
        broken.push(
          brokenAt(RULE, timed, `${nameOf(timed)} is in ${said}, and was in ${inBox[0].step.warmBox}.`),
        );
    }
  }
  for (const each of evidence.shop.warmBoxes) {
    const over = overfull(each, 'warm-box', stays);
    if (!over) continue;
    const text = `${each.name} holds ${over.pieces} at ${evidence.say(over.at)}: ${over.share}.`;
    broken.push({ rule: RULE, piece: over.last, text });
  }
  return broken;
}
