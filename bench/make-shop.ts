/**
 * Makes a shop of any size: people with different skills, a pour room and a dust room, forms as the bottleneck.
 * The same numbers and seed give the same shop. `examples/six-weeks.shop.json` is what
 * `npx tsx bench/make-shop.ts` prints; other sizes: `npx tsx bench/make-shop.ts PIECES FORMS PEOPLE SEED`.
 *
 * Due dates come from a rough count (each form holds one piece after another, then the piece rests, is machined,
 * coated and cures), so that every date can be met in principle but not with idle forms. Meant for a plan made
 * at `SHOP_STARTS`.
 */
import { pathToFileURL } from 'node:url';
import type { ShopFile } from '../src/engine/shop/index.ts';

export interface ShopMeasure {
  readonly pieces: number;
  readonly forms: number;
  readonly people: number;
  readonly seed: number;
}

/** The measure of `examples/six-weeks.shop.json`. */
export const SIX_WEEKS: ShopMeasure = { pieces: 40, forms: 12, people: 3, seed: 7 };

/** The moment (in the shop's zone) at which planning begins. */
export const SHOP_STARTS = '2026-11-25T07:00';

type FormFile = ShopFile['forms'][number];
type PersonFile = ShopFile['people'][number];
type RecipeFile = ShopFile['recipes'][number];
type ResinFile = ShopFile['resins'][number];

/** A kind of form, the recipes cast in it, and how often it stands in a shop. */
interface Cast {
  readonly form: FormFile;
  readonly share: number;
  readonly recipes: readonly { readonly id: string; readonly holdDays: number; readonly tailDays: number }[];
  readonly lengths: readonly number[];
  readonly widths: readonly number[];
}

const RIVER = { id: 'river-board', holdDays: 8, tailDays: 8 };
const SERVING = { id: 'serving-board', holdDays: 8, tailDays: 8.5 };
const TRAY = { id: 'tray', holdDays: 6, tailDays: 8.5 };
const PANEL = { id: 'panel', holdDays: 8.5, tailDays: 8.5 };

const CASTS: readonly Cast[] = [
  {
    form: { id: 'board-form', name: 'Board form', inside: { lengthMm: 520, widthMm: 320, depthMm: 55 } },
    share: 5,
    recipes: [RIVER, SERVING],
    lengths: [460, 480, 500],
    widths: [280, 300],
  },
  {
    form: {
      id: 'tray-form',
      name: 'Tray form',
      inside: { lengthMm: 420, widthMm: 320, depthMm: 45 },
      turnaroundMinutes: 35,
    },
    share: 3,
    recipes: [TRAY],
    lengths: [360, 380, 400],
    widths: [260, 300],
  },
  {
    form: { id: 'long-form', name: 'Long form', inside: { lengthMm: 720, widthMm: 320, depthMm: 55 } },
    share: 2,
    recipes: [RIVER, SERVING],
    lengths: [640, 700],
    widths: [280, 300],
  },
  {
    form: {
      id: 'panel-form',
      name: 'Panel form',
      inside: { lengthMm: 900, widthMm: 420, depthMm: 60 },
      turnaroundMinutes: 60,
    },
    share: 2,
    recipes: [PANEL],
    lengths: [820, 880],
    widths: [360, 400],
  },
];

const RESINS: readonly ResinFile[] = [
  {
    id: 'tarn-slow',
    name: 'Tarn Slow Cast',
    kind: 'casting',
    mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
    workingTime: { minutes: 90, batchMl: 1500 },
    tackOpensMinutes: 1440,
    tackClosesMinutes: 2400,
    scuffableMinutes: 2880,
    demoldMinutes: 4320,
    machinableMinutes: 5400,
    fullCureMinutes: 10080,
    activationEnergyKJPerMol: 53,
    lowestDegC: 15,
    highestDegC: 28,
    smallestDepthMm: 6,
    largestDepthMm: 50,
    largestBatchMl: 8000,
    stock: { ml: 40000 },
  },
  {
    id: 'mere-medium',
    name: 'Mere Medium Cast',
    kind: 'casting',
    mix: { by: 'mass', a: 100, b: 45, densityAGPerMl: 1.12, densityBGPerMl: 1 },
    workingTime: { minutes: 50, batchMl: 1000 },
    tackOpensMinutes: 720,
    tackClosesMinutes: 1320,
    scuffableMinutes: 1800,
    demoldMinutes: 2160,
    machinableMinutes: 2880,
    fullCureMinutes: 7200,
    secondPoint: { degC: 30, tackOpensMinutes: 440 },
    lowestDegC: 15,
    highestDegC: 28,
    smallestDepthMm: 3,
    largestDepthMm: 25,
    largestBatchMl: 4000,
    stock: { ml: 15000 },
  },
  {
    id: 'quick-flood',
    name: 'Quickwater Flood',
    kind: 'table-top',
    mix: { by: 'volume', a: 1, b: 1, densityAGPerMl: 1.13, densityBGPerMl: 0.99 },
    workingTime: { minutes: 25, batchMl: 500 },
    tackOpensMinutes: 240,
    tackClosesMinutes: 600,
    scuffableMinutes: 960,
    demoldMinutes: 1440,
    machinableMinutes: 2880,
    fullCureMinutes: 4320,
    activationEnergyKJPerMol: 55,
    lowestDegC: 16,
    highestDegC: 28,
    smallestDepthMm: 0.3,
    largestDepthMm: 4,
    largestBatchMl: 1500,
    stock: { ml: 12000 },
  },
  {
    id: 'gloam-seal',
    name: 'Gloam Wood Seal',
    kind: 'seal',
    mix: { by: 'volume', a: 1, b: 1, densityAGPerMl: 1.12, densityBGPerMl: 0.98 },
    workingTime: { minutes: 25, batchMl: 200 },
    tackOpensMinutes: 60,
    tackClosesMinutes: 600,
    scuffableMinutes: 900,
    demoldMinutes: 1440,
    machinableMinutes: 1440,
    fullCureMinutes: 4320,
    lowestDegC: 15,
    highestDegC: 30,
    smallestDepthMm: 0.1,
    largestDepthMm: 1,
    largestBatchMl: 500,
    stock: { ml: 4000 },
  },
];

const flood = (face: 'top' | 'bottom') => ({
  resin: 'quick-flood',
  coverMlPerM2: 700,
  work: { minutes: 6, minutesPerM2: 25 },
  face,
});

const cast = (resin: string, depthMm: number, wood: number, minutes: number, hands = 1) => ({
  resin,
  depthMm,
  wood: { coverPercent: wood },
  pour: { minutes, hands },
});

const planed = { work: { minutes: 20, minutesPerM2: 150 }, tool: 'planer' };
const sanded = { work: { minutes: 25, minutesPerM2: 180 }, tool: 'drum-sander' };
const sealed = { resin: 'gloam-seal', coverMlPerM2: 250, work: { minutes: 5, minutesPerM2: 25 } };

const recipesFor = (people: number): RecipeFile[] => [
  {
    id: 'river-board',
    name: 'River board, three layers, flood coat on top',
    prepare: { work: { minutes: 75, minutesPerM2: 100 } },
    seal: sealed,
    layers: [
      { ...cast('tarn-slow', 12, 60, 8), tint: { name: 'sea blue mica', gPerL: 2.8 } },
      {
        ...cast('quick-flood', 1.6, 60, 5),
        tint: { name: 'pearl white mica', gPerL: 4 },
        bubblePasses: [{ fromMinutes: 5, toMinutes: 20, minutes: 4 }],
      },
      cast('tarn-slow', 10, 60, 8),
    ],
    demold: { work: { minutes: 25 } },
    flatten: planed,
    sand: sanded,
    coats: [flood('top')],
    finish: { work: { minutes: 30 } },
  },
  {
    id: 'serving-board',
    name: 'Serving board, two layers, oiled',
    prepare: { work: { minutes: 90 } },
    seal: sealed,
    layers: [
      { ...cast('tarn-slow', 14, 55, 8), tint: { name: 'moss green mica', gPerL: 2.5 } },
      cast('tarn-slow', 12, 55, 8),
    ],
    demold: { work: { minutes: 25 } },
    flatten: planed,
    sand: sanded,
    finish: { work: { minutes: 45 } },
  },
  {
    id: 'tray',
    name: 'Tray, two layers, coated on both faces',
    prepare: { work: { minutes: 60 } },
    layers: [
      { ...cast('mere-medium', 10, 50, 7), tint: { name: 'smoke grey', gPerL: 1.5 } },
      cast('mere-medium', 8, 50, 7),
    ],
    demold: { work: { minutes: 20 } },
    flatten: planed,
    sand: sanded,
    coats: [flood('bottom'), flood('top')],
    finish: { work: { minutes: 30 } },
  },
  {
    id: 'panel',
    name: 'Wall panel, two deep layers, two flood coats on top',
    prepare: { work: { minutes: 120, minutesPerM2: 120 } },
    seal: sealed,
    layers: [
      cast('tarn-slow', 18, 70, 12, Math.min(2, people)),
      { ...cast('tarn-slow', 14, 70, 12, Math.min(2, people)), tint: { name: 'amber', gPerL: 1 } },
    ],
    demold: { work: { minutes: 30, hands: Math.min(2, people) } },
    flatten: planed,
    sand: sanded,
    coats: [flood('top'), flood('top')],
    finish: { work: { minutes: 45 } },
  },
];

const ROLES: readonly Omit<PersonFile, 'id' | 'name'>[] = [
  {
    hours: [{ rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', from: '08:00', to: '17:00' }],
    can: ['prepare', 'pour', 'demold', 'finish'],
  },
  {
    hours: [{ rule: 'FREQ=WEEKLY;BYDAY=TU,WE,TH,FR,SA', from: '10:00', to: '19:00' }],
    unloved: [{ rule: 'FREQ=WEEKLY;BYDAY=SA', from: '15:00', to: '19:00' }],
    can: ['prepare', 'pour', 'demold', 'sand'],
  },
  {
    hours: [{ rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', from: '07:00', to: '15:30' }],
    can: ['demold', 'flatten', 'sand', 'finish'],
  },
];

const NAMES = ['Anouk', 'Bastian', 'Cees', 'Doro', 'Emil', 'Fenja', 'Gero', 'Hanne', 'Ivo'];

const WORDS =
  'alder birch cedar dune elm fjord gorse heath islet juniper kelp larch marsh nettle osier pine quarry rowan sedge thrift'.split(
    ' ',
  );

/** Numbers in [0, 1) from a seed (mulberry32, public domain). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const DAY_MS = 86_400_000;
const STARTS_MS = Date.parse(`${SHOP_STARTS}:00Z`);

const dateOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

const isClosed = (ms: number): boolean =>
  CLOSURES.some(({ from, to }) => from <= dateOf(ms) && dateOf(ms) <= to);

/** The local date `days` after the start, closures not counted, moved on from a weekend to the next working day. */
function workingDate(days: number): string {
  let ms = STARTS_MS;
  for (let left = days; left > 0; left -= 1) {
    ms += Math.min(1, left) * DAY_MS;
    while (isClosed(ms)) ms += DAY_MS;
  }
  while ([0, 6].includes(new Date(ms).getUTCDay()) || isClosed(ms)) ms += DAY_MS;
  return dateOf(ms);
}

const CLOSURES = [
  { from: '2026-12-25', to: '2026-12-26', why: 'holidays' },
  { from: '2027-01-01', to: '2027-01-01', why: 'New Year' },
];

function peopleFor(count: number): PersonFile[] {
  const everything: PersonFile['can'] = ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish'];
  return Array.from({ length: count }, (_, index) => {
    const name = NAMES[index % NAMES.length] + (index < NAMES.length ? '' : ` ${index + 1}`);
    const role = ROLES[index % ROLES.length];
    return {
      id: name.toLowerCase().replace(' ', '-'),
      name,
      ...(count < ROLES.length ? { ...role, can: everything } : role),
      off: index === 1 ? [{ from: '2026-12-10', to: '2026-12-11', why: 'away' }] : [],
    };
  });
}

/** Shares out `count` forms among the kinds, at least one board form. */
function formsFor(count: number): { cast: Cast; count: number }[] {
  const shares = CASTS.reduce((sum, each) => sum + each.share, 0);
  const counts = CASTS.map((each) => ({ cast: each, count: Math.floor((count * each.share) / shares) }));
  counts[0].count += count - counts.reduce((sum, each) => sum + each.count, 0);
  return counts.filter((each) => each.count > 0);
}

function piecesFor(
  measure: ShopMeasure,
  forms: readonly { cast: Cast; count: number }[],
): ShopFile['pieces'] {
  const random = randomFrom(measure.seed);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)];
  const free = forms.flatMap(({ cast, count }) =>
    Array.from({ length: count }, (_, unit) => ({ cast, days: (unit % 3) * 0.6 })),
  );
  return Array.from({ length: measure.pieces }, (_, index) => {
    const slot = free.reduce((soonest, each) => (each.days < soonest.days ? each : soonest));
    const recipe = pick(slot.cast.recipes);
    const begins = slot.days;
    slot.days += recipe.holdDays;
    const slack = 1.5 + random() * 3;
    const word = WORDS[index % WORDS.length];
    const number = Math.floor(index / WORDS.length) + 1;
    return {
      id: `${word}-${number}`,
      name: `${word[0].toUpperCase()}${word.slice(1)} ${number}`,
      recipe: recipe.id,
      size: { lengthMm: pick(slot.cast.lengths), widthMm: pick(slot.cast.widths) },
      due: `${workingDate(slot.days + recipe.tailDays + slack)}T17:00`,
      ...(random() < 0.2 ? { weight: 3 } : {}),
      ...(begins > 10 && random() < 0.3 ? { earliest: workingDate(begins - 6) } : {}),
    };
  });
}

/**
 * A shop file with `pieces` pieces for `forms` forms and `people` people (each at least 1).
 * One or two people can do everything; from three on they have different skills.
 */
export function makeShop(measure: ShopMeasure): ShopFile {
  const forms = formsFor(measure.forms);
  const outsideCm2 = forms.reduce(
    (sum, { cast, count }) =>
      sum + (count * (cast.form.inside.lengthMm + 80) * (cast.form.inside.widthMm + 80)) / 100,
    0,
  );
  return {
    format: 'pourwright.shop',
    version: 1,
    name: 'Three Weirs Workshop',
    zone: 'Europe/Berlin',
    rooms: [
      {
        id: 'pour-room',
        name: 'Pour room',
        temperature: {
          pattern: {
            nightLowDegC: 19,
            dayHighDegC: 21,
            heating: [{ hours: { rule: 'FREQ=DAILY', from: '07:00', to: '18:00' }, degC: 21.5 }],
          },
        },
        humidityPercent: 46,
      },
      {
        id: 'dust-room',
        name: 'Dust room',
        temperature: { pattern: { nightLowDegC: 14, dayHighDegC: 18 } },
      },
    ],
    people: peopleFor(measure.people),
    closures: CLOSURES,
    forms: forms.map(({ cast, count }) => ({ ...cast.form, count })),
    benches: [
      {
        id: 'form-bench',
        name: 'Form benches',
        room: 'pour-room',
        areaCm2: Math.ceil(outsideCm2 / 100) * 100,
      },
      {
        id: 'coat-rack',
        name: 'Coating rack',
        room: 'pour-room',
        spots: Math.max(3, Math.ceil(measure.forms * 0.75)),
      },
    ],
    tools: [
      { id: 'planer', name: 'Planer', room: 'dust-room', count: Math.ceil(measure.forms / 24) },
      { id: 'drum-sander', name: 'Drum sander', room: 'dust-room', count: Math.ceil(measure.forms / 24) },
    ],
    resins: [...RESINS],
    recipes: recipesFor(measure.people),
    pieces: piecesFor(measure, forms),
  };
}

/** The shop as the text of a shop file. */
export const shopText = (measure: ShopMeasure): string => `${JSON.stringify(makeShop(measure), null, 2)}\n`;

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [pieces, forms, people, seed] = process.argv.slice(2).map(Number);
  process.stdout.write(
    shopText({
      pieces: pieces || SIX_WEEKS.pieces,
      forms: forms || SIX_WEEKS.forms,
      people: people || SIX_WEEKS.people,
      seed: seed || SIX_WEEKS.seed,
    }),
  );
}
