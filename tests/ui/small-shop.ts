/** A small shop with a plan from the real engine: one board, one form, evenings and a weekend. Invented throughout. */
import { checkPlan, milestones, parseShop, planShop, type Plan, type Shop } from '../../src/engine/index.ts';
import type { ApplicationCure } from '../../src/ui/engine/index.ts';

export const NOW = '2026-11-25T14:30';

const resin = (id: string, kind: string, scale: number) => ({
  id,
  name: `Invented ${id}`,
  kind,
  mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
  workingTime: { minutes: 60, batchMl: 500 },
  tackOpensMinutes: 240 * scale,
  tackClosesMinutes: 720 * scale,
  scuffableMinutes: 900 * scale,
  demoldMinutes: 1440 * scale,
  machinableMinutes: 2000 * scale,
  fullCureMinutes: 4000 * scale,
  lowestDegC: 10,
  largestDepthMm: 40,
  largestBatchMl: 4000,
});

const text = JSON.stringify({
  format: 'pourwright.shop',
  version: 1,
  name: 'Two Evenings',
  zone: 'Europe/Berlin',
  rooms: [{ id: 'cellar', name: 'Cellar', temperature: { pattern: { nightLowDegC: 19, dayHighDegC: 22 } } }],
  people: [
    {
      id: 'ada',
      name: 'Ada',
      hours: [{ rule: 'FREQ=DAILY', from: '08:00', to: '20:00' }],
    },
  ],
  forms: [
    { id: 'tray', name: 'Tray form', inside: { lengthMm: 500, widthMm: 300, depthMm: 50 }, count: 2 },
    { id: 'slab', name: 'Slab form', inside: { lengthMm: 900, widthMm: 400, depthMm: 60 } },
  ],
  benches: [{ id: 'bench', name: 'Bench', room: 'cellar', areaCm2: 9000 }],
  resins: [resin('slow', 'casting', 1), resin('flood', 'table-top', 0.5)],
  recipes: [
    {
      id: 'board',
      name: 'Board',
      prepare: { work: { minutes: 60 } },
      seal: { resin: 'flood', work: { minutes: 5 } },
      layers: [
        { resin: 'slow', depthMm: 20, tint: { name: 'blue', gPerL: 2 } },
        { resin: 'slow', depthMm: 10, bubblePasses: [] },
      ],
      demold: { work: { minutes: 20 } },
      sand: { work: { minutes: 60 } },
      coats: [{ resin: 'flood', work: { minutes: 10 } }],
      finish: { work: { minutes: 15 } },
    },
  ],
  pieces: [
    { id: 'wren', name: 'Wren', recipe: 'board', size: { lengthMm: 450, widthMm: 250 }, due: '2026-12-12' },
    { id: 'robin', name: 'Robin', recipe: 'board', size: { lengthMm: 450, widthMm: 250 }, due: '2026-12-12' },
  ],
});

export interface Planned {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly cures: readonly ApplicationCure[];
}

export const shopOf = (change: (file: Shop) => Shop = (file) => file): Shop => {
  const read = parseShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return change(read.shop);
};

export const shopText = text;

/** Plans (and checks) the small shop, perhaps changed. */
export const planned = (change?: (shop: Shop) => Shop, now = NOW): Planned => {
  const shop = shopOf(change);
  const plan = planShop(shop, { now, seed: 1, budget: 20_000 });
  const broken = checkPlan(shop, plan);
  if (plan.steps.length === 0 || broken.length > 0) throw new Error(JSON.stringify([plan.clash, broken]));
  return { shop, plan, cures: milestones(shop, plan) };
};
