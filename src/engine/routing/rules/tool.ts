/** A planer, sled or sander serves so many pieces at a time as there are of it. */
import { tidy, subtract } from '../../time/index.ts';
import { always, capacityWithin } from '../capacity.ts';
import type { Rule } from './rule.ts';

export const tool: Rule = (builder, ground, routes) => {
  const key = (id: string): string => `tool ${id}`;
  for (const each of ground.shop.tools) {
    const busy = tidy(
      routes.flatMap((route) =>
        route.blocks.flatMap(({ block, past }): [number, number][] =>
          block.tool === each.id && past && past.end > ground.now ? [[past.start, past.end]] : [],
        ),
      ),
    );
    const capacity =
      busy.length > 0 && each.count === 1
        ? capacityWithin(subtract(Int32Array.of(0, ground.horizon), busy), 1)
        : always(each.count);
    builder.resource(key(each.id), each.name, capacity);
  }
  for (const { itinerary, blocks } of routes) {
    for (const { block, start, past, ends } of blocks) {
      if (!block.tool || past) continue;
      const reason = builder.reason(
        'tool',
        itinerary.piece.id,
        block.id,
        'the tool is used for one piece at a time',
      );
      for (const { value, when } of ends) {
        builder.use(key(block.tool), { from: start, to: start, until: value, amount: 1, when, reason });
      }
    }
  }
};
