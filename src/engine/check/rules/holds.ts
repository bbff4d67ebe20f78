/** The plan's table of what is held, and until when, is what its steps imply. */
import type { Broken, Evidence } from '../evidence.ts';
import { readPlanTime } from '../minutes.ts';
import type { Stay } from '../stays.ts';

const RULE = 'holds';

export function holds(evidence: Evidence, stays: readonly Stay[]): Broken[] {
  const { say, plan } = evidence;
  const broken: Broken[] = [];
  const open = plan.holds.map((hold) => ({
    ...hold,
    start: readPlanTime(hold.from),
    end: readPlanTime(hold.to),
  }));
  const tell = (each: { id: string; unit?: number }, from: number, to: number): string =>
    `${each.id}${each.unit === undefined ? '' : ` number ${each.unit}`} from ${say(from)} to ${say(to)}`;
  for (const stay of stays) {
    const found = open.findIndex(
      (hold) =>
        hold.piece === stay.piece &&
        hold.what === stay.what &&
        hold.id === stay.id &&
        hold.unit === stay.unit &&
        hold.start === stay.from &&
        hold.end === stay.to &&
        hold.amount === stay.amount,
    );
    if (found >= 0) {
      open.splice(found, 1);
      continue;
    }
    const text = `${stay.piece} holds ${tell(stay, stay.from, stay.to)} (${stay.amount}); the plan does not say so.`;
    broken.push({ rule: RULE, piece: stay.piece, text });
  }
  for (const hold of open) {
    const text = `${hold.piece} is said to hold ${tell(hold, hold.start, hold.end)} (${hold.amount}); its steps do not ask for it.`;
    broken.push({ rule: RULE, piece: hold.piece, text });
  }
  return broken;
}
