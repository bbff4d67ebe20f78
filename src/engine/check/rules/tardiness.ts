/** What the plan says of each piece is true: when it is ready, when it was due, how late it is. */
import type { Broken, Evidence } from '../evidence.ts';
import { readDeadline, readPlanTime } from '../minutes.ts';

const RULE = 'tardiness';

export function tardiness(evidence: Evidence): Broken[] {
  const broken: Broken[] = [];
  const stated = new Map(evidence.plan.pieces.map((each) => [each.piece, each]));
  for (const { piece, byId } of evidence.pieces) {
    const wrong = (text: string): void =>
      void broken.push({ rule: RULE, piece: piece.id, step: 'ready', text: `${piece.id} ${text}` });
    const said = stated.get(piece.id);
    const ready = byId.get('ready');
    if (!said) wrong('is not among the pieces of the plan.');
    if (!said || !ready) continue;
    const due = readDeadline(piece.due, evidence.zone);
    if (readPlanTime(said.ready) !== ready.start)
      wrong(
        `is said to be ready ${evidence.say(readPlanTime(said.ready))}; it is ready ${evidence.say(ready.start)}.`,
      );
    if (readPlanTime(said.due) !== due)
      wrong(`is said to be due ${evidence.say(readPlanTime(said.due))}; it is due ${evidence.say(due)}.`);
    const late = Math.max(0, ready.start - due);
    if (said.lateMinutes !== late) wrong(`is said to be ${said.lateMinutes} minutes late; it is ${late}.`);
  }
  return broken;
}
