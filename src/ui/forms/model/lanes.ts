/**
 * The shop and its plan as lanes of strips, in minutes: everything the painter and the pointer need, worked out once
 * a plan. A form's lane shows pieces while they are cast; a bench's lane those that left their form; a warm box's
 * lane who is in it.
 */
import type { Plan, PlanHold, PlanStep, StepKind } from '../../../engine/plan/document.ts';
import type { Piece, Recipe, Shop } from '../../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../../clock/index.ts';
import type { ApplicationCure } from '../../engine/index.ts';
import { stepTitle } from '../../words/index.ts';
import { loadOf, rowsOf, type LoadStep, type Use } from './load.ts';

/** One seal, layer or coat inside a strip. Heights are shares of the strip's body, 0 the floor, 1 the rim. */
export interface Band {
  readonly step: string;
  readonly what: 'seal' | 'layer' | 'coat';
  readonly from: Minute;
  readonly to: Minute;
  readonly bottom: number;
  readonly top: number;
  readonly opens: Minute | null;
  readonly closes: Minute | null;
  /** Cure over time as a share of the age at which the window closes, 1 or more when hard. */
  readonly cure: readonly { readonly at: Minute; readonly share: number }[];
  readonly stalls: readonly (readonly [Minute, Minute])[];
  /** False while the engine has not said yet how it cures. */
  readonly isKnown: boolean;
}

/** The window over one band in which the next goes on. */
export interface Opening {
  /** The application below, whose surface is open. */
  readonly of: string;
  /** The application that goes on. */
  readonly next: string;
  readonly opens: Minute;
  readonly closes: Minute;
  /** When the next one goes on; undefined while it is not planned. */
  readonly used: Minute;
  readonly way: 'recoat' | 'scuff';
  /** Height of the open surface. */
  readonly surface: number;
}

/** An attended step: what can be picked up. */
export interface Hand {
  readonly piece: string;
  readonly step: string;
  readonly kind: StepKind;
  readonly from: Minute;
  readonly to: Minute;
  readonly title: string;
  readonly people: readonly string[];
  readonly pinned: boolean;
  readonly state: PlanStep['state'];
}

export interface Strip {
  readonly piece: string;
  readonly name: string;
  readonly part: 'cast' | 'bench' | 'box' | 'work';
  readonly from: Minute;
  readonly to: Minute;
  readonly row: number;
  readonly lateMinutes: number;
  readonly bands: readonly Band[];
  readonly openings: readonly Opening[];
  readonly hands: readonly Hand[];
  /** From when the piece is out of the form, on a cast strip. */
  readonly outAt: Minute | null;
}

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

interface Ground {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly stepsOf: ReadonlyMap<string, readonly PlanStep[]>;
  readonly cures: ReadonlyMap<string, ApplicationCure>;
  readonly lateOf: ReadonlyMap<string, number>;
  readonly now: Minute;
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

const workStrip = (ground: Ground, step: PlanStep): Strip => ({
  piece: step.piece,
  name: nameOf(ground, step.piece),
  part: 'work',
  from: minuteOf(step.start),
  to: minuteOf(step.end),
  row: 0,
  lateMinutes: ground.lateOf.get(step.piece) ?? 0,
  bands: [],
  openings: [],
  hands: [handOf(step)],
  outAt: null,
});

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

const nameOf = (ground: Ground, piece: string): string => pieceOf(ground, piece)?.name ?? piece;
const pieceOf = (ground: Ground, piece: string): Piece | undefined =>
  ground.shop.pieces.find((one) => one.id === piece);
const recipeOf = (ground: Ground, piece: Piece | undefined): Recipe | undefined =>
  ground.shop.recipes.find((one) => one.id === piece?.recipe);

const castStrip = (ground: Ground, hold: PlanHold): Strip => {
  const from = minuteOf(hold.from);
  const to = minuteOf(hold.to);
  const steps = ground.stepsOf.get(hold.piece) ?? [];
  const demold = steps.find((step) => step.kind === 'demold');
  const outAt = demold ? minuteOf(demold.start) : null;
  const applied = steps.filter((step) => step.kind === 'seal' || step.kind === 'pour');
  const heights = castHeights(ground, hold.piece, applied);
  return {
    piece: hold.piece,
    name: nameOf(ground, hold.piece),
    part: 'cast',
    from,
    to,
    row: 0,
    lateMinutes: ground.lateOf.get(hold.piece) ?? 0,
    bands: applied.map((step, index) => bandOf(ground, step, heights[index], outAt ?? to)),
    openings: openingsOf(ground, applied, heights),
    hands: handsOf(steps, from, to, true),
    outAt,
  };
};

const stayStrip = (ground: Ground, hold: PlanHold, part: 'bench' | 'box'): Strip => {
  const from = minuteOf(hold.from);
  const to = minuteOf(hold.to);
  const steps = ground.stepsOf.get(hold.piece) ?? [];
  const coats = steps.filter(
    (step) => step.kind === 'coat' && minuteOf(step.start) >= from && minuteOf(step.start) < to,
  );
  const heights = coats.map((_, index): Height => ({
    bottom: 0.62 + (0.38 * index) / coats.length,
    top: 0.62 + (0.38 * (index + 1)) / coats.length,
  }));
  return {
    piece: hold.piece,
    name: nameOf(ground, hold.piece),
    part,
    from,
    to,
    row: 0,
    lateMinutes: ground.lateOf.get(hold.piece) ?? 0,
    bands: part === 'box' ? [] : coats.map((step, index) => bandOf(ground, step, heights[index], to)),
    openings: part === 'box' ? [] : openingsOf(ground, coats, heights),
    hands: part === 'box' ? [] : handsOf(steps, from, to, false),
    outAt: null,
  };
};

interface Height {
  readonly bottom: number;
  readonly top: number;
}

/** The seal is a film on the floor; layers share the rest by their depths, each thick enough to be seen. */
const castHeights = (ground: Ground, pieceId: string, applied: readonly PlanStep[]): readonly Height[] => {
  const piece = pieceOf(ground, pieceId);
  const recipe = recipeOf(ground, piece);
  const areaM2 = piece ? (piece.size.lengthMm * piece.size.widthMm) / 1e6 : 1;
  const film = 0.05;
  const room = 0.92;
  const depths = applied
    .filter((step) => step.kind === 'pour')
    .map((_, index) => {
      const layer = recipe?.layers[index];
      return layer?.depthMm ?? (layer?.volumeMl === undefined ? 10 : layer.volumeMl / 1000 / areaM2);
    });
  const total = depths.reduce((sum, depth) => sum + depth, 0) || 1;
  const least = Math.min(0.16, 0.8 / Math.max(1, depths.length));
  const shares = depths.map((depth) => Math.max(least, depth / total));
  const sum = shares.reduce((all, share) => all + share, 0);
  let at = applied.some((step) => step.kind === 'seal') ? film : 0;
  const scale = (room - at) / sum;
  let layer = 0;
  return applied.map((step) => {
    if (step.kind === 'seal') return { bottom: 0, top: film };
    const bottom = at;
    at += shares[layer++] * scale;
    return { bottom, top: at };
  });
};

const curves = new WeakMap<ApplicationCure, Band['cure']>();

/** Worked out once a cure: most of them stay as they are from one plan to the next. */
const curveOf = (cure: ApplicationCure): Band['cure'] => {
  let curve = curves.get(cure);
  if (!curve) {
    curve = cure.samples.map(({ at, age }) => ({ at: minuteOf(at), share: age / cure.closesAge }));
    curves.set(cure, curve);
  }
  return curve;
};

const bandOf = (ground: Ground, step: PlanStep, height: Height, to: Minute): Band => {
  const cure = ground.cures.get(`${step.piece}/${step.step}`);
  return {
    step: step.step,
    what: step.kind === 'seal' ? 'seal' : step.kind === 'coat' ? 'coat' : 'layer',
    from: minuteOf(step.start),
    to,
    ...height,
    opens: cure?.opens ? minuteOf(cure.opens) : null,
    closes: cure?.closes ? minuteOf(cure.closes) : null,
    cure: cure ? curveOf(cure) : [],
    isKnown: cure !== undefined,
    stalls: cure?.stalls.map((stall) => [minuteOf(stall.from), minuteOf(stall.to)] as const) ?? [],
  };
};

const openingsOf = (
  ground: Ground,
  applied: readonly PlanStep[],
  heights: readonly Height[],
): readonly Opening[] =>
  applied.slice(1).flatMap((step, index): readonly Opening[] => {
    const below = applied[index];
    const cure = ground.cures.get(`${below.piece}/${below.step}`);
    const opens = step.window?.opens ?? cure?.opens;
    const closes = step.window?.closes ?? cure?.closes;
    if (!opens || !closes) return [];
    return [
      {
        of: below.step,
        next: step.step,
        opens: minuteOf(opens),
        closes: minuteOf(closes),
        used: minuteOf(step.start),
        way: step.way ?? 'recoat',
        surface: heights[index].top,
      },
    ];
  });

/** Work on the cast piece or its form; the rest is done out of the form. */
const isInForm = (step: PlanStep): boolean => step.form !== undefined;

const handsOf = (steps: readonly PlanStep[], from: Minute, to: Minute, inForm: boolean): readonly Hand[] =>
  steps
    .filter(
      (step) =>
        step.handsOnMinutes > 0 &&
        (inForm ? isInForm(step) : !isInForm(step) && step.bench !== undefined) &&
        minuteOf(step.start) >= from &&
        minuteOf(step.start) < to,
    )
    .map(handOf);

const handOf = (step: PlanStep): Hand => ({
  piece: step.piece,
  step: step.step,
  kind: step.kind,
  from: minuteOf(step.start),
  to: minuteOf(step.end),
  title: stepTitle(step),
  people: step.people,
  pinned: step.pinned,
  state: step.state,
});

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
