/**
 * A shop to begin with: one person, one room, one form, one bench, one resin, one recipe and one piece, from sensible
 * defaults. The numbers are common practice without a source; each page of the first start asks for the maker's own.
 */
import type { Piece, Shop } from '../../engine/index.ts';
import { fallback, SHOP_FORMAT, SHOP_VERSION } from '../../engine/shop/index.ts';
import {
  freshForm,
  freshHours,
  freshLayer,
  freshPerson,
  freshRecipe,
  freshResin,
  freshRoom,
  freshWork,
} from '../shop/model/index.ts';

export interface Beginning {
  /** IANA zone, such as the browser's own. */
  readonly zone: string;
  readonly units: Shop['units'];
  /** Local moment for which the first piece is promised, such as `2026-12-16T17:00`. */
  readonly due: string;
}

/** Round numbers in either system; an inch is 25.4 mm, a US fluid ounce 29.5735295625 mL (NIST Handbook 44, App. C). */
const ROUND = {
  metric: {
    inside: { lengthMm: 500, widthMm: 300, depthMm: 60 },
    layerMm: 12,
    smallestDepthMm: 6,
    largestDepthMm: 50,
    cupMl: 1000,
    largestBatchMl: 5000,
    nightLowDegC: 18,
    dayHighDegC: 21,
  },
  us: {
    // 20 by 12 by 2.5 in; layers of 1/2 in; pours from 1/4 to 2 in; cups of 32, batches to 160 US fl oz; 65 to 70 degF.
    inside: { lengthMm: 508, widthMm: 304.8, depthMm: 63.5 },
    layerMm: 12.7,
    smallestDepthMm: 6.35,
    largestDepthMm: 50.8,
    cupMl: 946.353,
    largestBatchMl: 4731.765,
    nightLowDegC: 18.333,
    dayHighDegC: 21.111,
  },
} as const;

export const freshShop = ({ zone, units, due }: Beginning): Shop => {
  const round = ROUND[units];
  const form = { ...freshForm('board-form'), name: 'Board form', inside: round.inside };
  const bareResin = freshResin('casting-resin');
  const resin = {
    ...bareResin,
    name: 'Casting resin',
    workingTime: { ...bareResin.workingTime, batchMl: round.cupMl },
    smallestDepthMm: round.smallestDepthMm,
    largestDepthMm: round.largestDepthMm,
    largestBatchMl: round.largestBatchMl,
  };
  const room = freshRoom('workshop');
  const { nightLowDegC, dayHighDegC } = round;
  const pattern = { ...room.temperature.pattern, nightLowDegC, dayHighDegC };
  const start: Shop = {
    format: SHOP_FORMAT,
    version: SHOP_VERSION,
    name: 'My shop',
    zone,
    units,
    mixing: {
      cupLossPercent: fallback.cupLossPercent.value,
      scaleReadsG: fallback.scaleReadsG.value,
      tintScaleReadsG: fallback.tintScaleReadsG.value,
      ratioTolerancePercent: fallback.ratioTolerancePercent.value,
    },
    rooms: [{ ...room, name: 'Workshop', temperature: { ...room.temperature, pattern } }],
    people: [{ ...freshPerson('me'), name: 'Me', hours: HOURS.evenings }],
    closures: [],
    forms: [form],
    benches: [{ id: 'bench', name: 'Bench', room: 'workshop', spots: 2 }],
    warmBoxes: [],
    tools: [],
    resins: [resin],
    recipes: [],
    pieces: [],
  };
  const recipe = {
    ...freshRecipe('board', start),
    name: 'Board in two layers',
    layers: [layerOf(resin.id, round.layerMm), layerOf(resin.id, round.layerMm)],
  };
  const piece: Piece = {
    id: 'first-board',
    name: 'First board',
    recipe: recipe.id,
    size: { lengthMm: form.inside.lengthMm, widthMm: form.inside.widthMm },
    due,
    weight: 1,
    pins: [],
    actuals: [],
    touchTests: [],
  };
  return { ...start, recipes: [recipe], pieces: [piece] };
};

const layerOf = (resin: string, depthMm: number): Shop['recipes'][number]['layers'][number] => ({
  ...freshLayer(resin),
  depthMm,
  wood: { coverPercent: 60 },
});

const line = (days: string, from: string, to: string): Shop['people'][number]['hours'][number] => ({
  ...freshHours(),
  rule: `FREQ=WEEKLY;BYDAY=${days}`,
  from,
  to,
});

const WEEKDAYS = 'MO,TU,WE,TH,FR';

/** Hours to choose from at the start. */
export const HOURS = {
  evenings: [line(WEEKDAYS, '18:00', '22:00'), line('SA,SU', '09:00', '18:00')],
  days: [line(WEEKDAYS, '08:00', '17:00')],
  weekends: [line('SA,SU', '09:00', '18:00')],
} as const satisfies Record<string, Shop['people'][number]['hours']>;

export type HoursChoice = keyof typeof HOURS;

/** Which of the choices these hours are; null for hours of one's own. */
export const hoursChoice = (hours: Shop['people'][number]['hours']): HoursChoice | null => {
  const text = JSON.stringify(hours);
  const names: readonly HoursChoice[] = ['evenings', 'days', 'weekends'];
  return names.find((name) => JSON.stringify(HOURS[name]) === text) ?? null;
};

/** The recipe with so many layers; each new one is as the last. */
export const withLayers = (shop: Shop, count: number): Shop => {
  const [recipe] = shop.recipes;
  const { layers } = recipe;
  const last = layers[layers.length - 1];
  const next = Array.from({ length: count }, (_, at) => layers[at] ?? last);
  return { ...shop, recipes: [{ ...recipe, layers: next }] };
};

/** A flood coat of the same resin on top, or none. */
export const withCoat = (shop: Shop, on: boolean): Shop => {
  const [recipe] = shop.recipes;
  const coat = {
    resin: recipe.layers[0].resin,
    coverMlPerM2: fallback.coverMlPerM2.value,
    mixMinutes: fallback.mixMinutes.value,
    work: freshWork(20),
    face: 'top' as const,
  };
  return { ...shop, recipes: [{ ...recipe, coats: on ? [coat] : [] }] };
};

/**
 * The resin with its four times from the sheet. What short sheets leave out follows from them, as common practice has
 * it: hard enough to scuff a fifth after the window closes, to be machined a third after demolding; never after full
 * cure.
 */
export const withSheetTimes = (
  shop: Shop,
  times: Partial<
    Pick<
      Shop['resins'][number],
      'tackOpensMinutes' | 'tackClosesMinutes' | 'demoldMinutes' | 'fullCureMinutes'
    >
  >,
): Shop => {
  const resin = { ...shop.resins[0], ...times };
  const within = (minutes: number): number => Math.round(Math.min(minutes, resin.fullCureMinutes));
  return {
    ...shop,
    resins: [
      {
        ...resin,
        scuffableMinutes: within(resin.tackClosesMinutes * 1.2),
        machinableMinutes: within((resin.demoldMinutes * 4) / 3),
      },
    ],
  };
};

/** The first piece as large as the form takes it. */
export const withForm = (shop: Shop, inside: Shop['forms'][number]['inside']): Shop => ({
  ...shop,
  forms: [{ ...shop.forms[0], inside }],
  pieces: shop.pieces.map((piece) => ({
    ...piece,
    size: { lengthMm: inside.lengthMm, widthMm: inside.widthMm },
  })),
});

/** Inches and fluid ounces where they are usual. */
export const unitsFor = (language: string): Shop['units'] =>
  /-(US|LR|MM)$/i.test(language) ? 'us' : 'metric';
