/**
 * A shop to plan in tests: one maker at work from seven to nine every day, two forms, one bench, a room at the
 * resins' own reference temperature unless a test says otherwise. The resins' times are those of common practice, no
 * source: a slow casting resin that opens after 24 h and is demolded after three days, a fast one that opens after 4 h.
 */
import * as v from 'valibot';
import type { Shop, ShopFile } from '../../src/engine/index.ts';
import { shopSchema } from '../../src/engine/index.ts';

export const NOW = '2026-03-02T07:00';

type Resin = ShopFile['resins'][number];
type Piece = NonNullable<ShopFile['pieces']>[number];

const SLOW: Resin = {
  id: 'slow',
  name: 'Slow cast',
  kind: 'casting',
  mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
  referenceDegC: 22,
  workingTime: { minutes: 60, batchMl: 2000 },
  tackOpensMinutes: 24 * 60,
  tackClosesMinutes: 36 * 60,
  scuffableMinutes: 48 * 60,
  demoldMinutes: 72 * 60,
  machinableMinutes: 84 * 60,
  fullCureMinutes: 7 * 1440,
  largestDepthMm: 25,
  largestBatchMl: 4000,
  lowestDegC: 12,
};

const FAST: Resin = {
  ...SLOW,
  id: 'fast',
  name: 'Fast flood',
  kind: 'table-top',
  workingTime: { minutes: 22, batchMl: 500 },
  tackOpensMinutes: 4 * 60,
  tackClosesMinutes: 10 * 60,
  scuffableMinutes: 16 * 60,
  demoldMinutes: 24 * 60,
  machinableMinutes: 30 * 60,
  fullCureMinutes: 3 * 1440,
  largestDepthMm: 5,
};

export const piece = (id: string, edits: Partial<Piece> = {}): Piece => ({
  id,
  name: `Board ${id}`,
  recipe: 'three-layer',
  size: { lengthMm: 400, widthMm: 200 },
  due: '2026-03-28',
  ...edits,
});

export const littleShopFile = (): ShopFile => ({
  format: 'pourwright.shop',
  version: 1,
  name: 'Two forms by the river',
  zone: 'Europe/Berlin',
  rooms: [
    { id: 'shop', name: 'Shop', temperature: { pattern: { nightLowDegC: 22, dayHighDegC: 22 } } },
    { id: 'lean-to', name: 'Lean-to', temperature: { pattern: { nightLowDegC: 5, dayHighDegC: 12 } } },
  ],
  people: [{ id: 'wren', name: 'Wren', hours: [{ rule: 'FREQ=DAILY', from: '07:00', to: '21:00' }] }],
  forms: [
    {
      id: 'long',
      name: 'Long form',
      inside: { lengthMm: 500, widthMm: 250, depthMm: 60 },
      turnaroundMinutes: 40,
    },
    {
      id: 'short',
      name: 'Short form',
      inside: { lengthMm: 420, widthMm: 220, depthMm: 60 },
      turnaroundMinutes: 40,
    },
  ],
  benches: [{ id: 'bench', name: 'Bench', room: 'shop', spots: 6 }],
  tools: [{ id: 'planer', name: 'Planer', room: 'lean-to' }],
  resins: [SLOW, FAST],
  recipes: [
    {
      id: 'three-layer',
      name: 'Three layers',
      prepare: { work: { minutes: 60 } },
      layers: [
        { resin: 'slow', depthMm: 12 },
        { resin: 'fast', depthMm: 2 },
        { resin: 'slow', depthMm: 12 },
      ],
      demold: { work: { minutes: 20 } },
      flatten: { work: { minutes: 30 }, tool: 'planer' },
      sand: { work: { minutes: 45 }, tool: 'planer' },
      finish: { work: { minutes: 30 } },
    },
    {
      id: 'coated',
      name: 'One layer, coated both sides',
      prepare: { work: { minutes: 30 } },
      seal: { resin: 'fast', coverMlPerM2: 120, work: { minutes: 8 } },
      layers: [{ resin: 'slow', depthMm: 20 }],
      demold: { work: { minutes: 15 } },
      sand: { work: { minutes: 40 }, tool: 'planer' },
      coats: [
        { resin: 'fast', work: { minutes: 10 } },
        { resin: 'fast', work: { minutes: 10 } },
        { resin: 'fast', work: { minutes: 10 }, face: 'bottom' },
      ],
      finish: { work: { minutes: 20 } },
    },
  ],
  pieces: [piece('a')],
});

/** The shop with some parts written differently. */
export function littleShop(edit: (file: ShopFile) => void = () => undefined): Shop {
  const file = structuredClone(littleShopFile());
  edit(file);
  return v.parse(shopSchema, file);
}
