/** What makes one plan better than another, besides its windows: dates, visits, and things free early. */
import { startsThatFit, toDeadline, union } from '../../time/index.ts';
import type { Intervals } from '../../time/index.ts';
import type { Literal } from '../../schedule/model.ts';
import type { Person } from '../../shop/index.ts';
import { no, yes } from '../model-builder.ts';
import type { RoutedBlock } from '../piece-route.ts';
import type { Rule } from './rule.ts';

const VISIT_COST = 1;
const UNLOVED_COST = 2;
/** A soiled cup weighs as much as having a form or a piece so many minutes later. Common practice, no source. */
const CUP_MINUTES = 60;
/** Whoever is there for so long is at work in the shop anyway: coming is no extra visit. Common practice, no source. */
const FULL_DAY_MINUTES = 8 * 60;

/** Minutes by which a piece is late, times its weight. */
export const dueTimes: Rule = (builder, ground, routes) => {
  for (const { itinerary, blocks } of routes) {
    const { due, weight } = itinerary.piece;
    const ready = blocks[blocks.length - 1];
    const after = Math.max(0, toDeadline(ground.clock, due));
    builder.cost('tardiness', { kind: 'late', start: ready.start, after, weight });
  }
};

/**
 * The edges of openings too short to be a working day, run by run: each opening between two edges is a visit that
 * could be saved. A run ends where a full day comes between.
 */
export function visitEdges(open: Intervals): Int32Array[] {
  const runs: number[][] = [];
  let run: number[] | null = null;
  for (let i = 0; i < open.length; i += 2) {
    const isVisit = open[i + 1] - open[i] < FULL_DAY_MINUTES;
    if (isVisit && run) run[run.length - 1] = open[i];
    if (isVisit && !run) runs.push((run = [open[i]]));
    if (isVisit) run?.push(open[i + 1]);
    else run = null;
  }
  return runs.map((edges) => Int32Array.from(edges));
}

/** Coming to the shop for a short while is a visit, whatever is done in it; unloved hours cost besides. */
export const visits: Rule = (builder, ground, routes) => {
  const coming = new Map<string, { readonly starts: number[]; readonly when: (readonly Literal[])[] }>(
    ground.shop.people.map((person) => [person.id, { starts: [], when: [] }]),
  );
  for (const { blocks } of routes) {
    for (const { start, past, present, crews } of blocks) {
      if (past) continue;
      for (const { value, when } of crews) {
        for (const person of value.people) {
          const his = coming.get(person.id);
          his?.starts.push(start);
          his?.when.push([...present, ...when]);
        }
      }
    }
  }
  for (const [person, { starts, when }] of coming) {
    if (starts.length === 0) continue;
    for (const edges of visitEdges(ground.open.get(person) as Intervals)) {
      builder.cost('visits', { kind: 'buckets', starts, when, edges, weight: VISIT_COST });
    }
  }
  const lovedBy = (person: Person): Intervals =>
    ground.loved.get(person.id) ?? (ground.open.get(person.id) as Intervals);
  for (const { itinerary, blocks } of routes) {
    for (const { block, start, past, present, crews } of blocks) {
      const disliked = crews.filter((c) => c.value.people.some((p) => ground.loved.has(p.id)));
      if (past || disliked.length === 0) continue;
      const reason = builder.reason('unloved', itinerary.piece.id, block.id, 'hours that are not loved');
      const loved = builder.wish(`${itinerary.piece.id} ${block.id} in loved hours`);
      builder.cost('visits', { kind: 'choice', when: no(loved), weight: UNLOVED_COST });
      for (const crew of disliked) {
        const hours = crew.value.people.map(lovedBy).reduce(ground.both);
        const allowed = startsThatFit(hours, block.split ? 1 : Math.max(1, block.minutes));
        builder.opening(start, allowed, [yes(loved), ...present, ...crew.when], reason);
      }
    }
  }
};

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
      builder.cost('early', { kind: 'buckets', starts, edges, weight: CUP_MINUTES });
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
