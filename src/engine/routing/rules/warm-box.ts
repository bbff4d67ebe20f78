/** A warm box takes only so much: from the first pour until the piece is demolded. */
import { constantLag } from '../../schedule/index.ts';
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
    for (const { value, when } of route.formStandings) {
      if (!value.box) continue;
      const reason = builder.reason(
        'warm-box',
        route.itinerary.piece.id,
        null,
        `${value.box.name} takes only so much`,
      );
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
