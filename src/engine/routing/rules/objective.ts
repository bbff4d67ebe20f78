/** What makes one plan better than another, besides its windows: dates, visits, and things free early. */
import { startsThatFit, subtract, toDeadline, union } from '../../time/index.ts';
import type { Intervals } from '../../time/index.ts';
import type { Literal } from '../../schedule/model.ts';
import { no, yes } from '../model-builder.ts';
import type { RoutedBlock } from '../piece-route.ts';
import type { Rule } from './rule.ts';

export const VISIT_COST = 1;
export const UNLOVED_COST = 2;
export const CUP_COST = 1;

/** Minutes by which a piece is late, times its weight. */
export const dueTimes: Rule = (builder, ground, routes) => {
  for (const { itinerary, blocks } of routes) {
    const { due, weight } = itinerary.piece;
    const ready = blocks[blocks.length - 1];
    const after = Math.max(0, toDeadline(ground.clock, due));
    builder.cost('tardiness', { kind: 'late', start: ready.start, after, weight });
  }
};

/** Every opening of a person's hours in which they have something to do is a visit; unloved hours cost besides. */
export const visits: Rule = (builder, ground, routes) => {
  for (const person of ground.shop.people) {
    const open = ground.open.get(person.id) as Intervals;
    const starts: number[] = [];
    const when: (readonly Literal[])[] = [];
    for (const { blocks } of routes) {
      for (const { start, past, present, crews } of blocks) {
        const crew = crews.find((c) => c.value.people.includes(person));
        if (!crew || past) continue;
        starts.push(start);
        when.push([...present, ...crew.when]);
      }
    }
    if (starts.length === 0 || open.length === 0) continue;
    const openings = [...open].filter((_, i) => i % 2 === 0);
    const edges = Int32Array.from([...openings, ground.horizon + 1]);
    builder.cost('visits', { kind: 'buckets', starts, when, edges, weight: VISIT_COST });
  }
  for (const { itinerary, blocks } of routes) {
    for (const { block, start, past, present, crews } of blocks) {
      const disliked = crews.filter((c) => c.value.people.some((p) => ground.loved.has(p.id)));
      if (past || disliked.length === 0) continue;
      const reason = builder.reason('unloved', itinerary.piece.id, block.id, 'hours that are not loved');
      const loved = builder.wish(`${itinerary.piece.id} ${block.id} in loved hours`);
      builder.cost('visits', { kind: 'choice', when: no(loved), weight: UNLOVED_COST });
      for (const crew of disliked) {
        const hours = crew.value.people.reduce(
          (left, p) => (ground.loved.has(p.id) ? subtract(left, notLoved(ground, p.id)) : left),
          crew.value.open,
        );
        const allowed = startsThatFit(hours, block.split ? 1 : Math.max(1, block.minutes));
        builder.opening(start, allowed, [yes(loved), ...present, ...crew.when], reason);
      }
    }
  }
};

const notLoved = (ground: Parameters<Rule>[1], person: string): Intervals =>
  subtract(ground.open.get(person) as Intervals, ground.loved.get(person) as Intervals);

/** Every visit in which a resin is mixed soils a cup: pours of one resin that fall together share it. */
export const cups: Rule = (builder, ground, routes) => {
  const anyone = [...ground.open.values()].reduce(union);
  const edges = Int32Array.from([...anyone.filter((_, i) => i % 2 === 0), ground.horizon + 1]);
  if (anyone.length === 0) return;
  for (const resin of ground.shop.resins) {
    const starts = routes.flatMap(({ blocks }) =>
      blocks.filter((b) => b.block.application?.resin === resin.id && !b.past).map((b) => b.start),
    );
    if (starts.length > 1) {
      builder.cost('visits', { kind: 'buckets', starts, edges, weight: CUP_COST });
    }
  }
};

/** Minutes until each form is free and each piece ready. */
export const early: Rule = (builder, ground, routes) => {
  for (const { blocks, byId } of routes) {
    const ready = blocks[blocks.length - 1];
    for (const { start, past } of [byId.get('turnaround') as RoutedBlock, ready]) {
      if (!past) builder.cost('early', { kind: 'late', start, after: ground.now, weight: 1 });
    }
  }
};
