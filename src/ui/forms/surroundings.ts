/** Air and hours around what is seen, asked from the engine in generous stretches so that a pan seldom waits. */
import { createEffect, createSignal, type Accessor } from 'solid-js';
import { minuteOf, WEEK, type Minute } from '../clock/index.ts';
import type { PersonOpen } from '../engine/index.ts';
import type { Session } from '../state/index.ts';
import { airLineOf, type AirLine } from './paint/index.ts';

type Stretch = readonly [Minute, Minute];

export interface Around {
  readonly air: ReadonlyMap<string, AirLine>;
  readonly closed: readonly Stretch[];
}

const NOTHING: Around = { air: new Map(), closed: [] };

export const createSurroundings = (session: Session, seen: Accessor<Stretch | null>): Accessor<Around> => {
  const [around, setAround] = createSignal<Around>(NOTHING);
  let asked: { from: Minute; to: Minute; plan: unknown } | null = null;
  createEffect(() => {
    const stretch = seen();
    const planned = session.planned();
    if (!stretch || !planned) return;
    const [from, to] = stretch;
    if (asked && asked.plan === planned && from >= asked.from && to <= asked.to) return;
    const span = Math.max(WEEK, to - from);
    const range = { from: Math.floor(from - span), to: Math.ceil(to + span) };
    const mine = { ...range, plan: planned };
    asked = mine;
    const clock = session.clock();
    session
      .ready()
      .then(() =>
        session.engine.ask('surroundings', {
          range: { from: clock.iso(range.from), to: clock.iso(range.to) },
        }),
      )
      .then((answer) => {
        if (asked !== mine) return;
        setAround({
          air: new Map(answer.air.map((room) => [room.room, airLineOf(room)])),
          closed: closedHours(answer.hours, range.from, range.to),
        });
      })
      .catch(() => {
        // The picture stands without its background; planning itself reports what is wrong with the engine.
        asked = null;
      });
  });
  return around;
};

/** The gaps between everybody's open hours in [from, to). */
const closedHours = (people: readonly PersonOpen[], from: Minute, to: Minute): readonly Stretch[] => {
  const open = people
    .flatMap((person) => person.open.map((span) => [minuteOf(span.from), minuteOf(span.to)] as const))
    .sort((a, b) => a[0] - b[0]);
  const closed: Stretch[] = [];
  let at = from;
  for (const [start, end] of open) {
    if (start > at) closed.push([at, Math.min(start, to)]);
    at = Math.max(at, end);
    if (at >= to) break;
  }
  if (at < to) closed.push([at, to]);
  return closed;
};
