/** A shop of one room and two trays, and plans of it written by hand, for tests of the page. */
import type { Plan, PlanStep } from '../../../src/engine/plan/document.ts';
import { parseShop } from '../../../src/engine/shop/index.ts';
import type { Shop, ShopFile } from '../../../src/engine/shop/index.ts';

const file: ShopFile = {
  format: 'pourwright.shop',
  version: 1,
  name: 'Two trays',
  zone: 'Europe/Berlin',
  rooms: [{ id: 'room', name: 'Room', temperature: { pattern: { nightLowDegC: 20, dayHighDegC: 22 } } }],
  people: [{ id: 'ada', name: 'Ada', hours: [{ rule: 'FREQ=DAILY', from: '08:00', to: '18:00' }] }],
  forms: [{ id: 'tray', name: 'Tray form', inside: { lengthMm: 400, widthMm: 300, depthMm: 40 }, count: 2 }],
  benches: [{ id: 'bench', name: 'Bench', room: 'room', spots: 4 }],
  warmBoxes: [{ id: 'box', name: 'Warm box', room: 'room', setDegC: 28, spots: 1 }],
  resins: [
    {
      id: 'clear',
      name: 'Clear Cast',
      kind: 'casting',
      mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 1 },
      workingTime: { minutes: 40, batchMl: 500 },
      tackOpensMinutes: 600,
      tackClosesMinutes: 1200,
      scuffableMinutes: 1440,
      demoldMinutes: 2880,
      machinableMinutes: 4320,
      fullCureMinutes: 10_080,
      largestDepthMm: 30,
      largestBatchMl: 5000,
    },
  ],
  recipes: [
    {
      id: 'plain',
      name: 'Plain tray',
      prepare: { work: { minutes: 60 } },
      layers: [
        { resin: 'clear', depthMm: 10 },
        { resin: 'clear', depthMm: 10 },
      ],
      demold: { work: { minutes: 15 } },
    },
  ],
  pieces: [
    {
      id: 'elm',
      name: 'Elm tray',
      recipe: 'plain',
      size: { lengthMm: 350, widthMm: 250 },
      due: '2026-03-06T18:00',
    },
    {
      id: 'ash',
      name: 'Ash tray',
      recipe: 'plain',
      size: { lengthMm: 350, widthMm: 250 },
      due: '2026-03-06T18:00',
    },
  ],
};

export function smallShop(): Shop {
  const parsed = parseShop(JSON.stringify(file));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults));
  return parsed.shop;
}

/** A hands-on step of ten minutes by Ada, unless said otherwise. Times are local, `MM-DDTHH:MM` of 2026. */
export const step = (
  piece: string,
  name: string,
  kind: PlanStep['kind'],
  [start, end]: readonly [string, string],
  more: Partial<PlanStep> = {},
): PlanStep => ({
  piece,
  step: name,
  kind,
  start: at(start),
  end: at(end),
  handsOnMinutes: 10,
  people: ['ada'],
  room: 'room',
  state: 'planned',
  pinned: false,
  ...more,
});

/** Unattended: nobody's hands are on it. */
export const waiting = { handsOnMinutes: 0, people: [] } as const;

export const at = (local: string): string => `2026-${local}+01:00`;

export const plan = (steps: readonly PlanStep[], more: Partial<Plan> = {}): Plan => ({
  format: 'pourwright.plan',
  version: 1,
  shop: 'Two trays',
  zone: 'Europe/Berlin',
  now: at('03-02T09:00'),
  seed: 1,
  budget: 1000,
  status: 'feasible',
  levels: [],
  steps,
  holds: [],
  pieces: [],
  notes: [],
  clash: [],
  ...more,
});
