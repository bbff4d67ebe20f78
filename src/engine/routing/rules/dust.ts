/**
 * Nothing is planed or sanded in a room while a surface in it is still open, and the air settles first. A surface that
 * is poured over is none any more: what lies on it is the surface then.
 */
import { constantLag } from '../../schedule/index.ts';
import type { Literal, MonotoneMap } from '../../schedule/model.ts';
import type { Room } from '../../shop/index.ts';
import { reachMap } from '../../cure/index.ts';
import { missingAfterDemold, outlasts, placedCures } from '../application-cure.ts';
import type { PlacedCure } from '../application-cure.ts';
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

export const dust: Rule = (builder, ground, routes) => {
  const name = (room: string): string => `air of ${room}`;
  const planned: { readonly room: string; readonly start: number; readonly when: readonly Literal[] }[] = [];
  for (const route of routes) {
    const piece = route.itinerary.piece.id;
    const demold = route.byId.get('demold') as RoutedBlock;
    /** A last layer that left its box with its form may be open still: then it is so again from its demolding on. */
    const outOfBox = (cure: PlacedCure, layer: RoutedBlock, reason: number): void => {
      const { when, standing, resin, shutAge } = cure;
      const missing = missingAfterDemold(ground, cure, layer, demold, shutAge);
      const until = reachMap(ground.age(standing.room, resin), missing);
      if (missing === 0 || (demold.past && until.at(demold.past.start) <= ground.now)) return;
      if (!demold.past) planned.push({ room: standing.room.id, start: demold.start, when });
      const task = { from: demold.start, to: demold.start, until, amount: 1, when, reason };
      builder.exclude(name(standing.room.id), 'one', task);
    };
    for (const applied of route.blocks.filter((b) => b.block.application)) {
      const reason = builder.reason(
        'dust',
        piece,
        applied.block.id,
        'its surface is open and must have clean air',
      );
      const cover = route.blocks.find((b) => b.block.application?.over === applied.block.application?.id);
      if (cover?.past) continue;
      const recoat = route.recoat.get(cover?.block.application?.id ?? '');
      const coverCures = cover ? placedCures(ground, route, cover) : [];
      placedCures(ground, route, applied).forEach((cure, i) => {
        const { when, standing } = cure;
        const room = name(standing.room.id);
        const until = cure.surfaceShut();
        if (standing.box && !cover) outOfBox(cure, applied, reason);
        if (!applied.past) planned.push({ room: standing.room.id, start: applied.start, when });
        else if (until.at(applied.past.start) <= ground.now) return;
        const from = applied.start;
        const open = (to: number, end: MonotoneMap, literals: readonly Literal[]): void =>
          builder.exclude(room, 'one', { from, to, until: end, amount: 1, when: literals, reason });
        if (!cover || recoat === undefined || standing.box || outlasts(ground, coverCures[i], cure)) {
          // Under a cover that is open for longer it makes no difference how long this one would be.
          open(from, until, when);
          return;
        }
        // A recoat comes before it is shut, a scuff commonly behind that.
        open(cover.start, constantLag(0), [...when, recoat]);
        open(from, until, [...when, recoat ^ 1]);
      });
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
        if (dusty.past) {
          // What has happened has happened: two facts are not set against one another, but what comes waits.
          const settled = dusty.past.end + room.dustSettleMinutes;
          if (settled <= ground.now) continue;
          for (const surface of planned.filter((each) => each.room === room.id)) {
            const both: Literal[] = [...new Set([...when, ...surface.when])];
            builder.opening(surface.start, Int32Array.of(settled, ground.horizon), both, reason);
          }
          continue;
        }
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
