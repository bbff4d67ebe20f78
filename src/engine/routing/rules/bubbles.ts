/** Bubble passes come a short while after the pour has ended. */
import { constantLag } from '../../schedule/index.ts';
import { stepWords } from '../step-words.ts';
import { eachPiece } from './rule.ts';

export const bubbles = eachPiece((builder, _ground, { itinerary, blocks, byId }) => {
  for (const { block, start, past } of blocks) {
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
    builder.least(pour.start, start, constantLag(length + from), [], reason);
    // A pass that was missed is done as soon as it can be; only what is still ahead can be late.
    if (!pour.past) builder.most(pour.start, start, constantLag(length + to), [], reason);
  }
});
