/** Nothing is planed or sanded in a room while a surface in it is still open, and the air settles first. */
import type { Literal } from '../../schedule/model.ts';
import type { Room } from '../../shop/index.ts';
import { placedCures } from '../application-cure.ts';
import type { Ground } from '../ground.ts';
import type { Option, PieceRoute, RoutedBlock } from '../piece-route.ts';
import { shifted } from '../shift.ts';
import type { Rule } from './rule.ts';

/** The rooms in which a block may make its dust. */
function roomsOf(ground: Ground, route: PieceRoute, { block }: RoutedBlock): readonly Option<Room>[] {
  const tool = ground.shop.tools.find((t) => t.id === block.tool);
  const fixed = tool && ground.shop.rooms.find((r) => r.id === tool.room);
  if (fixed) return [{ value: fixed, when: [] }];
  return route.formStandings.map(({ value, when }) => ({ value: value.room, when }));
}

interface Fact {
  readonly room: string;
  readonly from: number;
  readonly to: number;
}

export const dust: Rule = (builder, ground, routes) => {
  const name = (room: string): string => `air of ${room}`;
  const openFacts: Fact[] = [];
  for (const route of routes) {
    const piece = route.itinerary.piece.id;
    for (const applied of route.blocks.filter((b) => b.block.application)) {
      const reason = builder.reason(
        'dust',
        piece,
        applied.block.id,
        'its surface is open and must have clean air',
      );
      for (const { when, standing, surfaceShut } of placedCures(ground, route, applied)) {
        const until = surfaceShut();
        if (applied.past) {
          const to = until.at(applied.past.start);
          if (to <= ground.now) continue;
          openFacts.push({ room: standing.room.id, from: applied.past.start, to });
        }
        const { start } = applied;
        builder.exclude(name(standing.room.id), 'one', {
          from: start,
          to: start,
          until,
          amount: 1,
          when,
          reason,
        });
      }
    }
  }
  for (const route of routes) {
    const piece = route.itinerary.piece.id;
    for (const dusty of route.blocks.filter((b) => b.block.dust)) {
      const reason = builder.reason(
        'dust',
        piece,
        dusty.block.id,
        'its dust would settle on an open surface',
      );
      for (const { value: room, when } of roomsOf(ground, route, dusty)) {
        const settled = dusty.past ? dusty.past.end + room.dustSettleMinutes : Infinity;
        const clashes = openFacts.some(
          (f) => f.room === room.id && dusty.past && f.from < settled && dusty.past.start < f.to,
        );
        // What has happened has happened: two facts are not set against one another.
        if (settled <= ground.now || clashes) continue;
        for (const end of dusty.ends) {
          const literals: Literal[] = [...new Set([...when, ...end.when])];
          builder.exclude(name(room.id), 'other', {
            from: dusty.start,
            to: dusty.start,
            until: shifted(end.value, 0, room.dustSettleMinutes),
            amount: 1,
            when: literals,
            reason,
          });
        }
      }
    }
  }
};
