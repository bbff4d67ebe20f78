/**
 * The strip of a piece: one stay in a form, on a bench or in a warm box, or one piece of work elsewhere, in minutes, with what lies in it,
 * how that cures, and what can be picked up.
 */
import type { Plan, PlanHold, PlanStep, StepKind } from '../../../engine/plan/document.ts';
import type { Piece, Recipe, Shop } from '../../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../../clock/index.ts';
import type { ApplicationCure } from '../../engine/index.ts';
import { stepTitle } from '../../words/index.ts';

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

/** What all strips are made from. */
export interface Ground {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly stepsOf: ReadonlyMap<string, readonly PlanStep[]>;
  readonly cures: ReadonlyMap<string, ApplicationCure>;
  readonly lateOf: ReadonlyMap<string, number>;
  readonly now: Minute;
}

export const nameOf = (ground: Ground, piece: string): string => pieceOf(ground, piece)?.name ?? piece;
const pieceOf = (ground: Ground, piece: string): Piece | undefined =>
  ground.shop.pieces.find((one) => one.id === piece);
const recipeOf = (ground: Ground, piece: Piece | undefined): Recipe | undefined =>
  ground.shop.recipes.find((one) => one.id === piece?.recipe);

/** A stay of which nothing is said yet but whose it is, and when. */
const emptyStrip = (ground: Ground, piece: string, part: Strip['part'], from: Minute, to: Minute): Strip => ({
  piece,
  name: nameOf(ground, piece),
  part,
  from,
  to,
  row: 0,
  lateMinutes: ground.lateOf.get(piece) ?? 0,
  bands: [],
  openings: [],
  hands: [],
  outAt: null,
});

export const castStrip = (ground: Ground, hold: PlanHold): Strip => {
  const from = minuteOf(hold.from);
  const to = minuteOf(hold.to);
  const steps = ground.stepsOf.get(hold.piece) ?? [];
  const demold = steps.find((step) => step.kind === 'demold');
  const outAt = demold ? minuteOf(demold.start) : null;
  const applied = steps.filter((step) => step.kind === 'seal' || step.kind === 'pour');
  const heights = castHeights(ground, hold.piece, applied);
  return {
    ...emptyStrip(ground, hold.piece, 'cast', from, to),
    bands: applied.map((step, index) => bandOf(ground, step, heights[index], outAt ?? to)),
    openings: openingsOf(ground, applied, heights),
    hands: handsOf(steps, from, to, true),
    outAt,
  };
};

export const stayStrip = (ground: Ground, hold: PlanHold, part: 'bench' | 'box'): Strip => {
  const from = minuteOf(hold.from);
  const to = minuteOf(hold.to);
  const strip = emptyStrip(ground, hold.piece, part, from, to);
  if (part === 'box') return strip;
  const steps = ground.stepsOf.get(hold.piece) ?? [];
  const coats = steps.filter(
    (step) => step.kind === 'coat' && minuteOf(step.start) >= from && minuteOf(step.start) < to,
  );
  const heights = coats.map((_, index): Height => ({
    bottom: 0.62 + (0.38 * index) / coats.length,
    top: 0.62 + (0.38 * (index + 1)) / coats.length,
  }));
  return {
    ...strip,
    bands: coats.map((step, index) => bandOf(ground, step, heights[index], to)),
    openings: openingsOf(ground, coats, heights),
    hands: handsOf(steps, from, to, false),
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

export const workStrip = (ground: Ground, step: PlanStep): Strip => ({
  ...emptyStrip(ground, step.piece, 'work', minuteOf(step.start), minuteOf(step.end)),
  hands: [handOf(step)],
});
