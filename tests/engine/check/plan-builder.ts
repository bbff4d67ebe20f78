/**
 * A shop small enough to be reckoned by hand, and plans for it written down by hand. The room has 23 degC day and
 * night, the reference temperature, so a minute of cure is a minute.
 */
import * as v from 'valibot';
import type { Plan, PlanHold, PlanStep } from '../../../src/engine/plan/document.ts';
import { shopSchema } from '../../../src/engine/shop/index.ts';
import type { Shop, ShopFile } from '../../../src/engine/shop/index.ts';

/** Days are counted from Monday 2 March 2026, in UTC: "1 14:05" is Tuesday at five past two. */
const DAY_ZERO = Date.UTC(2026, 2, 2) / 60_000;

/** Minutes since day zero. */
export function minute(text: string): number {
  const [day, clock] = text.split(' ');
  return Number(day) * 1440 + Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
}

const two = (n: number): string => String(n).padStart(2, '0');

/** "1 14:05" for minutes since day zero. */
export const clockOf = (m: number): string =>
  `${Math.floor(m / 1440)} ${two(Math.floor((m % 1440) / 60))}:${two(m % 60)}`;

export const later = (text: string, minutes: number): string => clockOf(minute(text) + minutes);

/** A time of the plan document. */
export const iso = (text: string): string =>
  `${new Date((DAY_ZERO + minute(text)) * 60_000).toISOString().slice(0, 16)}Z`;

const RESIN = {
  id: 'clear',
  name: 'Clear',
  kind: 'casting',
  mix: { by: 'volume', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 0.95 },
  referenceDegC: 23,
  workingTime: { minutes: 30, batchMl: 5000 },
  tackOpensMinutes: 240,
  tackClosesMinutes: 480,
  scuffableMinutes: 600,
  demoldMinutes: 1440,
  machinableMinutes: 1500,
  fullCureMinutes: 2880,
  activationEnergyKJPerMol: 53,
  lowestDegC: 15,
  highestDegC: 30,
  smallestDepthMm: 1,
  largestDepthMm: 10,
  largestBatchMl: 5000,
} as const;

const BASE = {
  format: 'pourwright.shop',
  version: 1,
  name: 'A shop of two trestles',
  zone: 'Etc/UTC',
  rooms: [
    {
      id: 'shed',
      name: 'Shed',
      temperature: { pattern: { nightLowDegC: 23, dayHighDegC: 23 } },
      dustSettleMinutes: 120,
    },
  ],
  people: [
    {
      id: 'ana',
      name: 'Ana',
      hours: [{ rule: 'FREQ=DAILY', from: '06:00', to: '22:00', start: '2026-01-01' }],
    },
    {
      id: 'ben',
      name: 'Ben',
      hours: [{ rule: 'FREQ=DAILY', from: '06:00', to: '22:00', start: '2026-01-01' }],
    },
  ],
  forms: [{ id: 'tray', name: 'Tray', inside: { lengthMm: 520, widthMm: 320, depthMm: 20 }, count: 2 }],
  benches: [{ id: 'trestle', name: 'Trestle', room: 'shed', spots: 4 }],
  tools: [{ id: 'sled', name: 'Sled', room: 'shed' }],
  warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 23, spots: 2, heatUpMinutes: 60 }],
  resins: [RESIN],
  recipes: [
    {
      id: 'board',
      name: 'Board',
      prepare: { work: { minutes: 30 }, split: true },
      layers: [
        { resin: 'clear', depthMm: 5 },
        { resin: 'clear', depthMm: 5 },
      ],
      demold: { work: { minutes: 15 } },
      flatten: { work: { minutes: 30 }, split: false, tool: 'sled' },
      sand: { work: { minutes: 20 }, split: false },
      coats: [
        { resin: 'clear', face: 'top', work: { minutes: 5 } },
        { resin: 'clear', face: 'top', work: { minutes: 5 } },
        { resin: 'clear', face: 'bottom', work: { minutes: 5 } },
      ],
      finish: { work: { minutes: 10 }, split: false },
    },
  ],
  pieces: [
    { id: 'oak', name: 'Oak', recipe: 'board', size: { lengthMm: 500, widthMm: 300 }, due: '2026-03-11' },
  ],
} satisfies ShopFile;

type Changes = Partial<ShopFile>;

/** The base shop with some of its parts replaced. */
export const shopWith = (changes: Changes = {}): Shop => v.parse(shopSchema, { ...BASE, ...changes });

/** The base shop whose one resin, room, recipe or piece is changed here and there. */
export const shopWhere = (changes: {
  readonly resin?: object;
  readonly room?: object;
  readonly recipe?: object;
  readonly piece?: object;
  readonly more?: Changes;
}): Shop =>
  v.parse(shopSchema, {
    ...BASE,
    ...changes.more,
    resins: [{ ...RESIN, ...changes.resin }],
    rooms: [{ ...BASE.rooms[0], ...changes.room }],
    recipes: [{ ...BASE.recipes[0], ...changes.recipe }],
    pieces: [{ ...BASE.pieces[0], ...changes.piece }],
  });

/** Two boards instead of one. */
export const twoPieces = (more: Changes = {}): Shop =>
  shopWith({ pieces: [BASE.pieces[0], { ...BASE.pieces[0], id: 'elm', name: 'Elm' }], ...more });

/** Hands-on steps of the board in order, and how long each takes. */
const MINUTES: Record<string, readonly [kind: PlanStep['kind'], minutes: number]> = {
  prepare: ['prepare', 30],
  'layer-1-mix': ['mix', 5],
  'layer-1-pour': ['pour', 5],
  'layer-1-bubbles-1': ['bubbles', 5],
  'layer-2-scuff': ['scuff', 20],
  'layer-2-mix': ['mix', 5],
  'layer-2-pour': ['pour', 5],
  'layer-2-bubbles-1': ['bubbles', 5],
  demold: ['demold', 15],
  turnaround: ['turnaround', 45],
  flatten: ['flatten', 30],
  sand: ['sand', 20],
  'coat-1-mix': ['mix', 5],
  'coat-1': ['coat', 5],
  'coat-2-mix': ['mix', 5],
  'coat-2': ['coat', 5],
  'flip-3': ['flip', 5],
  'coat-3-mix': ['mix', 5],
  'coat-3': ['coat', 5],
  finish: ['finish', 10],
  ready: ['ready', 0],
};

/** Reckoned by hand: every milestone of the shop above is met, some at their very minute. */
const STARTS: Record<string, string> = {
  prepare: '0 08:00',
  'layer-1-mix': '0 08:30',
  'layer-1-bubbles-1': '0 08:50',
  'layer-2-mix': '0 13:00',
  'layer-2-bubbles-1': '0 13:25',
  demold: '1 14:00',
  turnaround: '1 14:15',
  flatten: '1 15:00',
  sand: '1 15:30',
  'coat-1-mix': '2 06:00',
  'coat-2-mix': '2 11:00',
  'flip-3': '2 21:10',
  'coat-3-mix': '2 21:20',
  finish: '4 21:30',
  ready: '4 21:40',
};

export interface Draft {
  readonly piece?: string;
  /** Steps that start elsewhere than by hand above; a pour goes with its mix unless it is named itself. */
  readonly at?: Readonly<Record<string, string>>;
  /** Ends that are not start plus work: split work, or what really happened. */
  readonly ends?: Readonly<Record<string, string>>;
  /** All steps are moved by so many days. */
  readonly days?: number;
  readonly person?: string;
  readonly unit?: number;
  readonly box?: string;
  readonly bench?: string;
  readonly changed?: (step: PlanStep) => PlanStep;
}

const amountInSpots = 1;

function drafted(draft: Draft): { steps: PlanStep[]; holds: PlanHold[]; ready: string } {
  const {
    piece = 'oak',
    at = {},
    ends = {},
    days = 0,
    person = 'ana',
    unit = 1,
    box,
    bench = 'trestle',
  } = draft;
  const start = new Map<string, number>();
  const end = new Map<string, number>();
  let mixed = 0;
  for (const [id, [kind, minutes]] of Object.entries(MINUTES)) {
    const written = at[id] ?? (STARTS[id] && clockOf(minute(STARTS[id]) + days * 1440));
    const follows = kind === 'pour' || kind === 'coat';
    if (written === undefined && !follows) continue;
    const from = written === undefined ? mixed : minute(written);
    start.set(id, from);
    end.set(id, ends[id] ? minute(ends[id]) : from + minutes);
    mixed = from + minutes;
  }
  const isScuffed = start.has('layer-2-scuff');
  const form = { id: 'tray', unit };
  const steps: PlanStep[] = [];
  const inForm = (id: string): boolean => /^(prepare|layer|cure|demold|turnaround)/.test(id);
  const onBench = (id: string): boolean => inForm(id) || /^(rest|coat|flip|full-cure)/.test(id);
  const add = (id: string, kind: PlanStep['kind'], from: number, to: number, minutes: number): void => {
    if (to < from || (to === from && id !== 'ready')) return;
    const isWaiting = minutes === 0;
    const isBoxed = box !== undefined && isWaiting && inForm(id);
    steps.push({
      piece,
      step: id,
      kind,
      start: iso(clockOf(from)),
      end: iso(clockOf(to)),
      handsOnMinutes: minutes,
      people: isWaiting ? [] : [person],
      room: 'shed',
      ...(inForm(id) ? { form } : {}),
      ...(isBoxed ? { warmBox: box } : onBench(id) ? { bench } : {}),
      ...(kind === 'flatten' ? { tool: 'sled' } : {}),
      ...(id === 'layer-2-pour' ? { way: isScuffed ? 'scuff' : 'recoat' } : {}),
      ...(id === 'coat-2' ? { way: 'recoat' } : {}),
      state: 'planned',
      pinned: false,
    });
  };
  const s = (id: string): number => start.get(id) as number;
  const e = (id: string): number => end.get(id) as number;
  for (const [id, from] of start) add(id, MINUTES[id][0], from, e(id), MINUTES[id][1]);
  add('layer-1-set', 'set', e('layer-1-pour'), s('layer-2-mix'), 0);
  add('cure', 'cure', e('layer-2-pour'), s('demold'), 0);
  add('rest', 'rest', e('demold'), s('flatten'), 0);
  add('coat-1-set', 'set', e('coat-1'), s('coat-2-mix'), 0);
  add('coat-2-set', 'set', e('coat-2'), s('coat-3-mix'), 0);
  add('full-cure', 'cure', e('coat-3'), s('finish'), 0);

  const hold = (what: PlanHold['what'], id: string, from: number, to: number): PlanHold[] =>
    to <= from
      ? []
      : [
          {
            piece,
            what,
            id,
            ...(what === 'form' ? { unit } : {}),
            from: iso(clockOf(from)),
            to: iso(clockOf(to)),
            amount: amountInSpots,
          },
        ];
  // Into the box when the pour (5 minutes) and the last bubble pass (30 + 5 minutes after it) are surely over.
  const moved = s('layer-1-pour') + 40;
  const holds = [
    ...hold('form', 'tray', s('prepare'), e('turnaround')),
    ...(box === undefined
      ? hold('bench', bench, s('prepare'), e('turnaround'))
      : [
          ...hold('bench', bench, s('prepare'), moved),
          ...hold('warm-box', box, moved, s('demold')),
          ...hold('bench', bench, s('demold'), e('turnaround')),
        ]),
    ...hold('bench', bench, e('demold'), s('flatten')),
    ...hold('bench', bench, s('coat-1-mix'), s('coat-3') + 600),
  ];
  return { steps: draft.changed ? steps.map(draft.changed) : steps, holds, ready: clockOf(s('ready')) };
}

/** A plan for the base shop or one like it, one draft a piece. */
export function planOf(drafts: readonly Draft[] = [{}], now = '0 00:00', due = '10 00:00'): Plan {
  const all = drafts.map((draft) => ({ piece: draft.piece ?? 'oak', ...drafted(draft) }));
  return {
    format: 'pourwright.plan',
    version: 1,
    shop: BASE.name,
    zone: BASE.zone,
    now: iso(now),
    seed: 1,
    budget: 1,
    status: 'feasible',
    levels: [],
    steps: all.flatMap((each) => each.steps),
    holds: all.flatMap((each) => each.holds),
    pieces: all.map(({ piece, ready }) => ({
      piece,
      ready: iso(ready),
      due: iso(due),
      lateMinutes: Math.max(0, minute(ready) - minute(due)),
    })),
    notes: [],
    clash: [],
  };
}
