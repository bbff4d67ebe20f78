/** Attended steps lie inside the hours of those who do them; only work that may be split runs on over a closed hour. */
import { startsThatFit, union } from '../../time/index.ts';
import { eachPiece } from './rule.ts';

export const hours = eachPiece((builder, _ground, { itinerary, blocks, forms }) => {
  for (const { block, start, past, present, crews } of blocks) {
    if (past) continue;
    const reason = builder.reason('hours', itinerary.piece.id, block.id, `someone is there to ${block.kind}`);
    const lengths =
      block.kind === 'turnaround'
        ? forms.map((f) => ({ minutes: f.value.turnaroundMinutes, when: f.when }))
        : [{ minutes: block.split ? 1 : block.minutes, when: [] }];
    const shortest = Math.min(...lengths.map((l) => l.minutes));
    if (crews.length > 1) {
      const anyone = crews.map((c) => startsThatFit(c.value.open, shortest)).reduce(union);
      builder.opening(start, anyone, present, reason);
    }
    for (const crew of crews) {
      for (const { minutes, when } of lengths) {
        builder.opening(
          start,
          startsThatFit(crew.value.open, minutes),
          [...present, ...crew.when, ...when],
          reason,
        );
      }
    }
  }
});
