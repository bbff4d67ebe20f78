/**
 * What a check reads of the shop before it looks at any plan: the zone, each room's air, everyone's hours, and how resin ages in a room.
 * Plans of one shop are checked one after the other while rooms and people stay as they are, so the last of these is kept. It is a cache
 * of what is equal, not a state: found by the content of everything that goes into it.
 */
import type { Shop } from '../shop/index.ts';
import { agesInRoom } from './age.ts';
import type { Speed } from './age.ts';
import { openMinutes } from './hours.ts';
import type { Span } from './hours.ts';
import { MINUTES_A_DAY } from './minutes.ts';
import type { Minute } from './minutes.ts';
import { degCAt, roomKnots } from './temperature.ts';
import { makeZone } from './zone.ts';
import type { Zone } from './zone.ts';

export interface Surroundings {
  readonly zone: Zone;
  /** True when the person is there for the whole minute that begins now. */
  isThere(person: string, at: Minute): boolean;
  degC(room: string, at: number): number;
  /** Equivalent minutes that resin of this speed gathers in a room between two minutes of the span. */
  ageInRoom(room: string, speed: Speed, from: Minute, to: Minute): number;
}

const WEEK = 7 * MINUTES_A_DAY;

/** Whole weeks around the span: what is known for one plan then serves the next, which ends a little earlier or later. */
const wholeWeeks = ({ from, to }: Span): Span => ({
  from: Math.floor(from / WEEK) * WEEK,
  to: Math.ceil(to / WEEK) * WEEK,
});

let last: { readonly key: string; readonly surroundings: Surroundings } | null = null;

/** @throws RangeError when the platform does not know the shop's time zone */
export function surroundingsOf(shop: Shop, span: Span): Surroundings {
  const weeks = wholeWeeks(span);
  const key = JSON.stringify([shop.zone, shop.rooms, shop.people, shop.closures, weeks]);
  if (last?.key !== key) last = { key, surroundings: makeSurroundings(shop, weeks) };
  return last.surroundings;
}

function makeSurroundings(shop: Shop, span: Span): Surroundings {
  const zone = makeZone(shop.zone);
  const knots = new Map(shop.rooms.map((room) => [room.id, roomKnots(room, zone, span)]));
  const open = new Map(
    shop.people.map((person) => [
      person.id,
      openMinutes(person.hours, [...person.off, ...shop.closures], zone, span),
    ]),
  );
  const sums = new Map<string, Float64Array>();
  const sumsOf = (room: string, speed: Speed): Float64Array => {
    const name = `${room} ${speed.energyKelvin} ${speed.referenceDegC} ${speed.lowestDegC}`;
    let found = sums.get(name);
    if (!found) sums.set(name, (found = agesInRoom(speed, knots.get(room) ?? [], span)));
    return found;
  };
  return {
    zone,
    isThere: (person, at) => open.get(person)?.[at - span.from] === 1,
    degC: (room, at) => degCAt(knots.get(room) ?? [{ minute: 0, degC: Number.NaN }], at),
    ageInRoom: (room, speed, from, to) => {
      const ages = sumsOf(room, speed);
      return ages[to - span.from] - ages[from - span.from];
    },
  };
}
