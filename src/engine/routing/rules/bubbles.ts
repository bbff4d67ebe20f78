/**
 * Bubble passes come a short while after the pour has ended. One that was missed comes as soon as it can, but only while
 * the layer flows: on resin that has set it does no good and may mar the surface, so it is left out.
 */
import { constantLag } from '../../schedule/index.ts';
import { nextOpen, startsThatFit } from '../../time/index.ts';
import { placedCures } from '../application-cure.ts';
import type { Ground } from '../ground.ts';
import type { ModelBuilder } from '../model-builder.ts';
import type { Past, PieceRoute, RoutedBlock } from '../piece-route.ts';
import { applicationWords, stepWords } from '../step-words.ts';
import { eachPiece } from './rule.ts';

export const bubbles = eachPiece((builder, ground, route) => {
  const { itinerary, blocks, byId } = route;
  for (const routed of blocks) {
    const { block, start, past, present } = routed;
    const pour = block.pass && byId.get(block.pass.after);
    if (!block.pass || !pour || (past && pour.past)) continue;
    const { from, to } = block.pass;
    const reason = builder.reason(
      'bubbles',
      itinerary.piece.id,
      block.id,
      `${from} to ${to} minutes after ${stepWords(pour.block.id)}`,
    );
    const length = pour.past ? pour.past.end - pour.past.start : pour.block.minutes;
    builder.least(pour.start, start, constantLag(length + from), present, reason);
    // Only what is still ahead can be late.
    if (pour.past) whileWet(builder, ground, route, routed, pour, pour.past);
    else builder.most(pour.start, start, constantLag(length + to), [], reason);
  }
});

/**
 * Over before the layer sets, and the sooner the better; or left out, which costs more than any delay. It is better than
 * a shop that cannot be planned, and worse than all else.
 */
function whileWet(
  builder: ModelBuilder,
  ground: Ground,
  route: PieceRoute,
  { block, start, present, crews }: RoutedBlock,
  pour: RoutedBlock,
  poured: Past,
): void {
  const { from, to } = block.pass ?? { from: 0, to: 0 };
  const layer = applicationWords(pour.block.application?.id ?? pour.block.id);
  const reason = builder.reason('bubbles', route.itinerary.piece.id, block.id, `${layer} must still be wet`);
  const cures = placedCures(ground, route, pour);
  for (const cure of cures)
    builder.most(pour.start, start, cure.set(-block.minutes), [...present, ...cure.when], reason);
  const latest = Math.min(
    ground.horizon,
    Math.max(...cures.map((cure) => cure.set(-block.minutes).at(poured.start))),
  );
  const someoneThere = crews.map(({ value }) => nextOpen(startsThatFit(value.open, block.minutes)));
  const soonest = Math.min(...someoneThere.map((map) => map.at(Math.max(ground.now, poured.end + from))));
  for (const made of present) {
    if (soonest > latest) {
      builder.clause([made ^ 1], reason);
      continue;
    }
    const inTime = Math.max(soonest, poured.end + to);
    builder.cost('passes', { kind: 'late', start, after: inTime, weight: 1 });
    builder.cost('passes', { kind: 'choice', when: made ^ 1, weight: Math.max(1, latest - inTime + 1) });
  }
}
