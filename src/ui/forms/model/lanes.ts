/**
 * The shop and its plan as lanes of strips, in minutes: everything the painter and the pointer need, worked out once
 * a plan. A form's lane shows pieces while they are cast; a bench's lane those that left their form; a warm box's
 * lane who is in it.
 */
import type { Plan, PlanHold, PlanStep } from '../../../engine/plan/document.ts';
import type { Shop } from '../../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../../clock/index.ts';
import type { ApplicationCure } from '../../engine/index.ts';
import { loadOf, rowsOf, type LoadStep, type Use } from './load.ts';
import { castStrip, nameOf, stayStrip, workStrip, type Ground, type Strip } from './strips.ts';

export interface Lane {
  /** Unique among lanes: "form:board-form:2", "bench:wall-bench", "warm-box:oven", "tool:planer", "room:shed". */
  readonly id: string;
  readonly what: 'form' | 'bench' | 'warm-box' | 'work';
  readonly place: string;
  readonly unit: number | null;
  readonly name: string;
  readonly detail: string;
  /** The room whose air runs behind the lane: for a form that of the bench it stands on, where all are in one room. */
  readonly room: string | null;
  readonly strips: readonly Strip[];
  readonly rows: number;
  /** When it frees up from what holds it now; null: it is free. For forms. */
  readonly freeAt: Minute | null;
  /** Who goes in next; null: nobody yet. */
  readonly next: { readonly name: string; readonly from: Minute } | null;
  readonly load: readonly LoadStep[];
  /** cm2 or spots; null for forms. */
  readonly capacity: number | null;
  readonly capacityUnit: 'cm2' | 'spots';
}

/** Lanes in the shop's own order: forms, warm boxes, benches, and work that is done at a tool or at no fixed place. */
export const lanesOf = (
  shop: Shop,
  plan: Plan | null,
  cures: readonly ApplicationCure[],
  now: Minute,
): readonly Lane[] => {
  const ground: Ground | null = plan && {
    shop,
    plan,
    stepsOf: groupBy(plan.steps, (step) => step.piece),
    cures: new Map(cures.map((cure) => [`${cure.piece}/${cure.step}`, cure])),
    lateOf: new Map(plan.pieces.map((piece) => [piece.piece, piece.lateMinutes])),
    now,
  };
  const holds = groupBy(
    plan?.holds ?? [],
    (hold) => `${hold.what}:${hold.id}:${hold.what === 'form' ? (hold.unit ?? 1) : ''}`,
  );
  const formRoom = oneRoomOf(shop);
  return [
    ...shop.forms.flatMap((form) =>
      Array.from({ length: form.count }, (_, index): Lane => {
        const unit = index + 1;
        const mine = holds.get(`form:${form.id}:${unit}`) ?? [];
        return {
          id: `form:${form.id}:${unit}`,
          what: 'form',
          place: form.id,
          unit,
          name: form.count > 1 ? `${form.name} ${unit}` : form.name,
          detail: `${form.inside.lengthMm} × ${form.inside.widthMm} mm, ${form.inside.depthMm} deep`,
          room: formRoom ?? roomOfHolds(ground, mine),
          strips: ground ? mine.map((hold) => castStrip(ground, hold)) : [],
          rows: 1,
          ...freedom(ground, mine, now),
          load: [],
          capacity: null,
          capacityUnit: 'spots',
        };
      }),
    ),
    ...shop.warmBoxes.map((box) => {
      const mine = holds.get(`warm-box:${box.id}:`) ?? [];
      const strips = ground ? mine.map((hold) => stayStrip(ground, hold, 'box')) : [];
      return shared('warm-box', box, `${box.setDegC} °C`, mine, strips);
    }),
    ...shop.benches.map((bench) => {
      const mine = holds.get(`bench:${bench.id}:`) ?? [];
      const strips = ground
        ? mine.filter((hold) => !standsInForm(ground, hold)).map((hold) => stayStrip(ground, hold, 'bench'))
        : [];
      return shared('bench', bench, capacityText(bench), mine, strips);
    }),
    ...(ground ? workLanes(ground) : []),
  ];
};

/** A lane for every tool, and for every room in which something is done at no bench, in no form and with no tool. */
const workLanes = (ground: Ground): readonly Lane[] => {
  const { shop, plan } = ground;
  const loose = plan.steps.filter((step) => step.handsOnMinutes > 0 && !step.form && !step.bench);
  const lane = (
    id: string,
    place: string,
    name: string,
    detail: string,
    room: string,
    steps: readonly PlanStep[],
  ): Lane => {
    const strips = steps.map((step) => workStrip(ground, step));
    const rows = rowsOf(strips);
    return {
      id,
      what: 'work',
      place,
      unit: null,
      name,
      detail,
      room,
      strips: strips.map((strip, index) => ({ ...strip, row: rows[index] })),
      rows: Math.max(1, ...rows.map((row) => row + 1)),
      freeAt: null,
      next: null,
      load: [],
      capacity: null,
      capacityUnit: 'spots',
    };
  };
  const byHand = groupBy(
    loose.filter((step) => !step.tool),
    (step) => step.room,
  );
  return [
    ...shop.tools.map((tool) =>
      lane(
        `tool:${tool.id}`,
        tool.id,
        tool.name,
        tool.count > 1 ? `${tool.count} of them` : 'one at a time',
        tool.room,
        loose.filter((step) => step.tool === tool.id),
      ),
    ),
    ...shop.rooms
      .filter((room) => byHand.has(room.id))
      .map((room) =>
        lane(`room:${room.id}`, room.id, room.name, 'by hand', room.id, byHand.get(room.id) ?? []),
      ),
  ];
};

const capacityText = (place: { readonly areaCm2?: number; readonly spots?: number }): string =>
  place.areaCm2 === undefined ? `${place.spots ?? 1} spots` : `${(place.areaCm2 / 10_000).toFixed(2)} m²`;

const shared = (
  what: 'bench' | 'warm-box',
  place: {
    readonly id: string;
    readonly name: string;
    readonly room: string;
    readonly areaCm2?: number;
    readonly spots?: number;
  },
  detail: string,
  holds: readonly PlanHold[],
  strips: readonly Strip[],
): Lane => {
  const rows = rowsOf(strips);
  return {
    id: `${what}:${place.id}`,
    what,
    place: place.id,
    unit: null,
    name: place.name,
    detail,
    room: place.room,
    strips: strips.map((strip, index) => ({ ...strip, row: rows[index] })),
    rows: Math.max(1, ...rows.map((row) => row + 1)),
    freeAt: null,
    next: null,
    load: loadOf(holds.map(useOf)),
    capacity: place.areaCm2 ?? place.spots ?? 1,
    capacityUnit: place.areaCm2 === undefined ? 'spots' : 'cm2',
  };
};

const useOf = (hold: PlanHold): Use => ({
  from: minuteOf(hold.from),
  to: minuteOf(hold.to),
  amount: hold.amount,
});

const freedom = (
  ground: Ground | null,
  holds: readonly PlanHold[],
  now: Minute,
): Pick<Lane, 'freeAt' | 'next'> => {
  const spans = holds
    .map((hold) => ({ piece: hold.piece, from: minuteOf(hold.from), to: minuteOf(hold.to) }))
    .sort((a, b) => a.from - b.from);
  const freeAt = spans.find(({ from, to }) => from <= now && now < to)?.to ?? null;
  const next = spans.find(({ from }) => from >= (freeAt ?? now + 1));
  return { freeAt, next: ground && next ? { name: nameOf(ground, next.piece), from: next.from } : null };
};

/** A bench hold of a piece that still is in its form: it counts for the load, its strip is in the form's lane. */
const standsInForm = (ground: Ground, hold: PlanHold): boolean => {
  const demold = ground.stepsOf.get(hold.piece)?.find((step) => step.kind === 'demold');
  return demold !== undefined && minuteOf(hold.from) <= minuteOf(demold.start);
};

const oneRoomOf = (shop: Shop): string | null => {
  const rooms = new Set(shop.benches.map((bench) => bench.room));
  return rooms.size === 1 ? [...rooms][0] : null;
};

const roomOfHolds = (ground: Ground | null, holds: readonly PlanHold[]): string | null => {
  const piece = holds.find((hold) => ground && minuteOf(hold.to) > ground.now) ?? holds[0];
  return ground?.stepsOf.get(piece?.piece ?? '')?.[0]?.room ?? ground?.shop.rooms[0]?.id ?? null;
};

const groupBy = <T>(list: readonly T[], key: (item: T) => string): ReadonlyMap<string, readonly T[]> => {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const name = key(item);
    const group = groups.get(name);
    if (group) group.push(item);
    else groups.set(name, [item]);
  }
  return groups;
};
