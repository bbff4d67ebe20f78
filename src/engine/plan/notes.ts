/** Remarks that belong to a plan: cure that stands still in the cold, bubble passes that were missed, pins that time has passed. */
import { stalls } from '../cure/index.ts';
import { applicationWords, placedCures, stepWords } from '../routing/index.ts';
import type { Ground } from '../routing/index.ts';
import type { Assignment } from '../schedule/index.ts';
import { temperatureText } from '../shop/index.ts';
import { formatDuration, formatMoment, intersect, totalMinutes } from '../time/index.ts';
import type { PlanNote } from './document.ts';
import { allHold } from './reading.ts';
import type { PieceReading } from './reading.ts';

/** Stalls shorter than this are not worth a remark, minutes. */
const WORTH_SAYING = 30;

/** Where this piece's resin stands still because the room is below its lowest temperature; of what is over, nothing. */
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
    if (!placed || placed.standing.box || !here || to === undefined || to <= here.end || to <= ground.now)
      return [];
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
          `${applicationWords(id)} stands still for ${formatDuration(minutes)} below ${temperatureText(placed.resin.lowestDegC, ground.shop.units)} in ` +
          `${placed.standing.room.name}, first from ${formatMoment(ground.clock, cold[0])}`,
      },
    ];
  });
}

/** Bubble passes that are left out, since their layer has set or sets before anyone is free; once a layer. */
export function missedPassNotes(ground: Ground, answer: Assignment, reading: PieceReading): PlanNote[] {
  const { route, times } = reading;
  return route.blocks.flatMap((pour): PlanNote[] => {
    const passes = route.blocks.filter((b) => b.block.pass?.after === pour.block.id);
    const missed = passes.filter((b) => !times.has(b.block.id));
    if (missed.length === 0) return [];
    const layer = applicationWords(pour.block.application?.id ?? pour.block.id);
    const placed = placedCures(ground, route, pour).find((p) => allHold(answer, p.when));
    const sets = placed?.set().at(answer.starts[pour.start]) ?? ground.now;
    const isOne = missed.length === 1;
    const which =
      passes.length === 1 ? 'the' : isOne ? 'a' : missed.length === passes.length ? 'the' : 'some';
    const what = `${which} bubble ${isOne ? 'pass' : 'passes'} of ${layer}`;
    const text =
      sets <= ground.now
        ? `${what} ${isOne ? 'was' : 'were'} not recorded, and ${layer} has set: there is nothing to do about it now`
        : `nobody is free for ${what} before it sets ${formatMoment(ground.clock, sets)}: left out`;
    return [{ kind: 'missed-pass', piece: route.itinerary.piece.id, step: missed[0].block.id, text }];
  });
}

export const passedPinNote = ({ piece, step }: { piece: string; step: string }): PlanNote => ({
  kind: 'passed-pin',
  piece,
  step,
  text: `the time you pinned ${stepWords(step)} to has passed; it is planned afresh`,
});
