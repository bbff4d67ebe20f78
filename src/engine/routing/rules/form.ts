/** A form is held from the first preparation until it is clean again; there are only so many alike. */
import { constantLag } from '../../schedule/index.ts';
import { always } from '../capacity.ts';
import type { RoutedBlock } from '../piece-route.ts';
import type { Rule } from './rule.ts';

export const form: Rule = (builder, ground, routes) => {
  const key = (id: string): string => `form ${id}`;
  const inUse = routes.filter(({ byId }) => byId.get('turnaround')?.past?.state !== 'done');
  for (const each of ground.shop.forms) {
    // More begun than the file has forms is a fact, not a plan.
    const begun = inUse.filter(
      ({ forms, byId }) => byId.get('prepare')?.past && forms.length === 1 && forms[0].value === each,
    );
    builder.resource(key(each.id), each.name, always(Math.max(each.count, begun.length)));
  }
  for (const { itinerary, byId, forms } of inUse) {
    const from = (byId.get('prepare') as RoutedBlock).start;
    const to = (byId.get('turnaround') as RoutedBlock).start;
    for (const { value, when } of forms) {
      const reason = builder.reason(
        'form',
        itinerary.piece.id,
        null,
        `${value.name} holds one piece at a time`,
      );
      builder.use(key(value.id), {
        from,
        to,
        until: constantLag(value.turnaroundMinutes),
        amount: 1,
        when,
        reason,
      });
    }
  }
};
