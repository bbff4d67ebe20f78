/** What a new entry begins with: common sizes and the defaults of the shop file, for the maker to change. */
import type {
  Bench,
  Form,
  Layer,
  Person,
  Recipe,
  RecurringHours,
  Resin,
  Room,
  Shop,
  Tool,
  WarmBox,
  Work,
} from '../../../engine/shop/index.ts';
import { fallback } from '../../../engine/shop/index.ts';

/** What a new entry begins with; null where something else has to be there first. */
export const freshRoom = (id: string): Room => ({
  id,
  name: '',
  temperature: {
    measured: [],
    forecast: [],
    pattern: { nightLowDegC: 18, nightLowAt: '05:00', dayHighDegC: 21, dayHighAt: '15:00', heating: [] },
  },
  dustSettleMinutes: fallback.dustSettleMinutes.value,
});

export const freshHours = (): RecurringHours => ({
  rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR',
  from: '08:00',
  to: '17:00',
  start: '2026-01-05',
});

export const freshPerson = (id: string): Person => ({
  id,
  name: '',
  hours: [freshHours()],
  off: [],
  unloved: [],
  can: ['prepare', 'pour', 'demold', 'flatten', 'sand', 'finish'],
});

export const freshForm = (id: string): Form => ({
  id,
  name: '',
  inside: { lengthMm: 500, widthMm: 300, depthMm: 60 },
  count: 1,
  turnaroundMinutes: fallback.turnaroundMinutes.value,
});

export const freshBench = (id: string, shop: Shop): Bench => ({
  id,
  name: '',
  room: shop.rooms[0].id,
  spots: 2,
});

export const freshWarmBox = (id: string, shop: Shop): WarmBox => ({
  id,
  name: '',
  room: shop.rooms[0].id,
  setDegC: 28,
  spots: 1,
  heatUpMinutes: fallback.heatUpMinutes.value,
});

export const freshTool = (id: string, shop: Shop): Tool => ({
  id,
  name: '',
  room: shop.rooms[0].id,
  count: 1,
});

/** A slow casting resin; its numbers are common practice, the can's sheet always wins. */
export const freshResin = (id: string): Resin => ({
  id,
  name: '',
  kind: 'casting',
  mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
  referenceDegC: fallback.referenceDegC.value,
  workingTime: { minutes: 60, batchMl: 1000 },
  tackOpensMinutes: 1440,
  tackClosesMinutes: 2160,
  scuffableMinutes: 2880,
  demoldMinutes: 4320,
  machinableMinutes: 5760,
  fullCureMinutes: 10_080,
  lowestDegC: fallback.lowestDegC.value,
  highestDegC: fallback.highestDegC.value,
  smallestDepthMm: 6,
  largestDepthMm: 50,
  largestBatchMl: 5000,
  dewPointMarginK: fallback.dewPointMarginK.value,
});

export const freshWork = (minutes: number): Work => ({ minutes, minutesPerM2: 0, hands: 1 });

export const freshLayer = (resin: string): Layer => ({
  resin,
  depthMm: 12,
  mixMinutes: fallback.mixMinutes.value,
  pour: freshWork(fallback.pourMinutes.value),
  bubblePasses: [freshPass()],
});

export const freshPass = (): Layer['bubblePasses'][number] => ({
  fromMinutes: fallback.bubblePassFromMinutes.value,
  toMinutes: fallback.bubblePassToMinutes.value,
  minutes: fallback.bubblePassMinutes.value,
});

export const freshCoat = (resin: string): Recipe['coats'][number] => ({
  resin,
  coverMlPerM2: fallback.coverMlPerM2.value,
  mixMinutes: fallback.mixMinutes.value,
  work: freshWork(20),
  face: 'top',
});

export const freshSeal = (resin: string): NonNullable<Recipe['seal']> => ({
  resin,
  coverMlPerM2: fallback.coverMlPerM2.value,
  mixMinutes: fallback.mixMinutes.value,
  work: freshWork(15),
});

export const freshRecipe = (id: string, shop: Shop): Recipe => ({
  id,
  name: '',
  prepare: { work: freshWork(90), split: true },
  layers: [freshLayer(shop.resins[0].id)],
  scuff: { work: freshWork(fallback.scuffMinutes.value) },
  demold: { work: freshWork(30) },
  flatten: { work: freshWork(60), split: true, dust: true },
  sand: { work: freshWork(60), split: true, dust: true },
  coats: [],
  flip: { work: freshWork(fallback.flipMinutes.value) },
  finish: { work: freshWork(45), split: true },
});
