/**
 * The ground a plan stands on: the shop's clock, everyone's open hours, every room's air, and how each resin cures
 * in each of the places where a piece may stand. Made once a plan; the maps in it are shared by all pieces.
 */
import {
  constantTemperature,
  equivalentAge,
  fitActivationEnergy,
  patternKnots,
  roomTemperature,
  warmBoxLastWithinMap,
  warmBoxReachMap,
  lastWithinMap,
  reachMap,
  unstalled,
  workingTimeMap,
} from '../cure/index.ts';
import type { EquivalentAge, Kinetics, TemperatureSeries } from '../cure/index.ts';
import type { MonotoneMap } from '../schedule/model.ts';
import type { Person, Resin, Room, Shop, WarmBox } from '../shop/index.ts';
import { fallback } from '../shop/index.ts';
import type { Clock, Intervals } from '../time/index.ts';
import {
  addDays,
  intersect,
  localParts,
  makeClock,
  openIntervals,
  subtract,
  toMinute,
} from '../time/index.ts';
import type { Application } from './itinerary.ts';
import { airByMinute, pourableStarts, pourKey, suitableAir } from './pourable.ts';
import type { RoomAirByMinute } from './pourable.ts';

/** Where a piece stands while it cures: open in a room, or in a warm box of that room. */
export interface Standing {
  readonly room: Room;
  readonly box: WarmBox | null;
  /** Minutes from the start of an application until the piece is in the box; 0 without a box. */
  readonly boxAfterMinutes: number;
}

export type MilestoneName = 'opens' | 'closes' | 'scuffable' | 'demold' | 'machinable' | 'fullCure';

export interface Ground {
  readonly shop: Shop;
  readonly clock: Clock;
  /** The present minute; nothing is planned before it. */
  readonly now: number;
  /** Minutes after the epoch beyond which nothing is planned. */
  readonly horizon: number;
  readonly open: ReadonlyMap<string, Intervals>;
  /** The loved part of a person's hours, where some are not. */
  readonly loved: ReadonlyMap<string, Intervals>;
  /** The minutes that two calendars share; asked again, the same array. */
  both(a: Intervals, b: Intervals): Intervals;
  readonly temperature: ReadonlyMap<string, TemperatureSeries>;
  readonly humidityPercent: ReadonlyMap<string, TemperatureSeries>;
  resin(id: string): Resin;
  age(room: Room, resin: Resin): EquivalentAge;
  /** Minute of application -> minute of the milestone; `factor` stretches the sheet's time (a touch test). */
  milestone(standing: Standing, resin: Resin, name: MilestoneName, factor?: number): MonotoneMap;
  /** Minute of application -> first (or last) minute with this much age. */
  reach(standing: Standing, resin: Resin, equivalentMinutes: number): MonotoneMap;
  within(standing: Standing, resin: Resin, equivalentMinutes: number): MonotoneMap;
  /** Start of the mix -> last minute at which so large a cup can still be poured. */
  workingUntil(room: Room, resin: Resin, batchMl: number): MonotoneMap;
  /** Starts of an application's block at which air and working time allow it in the room. */
  pourable(room: Room, resin: Resin, application: Application): Intervals;
}

/** The milestone of a resin in equivalent minutes at its reference temperature. */
export const equivalentMinutes = (resin: Resin, name: MilestoneName): number =>
  ({
    opens: resin.tackOpensMinutes,
    closes: resin.tackClosesMinutes,
    scuffable: resin.scuffableMinutes,
    demold: resin.demoldMinutes,
    machinable: resin.machinableMinutes,
    fullCure: resin.fullCureMinutes,
  })[name];

/** How a resin's speed follows temperature: as stated, else fitted to its second point, else our default. */
export function kineticsOf(resin: Resin): Kinetics {
  const { referenceDegC, lowestDegC, secondPoint } = resin;
  const stated = resin.activationEnergyKJPerMol;
  const activationEnergyJPerMol =
    stated !== undefined
      ? stated * 1000
      : secondPoint
        ? fitActivationEnergy(
            { degC: referenceDegC, minutes: resin.tackOpensMinutes },
            { degC: secondPoint.degC, minutes: secondPoint.tackOpensMinutes },
          )
        : fallback.activationEnergyKJPerMol.value * 1000;
  return { activationEnergyJPerMol, referenceDegC, lowestDegC };
}

/** When work is written down to have begun and ended, in minutes of `clock`. */
const workMinutes = (shop: Shop, clock: Clock): number[] =>
  shop.pieces.flatMap(({ actuals }) =>
    actuals.flatMap(({ started, ended }) =>
      [started, ended].flatMap((at) => (at === undefined ? [] : toMinute(clock, at))),
    ),
  );

/** The moments at which something of the past is known, in minutes of `clock`. */
const pastMinutes = (shop: Shop, clock: Clock): number[] => [
  ...workMinutes(shop, clock),
  ...shop.pieces.flatMap(({ touchTests }) => touchTests.map((t) => toMinute(clock, t.at))),
];

/** The clock of a plan: minute 0 is a local midnight, three days before all that is known to have happened. */
export function planClock(shop: Shop, now: string): Clock {
  const rough = makeClock(shop.zone, now);
  const first = pastMinutes(shop, rough).reduce((a, b) => Math.min(a, b), 0);
  return makeClock(shop.zone, addDays(localParts(rough, first).date, -3));
}

/** A cache that makes each value once. */
function remember<V>(): (key: string, make: () => V) => V {
  const known = new Map<string, V>();
  return (key, make) => {
    let value = known.get(key);
    if (value === undefined) {
      value = make();
      known.set(key, value);
    }
    return value;
  };
}

/** The temperature of every room from minute 0 to `horizon`: measured, else forecast, else its daily pattern. */
export function roomTemperatures(
  shop: Shop,
  clock: Clock,
  horizon: number,
): ReadonlyMap<string, TemperatureSeries> {
  const readings = (list: readonly { at: string; degC: number }[]) =>
    list.map((r) => ({ minute: toMinute(clock, r.at), degC: r.degC }));
  return new Map(
    shop.rooms.map((r) => {
      const { measured, forecast, pattern } = r.temperature;
      const heating = pattern.heating.map((h) => ({
        open: openIntervals([h.hours], [], clock, horizon),
        degC: h.degC,
        warmUpMinutes: h.warmUpMinutes,
      }));
      const series = roomTemperature({
        measured: readings(measured),
        forecast: readings(forecast),
        pattern: patternKnots({ ...pattern, heating }, clock, horizon),
      });
      return [r.id, series];
    }),
  );
}

/** A person's hours, or the unloved part of them, less their days off and the shop's. */
export const hoursOf = (
  shop: Shop,
  person: Person,
  which: 'hours' | 'unloved',
  clock: Clock,
  horizon: number,
): Intervals => openIntervals(person[which], [...person.off, ...shop.closures], clock, horizon);

/** What of the ground is the same from one plan to the next while rooms, people and resins stay as they are. */
type Base = Omit<Ground, 'shop' | 'now'>;

/**
 * The last base made: planning again after an edit to a piece finds all its tables ready. A cache of what is equal,
 * not a state: it is found by the content of everything that goes into it.
 */
let lastBase: { readonly key: string; readonly base: Base } | null = null;

const DAY = 1440;

/** The present minute: that of the device, or of the last work written down where its clock is behind. */
const presentOf = (shop: Shop, clock: Clock, now: string): number =>
  workMinutes(shop, clock).reduce((a, b) => Math.max(a, b), toMinute(clock, now));

/**
 * @param now ISO moment; nothing is planned before it, nor before what is written down to have happened
 * @param horizonMinutes how far after `now` to plan, at least; the last day is a whole one
 * @throws RangeError where a time or a rule of the shop cannot be read
 */
export function makeGround(shop: Shop, now: string, horizonMinutes: number): Ground {
  const clock = planClock(shop, now);
  const nowMinute = presentOf(shop, clock, now);
  const horizon = Math.ceil((nowMinute + horizonMinutes) / DAY) * DAY;
  const { rooms, people, closures, resins, warmBoxes } = shop;
  const key = JSON.stringify([clock, horizon, rooms, people, closures, resins, warmBoxes]);
  if (lastBase?.key !== key) lastBase = { key, base: makeBase(shop, clock, horizon) };
  return { ...lastBase.base, shop, now: nowMinute };
}

function makeBase(shop: Shop, clock: Clock, horizon: number): Base {
  const calendars = remember<Intervals>();
  // People with the same hours share one calendar, and with it all that is made of it.
  const shared = (hours: Intervals): Intervals => calendars(hours.join(), () => hours);
  const open = new Map(shop.people.map((p) => [p.id, shared(hoursOf(shop, p, 'hours', clock, horizon))]));
  const loved = new Map(
    shop.people
      .filter((p) => p.unloved.length > 0)
      .map((p) => [
        p.id,
        shared(subtract(open.get(p.id) as Intervals, hoursOf(shop, p, 'unloved', clock, horizon))),
      ]),
  );
  const temperature = roomTemperatures(shop, clock, horizon);
  const humidityPercent = new Map<string, TemperatureSeries>();
  for (const r of shop.rooms) {
    if (typeof r.humidityPercent === 'number')
      humidityPercent.set(r.id, constantTemperature(r.humidityPercent));
    else if (r.humidityPercent && r.humidityPercent.length > 0) {
      humidityPercent.set(
        r.id,
        roomTemperature({
          measured: r.humidityPercent.map((h) => ({ minute: toMinute(clock, h.at), degC: h.percent })),
        }),
      );
    }
  }
  const resins = new Map(shop.resins.map((r) => [r.id, r]));
  const togethers = new Map<Intervals, Map<Intervals, Intervals>>();
  const ages = remember<EquivalentAge>();
  const maps = remember<MonotoneMap>();
  const starts = remember<Intervals>();
  const airs = remember<RoomAirByMinute>();
  const warmests = remember<number>();

  const both = (a: Intervals, b: Intervals): Intervals => {
    if (a === b) return a;
    let known = togethers.get(a);
    if (!known) togethers.set(a, (known = new Map()));
    let found = known.get(b);
    if (!found) known.set(b, (found = shared(intersect(a, b))));
    return found;
  };
  const age = (room: Room, resin: Resin): EquivalentAge =>
    ages(`room ${room.id} ${resin.id}`, () =>
      equivalentAge(temperature.get(room.id) as TemperatureSeries, kineticsOf(resin), 0, horizon),
    );
  const key = (s: Standing): string => `${s.room.id} ${s.box ? `${s.box.id} ${s.boxAfterMinutes}` : '-'}`;
  const reach = (standing: Standing, resin: Resin, needed: number): MonotoneMap =>
    maps(`reach ${key(standing)} ${resin.id} ${needed}`, () =>
      standing.box
        ? warmBoxReachMap(age(standing.room, resin), standing.box, standing.boxAfterMinutes, needed)
        : reachMap(age(standing.room, resin), needed),
    );
  const within = (standing: Standing, resin: Resin, needed: number): MonotoneMap =>
    maps(`within ${key(standing)} ${resin.id} ${needed}`, () =>
      standing.box
        ? warmBoxLastWithinMap(
            unstalled(age(standing.room, resin)),
            standing.box,
            standing.boxAfterMinutes,
            needed,
          )
        : lastWithinMap(unstalled(age(standing.room, resin)), needed),
    );

  const workingUntil = (room: Room, resin: Resin, batchMl: number): MonotoneMap =>
    workingTimeMap(
      age(room, resin),
      { minutes: resin.workingTime.minutes, referenceBatchMl: resin.workingTime.batchMl },
      Math.max(1, Math.min(batchMl, resin.largestBatchMl)),
    );

  return {
    clock,
    horizon,
    open,
    loved,
    both,
    temperature,
    humidityPercent,
    age,
    reach,
    within,
    workingUntil,
    resin: (id) => {
      const found = resins.get(id);
      if (!found) throw new RangeError(`there is no resin "${id}"`);
      return found;
    },
    milestone: (standing, resin, name, factor = 1) =>
      (name === 'closes' ? within : reach)(standing, resin, equivalentMinutes(resin, name) * factor),
    pourable: (room, resin, application) =>
      starts(`${room.id} ${resin.id} ${pourKey(application)}`, () => {
        const inRoom = airs(room.id, () =>
          airByMinute(temperature.get(room.id) as TemperatureSeries, humidityPercent.get(room.id), horizon),
        );
        const suitable = starts(`${room.id} ${resin.id}`, () => suitableAir(inRoom, resin));
        const warmest = warmests(room.id, () => inRoom.degC.reduce((a, b) => Math.max(a, b)));
        return pourableStarts(suitable, age(room, resin), warmest, resin, application);
      }),
  };
}
