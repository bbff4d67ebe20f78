/** What runs behind a plan: the air of the rooms and the hours in which people are there. */
import { temperatureAt } from '../cure/index.ts';
import { hoursOf, roomTemperatures } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';
import { intersect, makeClock, toIso, toMinute } from '../time/index.ts';
import type { Clock, Intervals } from '../time/index.ts';
import type { Span } from './cures.ts';

/** The air of one room, one sample an hour. */
export interface RoomAir {
  readonly room: string;
  readonly samples: readonly { readonly at: string; readonly degC: number }[];
}

export interface PersonOpen {
  readonly person: string;
  readonly open: readonly Span[];
  readonly unloved: readonly Span[];
}

const HOUR = 60;

const spans = (clock: Clock, intervals: Intervals): Span[] =>
  Array.from({ length: intervals.length / 2 }, (_, i) => ({
    from: toIso(clock, intervals[2 * i]),
    to: toIso(clock, intervals[2 * i + 1]),
  }));

/** @throws RangeError for a range that cannot be read */
export function air(shop: Shop, range: Span): readonly RoomAir[] {
  const clock = makeClock(shop.zone, range.from);
  const end = toMinute(clock, range.to);
  const rooms = roomTemperatures(shop, clock, end);
  return shop.rooms.map(({ id }) => {
    const series = rooms.get(id);
    if (!series) return { room: id, samples: [] };
    const samples = Array.from({ length: Math.floor(end / HOUR) + 1 }, (_, hour) => ({
      at: toIso(clock, hour * HOUR),
      degC: temperatureAt(series, hour * HOUR),
    }));
    return { room: id, samples };
  });
}

/** @throws RangeError for a range that cannot be read */
export function openHours(shop: Shop, range: Span): readonly PersonOpen[] {
  const clock = makeClock(shop.zone, range.from);
  const end = toMinute(clock, range.to);
  return shop.people.map((person) => {
    const open = hoursOf(shop, person, 'hours', clock, end);
    return {
      person: person.id,
      open: spans(clock, open),
      unloved: spans(clock, intersect(open, hoursOf(shop, person, 'unloved', clock, end))),
    };
  });
}
