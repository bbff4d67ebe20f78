/** Everyone has one pair of hands: one step at a time. */
import { subtract, tidy } from '../../time/index.ts';
import { capacityWithin } from '../capacity.ts';
import type { Rule } from './rule.ts';

export const hands: Rule = (builder, ground, routes) => {
  const key = (person: string): string => `hands ${person}`;
  for (const person of ground.shop.people) {
    // Steps under way are facts: they take the hands, but do not quarrel with one another.
    const busy = tidy(
      routes.flatMap((route) =>
        route.blocks.flatMap(({ past, crews }): [number, number][] =>
          past && past.end > ground.now && crews[0]?.value.people.some((p) => p.id === person.id)
            ? [[past.start, past.end]]
            : [],
        ),
      ),
    );
    const free = subtract(Int32Array.of(0, ground.horizon), busy);
    builder.resource(key(person.id), person.name, capacityWithin(free, 1));
  }
  for (const { itinerary, blocks } of routes) {
    for (const { block, start, past, present, crews, ends } of blocks) {
      if (past) continue;
      const reason = builder.reason(
        'hands',
        itinerary.piece.id,
        block.id,
        'one pair of hands does one thing at a time',
      );
      for (const crew of crews) {
        for (const end of ends) {
          if (block.split && end.when !== crew.when) continue;
          const when = [...new Set([...present, ...crew.when, ...end.when])];
          for (const person of crew.value.people) {
            builder.use(key(person.id), {
              from: start,
              to: start,
              until: end.value,
              amount: 1,
              when,
              reason,
            });
          }
        }
      }
    }
  }
};
