/** Attended steps lie inside the hours of those who do them; only work that may be split runs on over a closed hour. */
import { startsThatFit, union } from '../../time/index.ts';
import type { Intervals } from '../../time/index.ts';
import type { ModelBuilder } from '../model-builder.ts';
import type { Crew, Option, PieceRoute } from '../piece-route.ts';
import type { Rule } from './rule.ts';

/** The starts that suit one crew or another; pieces alike share the answer. */
function anyone(known: Map<string, Intervals>, crews: readonly Option<Crew>[], minutes: number): Intervals {
  const key = `${minutes} ${crews.map((c) => c.value.people.map((p) => p.id).join('+')).join()}`;
  let found = known.get(key);
  if (!found) {
    found = crews.map((c) => startsThatFit(c.value.open, minutes)).reduce(union);
    known.set(key, found);
  }
  return found;
}

export const hours: Rule = (builder, _ground, routes) => {
  const known = new Map<string, Intervals>();
  for (const route of routes) hoursOfPiece(builder, route, known);
};

function hoursOfPiece(
  builder: ModelBuilder,
  { itinerary, blocks, forms }: PieceRoute,
  known: Map<string, Intervals>,
): void {
  for (const { block, start, past, present, crews } of blocks) {
    if (past) continue;
    const lengths =
      block.kind === 'turnaround'
        ? forms.map((f) => ({ minutes: f.value.turnaroundMinutes, when: f.when }))
        : [{ minutes: block.split ? 1 : block.minutes, when: [] }];
    const shortest = Math.min(...lengths.map((l) => l.minutes));
    const stretch = block.split ? 'it' : `${shortest} min at a stretch`;
    const reason = builder.reason('hours', itinerary.piece.id, block.id, `someone is there for ${stretch}`);
    if (crews.length > 1) {
      builder.opening(start, anyone(known, crews, shortest), present, reason);
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
}
