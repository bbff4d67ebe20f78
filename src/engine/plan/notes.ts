/** Remarks that belong to a plan: cure that stands still in the cold, pins that time has passed. */
import { stalls } from '../cure/index.ts';
import { applicationWords, placedCures, stepWords } from '../routing/index.ts';
import type { Ground } from '../routing/index.ts';
import type { Assignment } from '../schedule/index.ts';
import { formatDuration, formatMoment, intersect, totalMinutes } from '../time/index.ts';
import type { PlanNote } from './document.ts';
import { allHold } from './reading.ts';
import type { PieceReading } from './reading.ts';

/** Stalls shorter than this are not worth a remark, minutes. */
const WORTH_SAYING = 30;

/** Where this piece's resin stands still because the room is below its lowest temperature. */
export function stallNotes(ground: Ground, answer: Assignment, reading: PieceReading): PlanNote[] {
  const { route, times } = reading;
  const applied = route.blocks.filter((b) => b.block.application);
  return applied.flatMap((routed, i): PlanNote[] => {
    const placed = placedCures(ground, route, routed).find((p) => allHold(answer, p.when));
    const here = times.get(routed.block.id);
    const next = applied[i + 1];
    const until =
      next && next.block.application?.stay === routed.block.application?.stay ? next.block.id : undefined;
    const inForm = routed.block.application?.stay === 'form' ? 'demold' : 'ready';
    const to = times.get(until ?? inForm)?.start;
    if (!placed || placed.standing.box || !here || to === undefined || to <= here.end) return [];
    const cold = intersect(
      stalls(ground.age(placed.standing.room, placed.resin)),
      Int32Array.of(here.end, to),
    );
    const minutes = totalMinutes(cold);
    if (minutes < WORTH_SAYING) return [];
    const id = routed.block.application?.id ?? routed.block.id;
    return [
      {
        kind: 'stall',
        piece: route.itinerary.piece.id,
        step: routed.block.id,
        text:
          `${applicationWords(id)} stands still for ${formatDuration(minutes)} below ${placed.resin.lowestDegC} degC in ` +
          `${placed.standing.room.name}, first from ${formatMoment(ground.clock, cold[0])}`,
      },
    ];
  });
}

export const passedPinNote = ({ piece, step }: { piece: string; step: string }): PlanNote => ({
  kind: 'passed-pin',
  piece,
  step,
  text: `the time you pinned ${stepWords(step)} to has passed; it is planned afresh`,
});
