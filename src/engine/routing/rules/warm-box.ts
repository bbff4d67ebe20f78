/** A warm box takes only so much: from the first pour until the piece is demolded, which is once the last layer has stood inside. */
import { constantLag } from '../../schedule/index.ts';
import { boxAfterMinutes } from '../application-cure.ts';
import { always } from '../capacity.ts';
import type { RoutedBlock } from '../piece-route.ts';
import { formOutside, spaceNeeded, spaceOf } from '../stays.ts';
import type { Rule } from './rule.ts';

export const warmBox: Rule = (builder, ground, routes) => {
  const key = (id: string): string => `warm box ${id}`;
  for (const box of ground.shop.warmBoxes) builder.resource(key(box.id), box.name, always(spaceOf(box)));
  for (const route of routes) {
    const poured = route.byId.get('layer-1-pour') as RoutedBlock;
    const demold = route.byId.get('demold') as RoutedBlock;
    if (demold.past) continue;
    const layer = poured.block.application;
    if (!layer) continue;
    const last = route.blocks.filter(({ block }) => block.kind === 'pour').at(-1);
    for (const { value, when } of route.formStandings) {
      if (!value.box) continue;
      const reason = builder.reason(
        'warm-box',
        route.itinerary.piece.id,
        null,
        `${value.box.name} takes only so much`,
      );
      if (last?.block.application) {
        const { mixMinutes } = last.block.application;
        // However fast it cures: it is in the box for a minute at least, or the plan would tell of a stay that never was.
        const inside = constantLag(mixMinutes + boxAfterMinutes(route, last.block.application) + 1);
        const isThere = `the last layer goes into ${value.box.name} first`;
        builder.least(
          last.start,
          demold.start,
          inside,
          when,
          builder.reason('warm-box', route.itinerary.piece.id, demold.block.id, isThere),
        );
      }
      for (const form of route.forms) {
        builder.use(key(value.box.id), {
          from: poured.start,
          to: demold.start,
          until: constantLag(0),
          amount: spaceNeeded(value.box, formOutside(form.value)),
          when: [...when, ...form.when],
          reason,
        });
      }
    }
  }
};
