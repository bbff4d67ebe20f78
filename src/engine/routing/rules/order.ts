/** Steps of a piece follow one another; only the form's turnaround goes its own way once the piece is out. */
import type { RoutedBlock } from '../piece-route.ts';
import { stepWords } from '../step-words.ts';
import { eachPiece } from './rule.ts';

export const order = eachPiece((builder, _ground, { itinerary, blocks }) => {
  const follow = (before: RoutedBlock, after: RoutedBlock): void => {
    if (before.past && after.past) return;
    const reason = builder.reason(
      'order',
      itinerary.piece.id,
      after.block.id,
      `it follows ${stepWords(before.block.id)}`,
    );
    const when = [...before.present, ...after.present];
    for (const end of before.ends) {
      builder.least(before.start, after.start, end.value, [...when, ...end.when], reason);
    }
  };
  let previous: RoutedBlock | null = null;
  // Since `previous`: what may be left out, so that it cannot stand between what comes before and after it.
  let optional: RoutedBlock[] = [];
  for (const here of blocks) {
    if (previous) follow(previous, here);
    for (const before of optional) follow(before, here);
    if (here.present.length > 0) optional.push(here);
    else if (here.block.kind !== 'turnaround') {
      previous = here;
      optional = [];
    }
  }
  // Nothing is ready while its own form is not: a turnaround left for ever would hold the form for ever.
  const turnaround = blocks.find((b) => b.block.kind === 'turnaround');
  const ready = blocks[blocks.length - 1];
  if (turnaround && turnaround.past?.state !== 'done' && !ready.past) {
    const reason = builder.reason(
      'order',
      itinerary.piece.id,
      'turnaround',
      'the form is cleaned before the piece is ready',
    );
    for (const end of turnaround.ends)
      builder.least(turnaround.start, ready.start, end.value, end.when, reason);
  }
});
