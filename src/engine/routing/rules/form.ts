/** A form is held from the first preparation until it is clean again; there are only so many alike. */
import { constantLag } from '../../schedule/index.ts';
import { always } from '../capacity.ts';
import { cleanMinutes } from '../crews.ts';
import type { PieceRoute, RoutedBlock } from '../piece-route.ts';
import type { Rule } from './rule.ts';

export const form: Rule = (builder, ground, routes) => {
  const key = (id: string): string => `form ${id}`;
  const inUse = routes.filter(({ byId }) => byId.get('turnaround')?.past?.state !== 'done');
  const begunIn = (id: string): readonly PieceRoute[] =>
    inUse
      .filter(
        ({ forms, byId }) => byId.get('prepare')?.past && forms.length === 1 && forms[0].value.id === id,
      )
      .sort((a, b) => prepared(a) - prepared(b));
  for (const each of ground.shop.forms) {
    builder.resource(key(each.id), each.name, always(each.count));
  }
  // More begun than the file has forms is a fact, not a plan; but nothing new begins until the surplus is gone.
  const surplus = new Set(ground.shop.forms.flatMap(({ id, count }) => begunIn(id).slice(count)));
  for (const route of inUse) {
    const { itinerary, byId, forms } = route;
    const from = (byId.get('prepare') as RoutedBlock).start;
    const turnaround = byId.get('turnaround') as RoutedBlock;
    const to = turnaround.start;
    for (const { value, when } of forms) {
      const reason = builder.reason(
        'form',
        itinerary.piece.id,
        null,
        `${value.name} holds one piece at a time`,
      );
      const until = constantLag(cleanMinutes(turnaround, value));
      const task = { from, to, until, amount: 1, when, reason };
      if (surplus.has(route)) builder.exclude(`${key(value.id)} surplus`, 'one', task);
      else {
        builder.use(key(value.id), task);
        if (!byId.get('prepare')?.past) builder.exclude(`${key(value.id)} surplus`, 'other', task);
      }
    }
  }
};

const prepared = ({ byId }: PieceRoute): number => byId.get('prepare')?.past?.start ?? 0;
