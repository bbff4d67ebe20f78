/** Forms, resting pieces and setting coats each stand on a level bench, and no bench is asked for more than it has. */
import { brokenAt, isPast, nameOf } from '../evidence.ts';
import type { Broken, Evidence, PieceCase } from '../evidence.ts';
import { benchesOf, overfull } from '../stays.ts';
import type { Stay } from '../stays.ts';

const RULE = 'bench';

export function bench(evidence: Evidence, stays: readonly Stay[]): Broken[] {
  const broken = evidence.pieces.flatMap((of) => oneBenchAStay(evidence, of));
  for (const each of evidence.shop.benches) {
    const over = overfull(each, 'bench', stays);
    if (!over) continue;
    const unit = each.spots === undefined ? 'cm2' : 'spots';
    const text = `${each.name} carries ${over.pieces} at ${evidence.say(over.at)}: ${over.share} ${unit}.`;
    broken.push({ rule: RULE, piece: over.last, text });
  }
  return broken;
}

const STAYS = [
  { stay: 'form', steps: /^(prepare|seal|layer-.*|cure)$/ },
  { stay: 'rest', steps: /^rest$/ },
  { stay: 'coats', steps: /^coat-\d+(-mix)?$/ },
] as const;

/** One bench a stay, in the room where its steps are done. */
function oneBenchAStay(evidence: Evidence, of: PieceCase): Broken[] {
  const broken: Broken[] = [];
  const benches = benchesOf(of);
  const formRoom = of.byId.get('prepare')?.step.room;
  for (const timed of of.steps) {
    const wrong = (text: string): void => void broken.push(brokenAt(RULE, timed, `${nameOf(timed)} ${text}`));
    const { bench: said, room, step, warmBox, kind } = timed.step;
    if (!evidence.rooms.has(room)) wrong(`is in ${room}, which the shop does not have.`);
    if (isPast(timed)) continue;
    const stay = STAYS.find(({ steps }) => steps.test(step))?.stay;
    const place = evidence.shop.benches.find((each) => each.id === said);
    if (stay && !said && !warmBox && of.boxStays.length === 0) wrong('stands on no bench.');
    if (stay && said && said !== benches[stay]) wrong(`stands on ${said}, and on ${benches[stay]} before.`);
    if (said && !place) wrong(`stands on ${said}, which the shop does not have.`);
    if (place && place.room !== room) wrong(`is in ${room}, but its bench ${said} is in ${place.room}.`);
    const isInForm = stay === 'form' || stay === 'rest' || kind === 'demold' || kind === 'turnaround';
    if (isInForm && room !== formRoom) wrong(`is in ${room}; the piece was prepared in ${formRoom}.`);
  }
  return broken;
}
