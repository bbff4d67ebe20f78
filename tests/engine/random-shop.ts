/**
 * Any shop: an arbitrary of valid shop files, small but odd. Zones and weeks with a clock change, cold nights and
 * heating, windows that open at night, hours at night, too few forms, warm boxes, people who cannot do everything,
 * pins, and pieces that are half made already. Together with the moment at which it is planned.
 */
import { gen, integer } from 'fast-check';
import type { Arbitrary, GeneratorValue } from 'fast-check';
import { readShop } from '../../src/engine/shop/index.ts';
import type { Shop, ShopFile } from '../../src/engine/shop/index.ts';

export interface Occasion {
  readonly shop: Shop;
  readonly now: string;
}

/** Weeks with a change of the clocks, and one without. IANA tz database. */
const WEEKS = [
  { zone: 'America/New_York', date: '2026-03-05' },
  { zone: 'America/New_York', date: '2026-10-29' },
  { zone: 'Europe/Berlin', date: '2026-03-26' },
  { zone: 'Europe/Berlin', date: '2026-10-22' },
  { zone: 'Australia/Lord_Howe', date: '2026-04-02' },
  { zone: 'Australia/Lord_Howe', date: '2026-10-01' },
  { zone: 'Etc/UTC', date: '2026-06-10' },
] as const;

const SKILLS = ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish'] as const;

type Piece = NonNullable<ShopFile['pieces']>[number];

/** Chances of one case, drawn one after the other. */
export interface Dice {
  readonly pick: <T>(...things: readonly T[]) => T;
  /** A whole number, both ends included. */
  readonly whole: (least: number, most: number) => number;
  readonly maybe: (percent: number) => boolean;
}

const two = (n: number): string => String(n).padStart(2, '0');
const clock = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

/** A local moment some minutes after midnight of a date; days may be negative. */
function moment(date: string, minutes: number): string {
  return new Date(Date.parse(`${date}T00:00Z`) + minutes * 60_000).toISOString().slice(0, 16);
}

function hoursOf({ pick, whole }: Dice): ShopFile['people'][number]['hours'] {
  const morning = whole(300, 600);
  return pick<() => ShopFile['people'][number]['hours']>(
    () => [{ rule: 'FREQ=DAILY', from: clock(morning), to: clock(morning + whole(300, 780)) }],
    () => [
      { rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', from: '17:30', to: '22:10' },
      { rule: 'FREQ=WEEKLY;BYDAY=SA,SU', from: '08:00', to: '20:00' },
    ],
    () => [{ rule: 'FREQ=DAILY', from: '20:00', to: '03:20' }],
    () => [
      { rule: 'FREQ=DAILY', from: '01:15', to: '04:45' },
      { rule: 'FREQ=DAILY;INTERVAL=2', from: '11:00', to: '16:00', start: '2026-01-01' },
    ],
    () => [
      { rule: 'FREQ=DAILY', from: '07:00', to: '12:00' },
      { rule: 'FREQ=DAILY', from: '13:00', to: '18:30' },
    ],
    () => [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }],
  )();
}

function roomOf(id: string, date: string, dice: Dice): ShopFile['rooms'][number] {
  const { pick, whole, maybe } = dice;
  const low = whole(90, 200) / 10;
  const reading = (hour: number) => ({
    at: moment(date, hour * 60 + whole(0, 59)),
    degC: whole(110, 270) / 10,
  });
  const spaced = (from: number, step: number, count: number) =>
    Array.from({ length: count }, (_, i) => reading(from + i * step));
  return {
    id,
    name: id,
    dustSettleMinutes: whole(0, 240),
    temperature: {
      measured: maybe(30) ? spaced(-60, pick(3, 14), whole(1, 8)) : [],
      forecast: maybe(30) ? spaced(-6, pick(6, 20), whole(1, 6)) : [],
      pattern: {
        nightLowDegC: low,
        nightLowAt: clock(whole(180, 420)),
        dayHighDegC: low + whole(10, 90) / 10,
        dayHighAt: clock(whole(720, 1000)),
        heating: maybe(50)
          ? [
              {
                hours: {
                  rule: pick('FREQ=DAILY', 'FREQ=WEEKLY;BYDAY=MO,WE,TH,SU'),
                  from: clock(whole(0, 700)),
                  to: clock(whole(701, 1439)),
                },
                degC: whole(170, 260) / 10,
                warmUpMinutes: whole(0, 200),
              },
            ]
          : [],
      },
    },
    humidityPercent: maybe(40)
      ? maybe(50)
        ? whole(20, 65)
        : [
            { at: moment(date, 0), percent: whole(20, 65) },
            { at: moment(date, 3000), percent: whole(20, 75) },
          ]
      : undefined,
  };
}

function resinOf(id: string, { whole, maybe, pick }: Dice): ShopFile['resins'][number] {
  const opens = whole(40, 700);
  const closes = opens + whole(10, 600);
  const scuffable = opens + whole(0, 900);
  const demold = opens + whole(0, 2000);
  const machinable = demold + whole(0, 1500);
  return {
    id,
    name: id,
    kind: 'casting',
    mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
    referenceDegC: pick(20, 23, 25),
    workingTime: { minutes: whole(40, 90), batchMl: whole(400, 3000) },
    tackOpensMinutes: opens,
    tackClosesMinutes: closes,
    scuffableMinutes: scuffable,
    demoldMinutes: demold,
    machinableMinutes: machinable,
    fullCureMinutes: Math.max(closes, scuffable, machinable) + whole(0, 2500),
    ...(maybe(50) ? { activationEnergyKJPerMol: whole(43, 60) } : {}),
    lowestDegC: whole(60, 120) / 10,
    highestDegC: whole(280, 350) / 10,
    smallestDepthMm: 1,
    largestDepthMm: 12,
    largestBatchMl: whole(200, 4000),
    dewPointMarginK: whole(0, 30) / 10,
  };
}

function recipeOf(
  id: string,
  resins: readonly string[],
  tools: readonly string[],
  crowd: number,
  dice: Dice,
): ShopFile['recipes'][number] {
  const { pick, whole, maybe } = dice;
  const work = (least: number, most: number) => ({
    minutes: whole(least, most),
    minutesPerM2: maybe(40) ? whole(0, 40) : 0,
    hands: crowd > 1 && maybe(15) ? 2 : 1,
  });
  // Later passes begin when the earlier ones are surely over, so that one person can do them all.
  const passes = (count: number) => {
    let fromMinutes = whole(0, 20);
    return Array.from({ length: count }, () => {
      const pass = { fromMinutes, toMinutes: fromMinutes + whole(0, 25), minutes: whole(1, 6) };
      fromMinutes = pass.toMinutes + pass.minutes + whole(0, 10);
      return pass;
    });
  };
  const machining = () => ({
    work: work(5, 90),
    split: maybe(60),
    dust: maybe(80),
    ...(tools.length > 0 && maybe(60) ? { tool: pick(...tools) } : {}),
  });
  const thin = () => ({ resin: pick(...resins), work: work(2, 12), mixMinutes: whole(1, 6) });
  return {
    id,
    name: id,
    prepare: { work: work(5, 150), split: maybe(70) },
    ...(maybe(35) ? { seal: thin() } : {}),
    layers: Array.from({ length: whole(1, 3) }, () => ({
      resin: pick(...resins),
      depthMm: whole(2, 8),
      mixMinutes: whole(1, 7),
      pour: work(2, 10),
      bubblePasses: passes(pick(0, 1, 1, 2)),
      ...(maybe(30) ? { wood: { coverPercent: whole(0, 90) } } : {}),
    })),
    scuff: { work: work(5, 30) },
    demold: { work: work(5, 30) },
    ...(maybe(60) ? { flatten: machining() } : {}),
    ...(maybe(60) ? { sand: machining() } : {}),
    coats: Array.from({ length: pick(0, 0, 1, 2, 3) }, () => ({
      ...thin(),
      face: pick('top' as const, 'bottom' as const),
    })),
    flip: { work: work(2, 10) },
    ...(maybe(50) ? { finish: { work: work(5, 60), split: maybe(50) } } : {}),
  };
}

/** Facts of the past for the first steps of a piece, about as they would have gone; sometimes still under way. */
function pastOf(
  recipe: ShopFile['recipes'][number],
  date: string,
  dice: Dice,
): Pick<Piece, 'actuals' | 'touchTests'> {
  const { whole, maybe } = dice;
  let at = -whole(200, 2000);
  const actuals: NonNullable<Piece['actuals']> = [];
  const add = (step: string, minutes: number, isOpen: boolean): void => {
    actuals.push({
      step,
      started: moment(date, at),
      ...(isOpen ? {} : { ended: moment(date, at + minutes) }),
    });
    at += minutes;
  };
  const isPreparing = maybe(30);
  if (maybe(80) || isPreparing) add('prepare', whole(5, 90), isPreparing);
  if (isPreparing || recipe.seal || maybe(30)) return { actuals };
  at += whole(0, 60);
  const isPouring = maybe(15);
  if (isPouring) at = -whole(1, 8);
  const pouredAt = at;
  add('layer-1-pour', whole(2, 12), isPouring);
  const touchTests =
    maybe(50) && pouredAt < -30
      ? [
          {
            step: 'layer-1-pour',
            at: moment(date, -whole(0, 29)),
            found: dice.pick('wet' as const, 'tacky' as const, 'hard' as const),
          },
        ]
      : [];
  return { actuals, touchTests };
}

function shopFile(dice: Dice): { file: ShopFile; now: string } {
  const { pick, whole, maybe } = dice;
  const { zone, date } = pick<(typeof WEEKS)[number]>(...WEEKS);
  const rooms = Array.from({ length: whole(1, 2) }, (_, i) => roomOf(`room-${i + 1}`, date, dice));
  const crowd = whole(1, 2);
  const people = Array.from({ length: crowd }, (_, i) => ({
    id: `person-${i + 1}`,
    name: `Person ${i + 1}`,
    hours: hoursOf(dice),
    off: maybe(20)
      ? [{ from: moment(date, 1440).slice(0, 10), to: moment(date, whole(1, 2) * 1440).slice(0, 10) }]
      : [],
    unloved: maybe(20) ? [{ rule: 'FREQ=DAILY', from: '20:00', to: '24:00' }] : [],
    can: i === 0 || maybe(50) ? [...SKILLS] : SKILLS.filter(() => maybe(60)),
  }));
  // Two hands at once need two people who can and who meet.
  const isPair = crowd > 1 && people.every((p) => p.can.length === SKILLS.length);
  if (isPair) people[1] = { ...people[1], hours: [...people[0].hours] };
  const forms = Array.from({ length: whole(1, 2) }, (_, i) => ({
    id: `form-${i + 1}`,
    name: `Form ${i + 1}`,
    inside: { lengthMm: 600 + 100 * i, widthMm: 400, depthMm: 30 },
    count: whole(1, 2),
    turnaroundMinutes: whole(5, 60),
  }));
  const benches = rooms.map((room, i) => ({
    id: `bench-${i + 1}`,
    name: `Bench ${i + 1}`,
    room: room.id,
    ...(maybe(50) ? { spots: whole(2, 4) } : { areaCm2: whole(6500, 16000) }),
  }));
  const tools = maybe(50) ? [{ id: 'sled', name: 'Sled', room: pick(...rooms).id, count: 1 }] : [];
  const warmBoxes = maybe(40)
    ? [
        {
          id: 'tent',
          name: 'Tent',
          room: pick(...rooms).id,
          setDegC: whole(220, 320) / 10,
          heatUpMinutes: whole(0, 120),
          ...(maybe(50) ? { spots: whole(1, 2) } : { areaCm2: whole(3000, 8000) }),
        },
      ]
    : [];
  const resins = Array.from({ length: whole(1, 2) }, (_, i) => resinOf(`resin-${i + 1}`, dice));
  const recipes = Array.from({ length: whole(1, 2) }, (_, i) =>
    recipeOf(
      `recipe-${i + 1}`,
      resins.map((r) => r.id),
      tools.map((t) => t.id),
      isPair ? 2 : 1,
      dice,
    ),
  );
  const pieces = Array.from({ length: pick(1, 1, 2, 2, 3, 4) }, (_, i) => {
    const recipe = pick(...recipes);
    const pins: NonNullable<Piece['pins']> = [];
    const [hours] = people[0].hours;
    // A pin somewhere in the first hour of someone's hours: it may do, and it may be impossible.
    if (maybe(3))
      pins.push({
        step: 'prepare',
        at: `${moment(date, 1440 * whole(1, 3)).slice(0, 11)}${hours.from.slice(0, 2)}:${two(whole(30, 59))}`,
      });
    if (recipe.layers.length > 1 && maybe(8))
      pins.push({ step: 'layer-2-pour', way: pick('recoat' as const, 'scuff' as const) });
    return {
      id: `piece-${i + 1}`,
      name: `Piece ${i + 1}`,
      recipe: recipe.id,
      size: { lengthMm: whole(200, 600), widthMm: whole(100, 400) },
      due: moment(date, whole(1440, 9 * 1440)),
      weight: whole(1, 3),
      ...(maybe(20) ? { earliest: moment(date, whole(0, 2880)) } : {}),
      ...(maybe(15) ? { forms: ['form-1'] } : {}),
      pins,
      // The more there is begun already, the more often it cannot go on.
      ...(maybe(i === 0 ? 35 : 4) ? pastOf(recipe, date, dice) : {}),
    };
  });
  const file: ShopFile = {
    format: 'pourwright.shop',
    version: 1,
    name: 'Any shop',
    zone,
    rooms,
    people,
    closures: maybe(15)
      ? [{ from: moment(date, 2880).slice(0, 10), to: moment(date, 2880).slice(0, 10) }]
      : [],
    forms,
    benches,
    warmBoxes,
    tools,
    resins,
    recipes,
    pieces,
  };
  return { file, now: moment(date, 0) };
}

export function diceOf(g: GeneratorValue): Dice {
  const whole = (min: number, max: number): number => g(integer, { min, max });
  return {
    whole,
    pick: (...things) => things[whole(0, things.length - 1)],
    maybe: (percent) => whole(0, 99) < percent,
  };
}

/** Any shop, and when it is planned. */
export const anyOccasion: Arbitrary<Occasion> = gen().map((g) => {
  const { file, now } = shopFile(diceOf(g));
  const read = readShop(JSON.parse(JSON.stringify(file)));
  if (!read.ok) throw new Error(`the arbitrary made a shop that is none: ${JSON.stringify(read.faults)}`);
  return { shop: read.shop, now };
});
