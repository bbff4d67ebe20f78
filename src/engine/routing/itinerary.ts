/**
 * A piece and its recipe as a list of blocks: stretches of hands-on work that are put on the clock as one.
 * Nothing here knows times of day, people or places.
 */
import type { Piece, Recipe, Shop, Skill, Work } from '../shop/index.ts';
import { areaM2, layerVolumeMl, thinVolumeMl } from './amounts.ts';

/** The kinds of step a block is made of; unattended stretches are read off between blocks later. */
export type BlockKind =
  | 'prepare'
  | 'mix'
  | 'seal'
  | 'pour'
  | 'coat'
  | 'bubbles'
  | 'scuff'
  | 'demold'
  | 'turnaround'
  | 'flatten'
  | 'sand'
  | 'flip'
  | 'finish'
  | 'ready';

export interface BlockStep {
  readonly id: string;
  readonly kind: BlockKind;
  readonly minutes: number;
}

/** One wet surface: a seal, a layer or a coat. */
export interface Application {
  /** "seal", "layer-2", "coat-1". */
  readonly id: string;
  readonly resin: string;
  readonly batchMl: number;
  /** Over the resin's largest batch it is split over several equal cups, mixed and poured one after the other. */
  readonly cups: number;
  /** Mixing one cup. */
  readonly mixMinutes: number;
  /** From the first drop on the piece to the last, the mixing of further cups included. */
  readonly applyMinutes: number;
  /** Where the piece is while this cures: in its form, or on a bench after demolding. */
  readonly stay: 'form' | 'coats';
  /** The application right under this one on the same face, whose tack window binds; null for a sanded or raw face. */
  readonly over: string | null;
}

export interface Block {
  /** The step by which the block is named, the last of `steps`. */
  readonly id: string;
  readonly kind: BlockKind;
  readonly steps: readonly BlockStep[];
  readonly skill: Skill;
  readonly hands: number;
  /** Hands-on minutes; for a turnaround the form decides and this is 0. */
  readonly minutes: number;
  readonly split: boolean;
  readonly dust: boolean;
  readonly tool: string | null;
  readonly application: Application | null;
  /** For bubble passes: minutes after the end of the pour of `after` between which it begins. */
  readonly pass: { readonly after: string; readonly from: number; readonly to: number } | null;
  /** A scuff is done only when this application's window is not used. */
  readonly optionalFor: string | null;
}

export interface Itinerary {
  readonly piece: Piece;
  readonly recipe: Recipe;
  /** In the order of the bench; each begins after the one before has ended. */
  readonly blocks: readonly Block[];
}

/** Hands-on minutes of `work` on a piece of `m2` square metres: whole minutes, one at least. */
export const workMinutes = (work: Work, m2: number): number =>
  Math.max(1, Math.ceil(work.minutes + work.minutesPerM2 * m2 - 1e-9));

/** How many equal cups so much resin takes. */
export const cupsFor = (batchMl: number, largestBatchMl: number): number =>
  Math.max(1, Math.ceil(batchMl / largestBatchMl - 1e-9));

/** The cups of an application: minutes from the start of its block to each one's mix and to its last drop. */
export function cupSpans({ cups, mixMinutes, applyMinutes }: Application): { mix: number; out: number }[] {
  const pouring = (applyMinutes - (cups - 1) * mixMinutes) / cups;
  return Array.from({ length: cups }, (_, k) => {
    const mix = Math.round(k * (mixMinutes + pouring));
    return { mix, out: mix + mixMinutes + Math.ceil(pouring) };
  });
}

type BlockParts = Pick<Block, 'kind' | 'skill' | 'minutes'> & Partial<Block> & { readonly id: string };

const block = (parts: BlockParts): Block => ({
  hands: 1,
  split: false,
  dust: false,
  tool: null,
  application: null,
  pass: null,
  optionalFor: null,
  steps: [{ id: parts.id, kind: parts.kind, minutes: parts.minutes }],
  ...parts,
});

/** Measure, mix and apply: one unbroken stretch, since the mix is already curing in the cup. */
function applicationBlock(application: Application, kind: 'seal' | 'pour' | 'coat', hands: number): Block {
  const id = kind === 'pour' ? `${application.id}-pour` : application.id;
  const { mixMinutes, applyMinutes } = application;
  return block({
    id,
    kind,
    skill: 'pour',
    hands,
    minutes: mixMinutes + applyMinutes,
    application,
    steps: [
      { id: `${application.id}-mix`, kind: 'mix', minutes: mixMinutes },
      { id, kind, minutes: applyMinutes },
    ],
  });
}

/**
 * The blocks of one piece.
 * @throws RangeError when the piece names a recipe that the shop does not have
 */
export function itinerary(shop: Shop, piece: Piece): Itinerary {
  const recipe = shop.recipes.find((r) => r.id === piece.recipe);
  if (!recipe) throw new RangeError(`piece "${piece.id}": there is no recipe "${piece.recipe}"`);
  const m2 = areaM2(piece.size);
  const minutesOf = (work: Work): number => workMinutes(work, m2);
  const cupped = (resin: string, batchMl: number, mixMinutes: number, work: Work) => {
    const largest = shop.resins.find((r) => r.id === resin)?.largestBatchMl ?? Infinity;
    const cups = cupsFor(batchMl, largest);
    return { batchMl, cups, mixMinutes, applyMinutes: minutesOf(work) + (cups - 1) * mixMinutes };
  };
  const blocks: Block[] = [];
  const scuff = (before: string): Block =>
    block({
      id: `${before}-scuff`,
      kind: 'scuff',
      skill: 'sand',
      minutes: minutesOf(recipe.scuff.work),
      hands: recipe.scuff.work.hands,
      optionalFor: before,
    });

  blocks.push(
    block({
      id: 'prepare',
      kind: 'prepare',
      skill: 'prepare',
      minutes: minutesOf(recipe.prepare.work),
      hands: recipe.prepare.work.hands,
      split: recipe.prepare.split,
    }),
  );

  let below: string | null = null;
  if (recipe.seal) {
    const { seal } = recipe;
    const sealing: Application = {
      id: 'seal',
      resin: seal.resin,
      ...cupped(seal.resin, thinVolumeMl(seal.coverMlPerM2, piece.size), seal.mixMinutes, seal.work),
      stay: 'form',
      over: null,
    };
    blocks.push(applicationBlock(sealing, 'seal', seal.work.hands));
    below = 'seal';
  }
  recipe.layers.forEach((layer, i) => {
    const id = `layer-${i + 1}`;
    if (below) blocks.push(scuff(id));
    const application: Application = {
      id,
      resin: layer.resin,
      ...cupped(layer.resin, layerVolumeMl(layer, piece.size), layer.mixMinutes, layer.pour),
      stay: 'form',
      over: below,
    };
    blocks.push(applicationBlock(application, 'pour', layer.pour.hands));
    layer.bubblePasses.forEach((pass, j) =>
      blocks.push(
        block({
          id: `${id}-bubbles-${j + 1}`,
          kind: 'bubbles',
          skill: 'pour',
          minutes: pass.minutes,
          pass: { after: `${id}-pour`, from: pass.fromMinutes, to: pass.toMinutes },
        }),
      ),
    );
    below = id;
  });

  const { demold } = recipe;
  blocks.push(
    block({
      id: 'demold',
      kind: 'demold',
      skill: 'demold',
      minutes: minutesOf(demold.work),
      hands: demold.work.hands,
    }),
    block({ id: 'turnaround', kind: 'turnaround', skill: 'prepare', minutes: 0 }),
  );

  for (const kind of ['flatten', 'sand'] as const) {
    const machining = recipe[kind];
    if (!machining) continue;
    blocks.push(
      block({
        id: kind,
        kind,
        skill: kind,
        minutes: minutesOf(machining.work),
        hands: machining.work.hands,
        split: machining.split,
        dust: machining.dust,
        tool: machining.tool ?? null,
      }),
    );
  }

  recipe.coats.forEach((coat, i) => {
    const id = `coat-${i + 1}`;
    const before = recipe.coats[i - 1];
    const flipped = before !== undefined && before.face !== coat.face;
    if (flipped) {
      blocks.push(
        block({
          id: `flip-${i + 1}`,
          kind: 'flip',
          skill: 'pour',
          minutes: minutesOf(recipe.flip.work),
          hands: recipe.flip.work.hands,
        }),
      );
    }
    const over = before && !flipped ? `coat-${i}` : null;
    if (over) blocks.push(scuff(id));
    const application: Application = {
      id,
      resin: coat.resin,
      ...cupped(coat.resin, thinVolumeMl(coat.coverMlPerM2, piece.size), coat.mixMinutes, coat.work),
      stay: 'coats',
      over,
    };
    blocks.push(applicationBlock(application, 'coat', coat.work.hands));
  });

  if (recipe.finish) {
    blocks.push(
      block({
        id: 'finish',
        kind: 'finish',
        skill: 'finish',
        minutes: minutesOf(recipe.finish.work),
        hands: recipe.finish.work.hands,
        split: recipe.finish.split,
      }),
    );
  }
  blocks.push(block({ id: 'ready', kind: 'ready', skill: 'finish', hands: 0, minutes: 0 }));
  return { piece, recipe, blocks };
}

/** Every step name that a piece of this recipe can have a pin or an actual for. */
export function stepNames(shop: Shop, piece: Piece): readonly string[] {
  return itinerary(shop, piece).blocks.flatMap((b) => b.steps.map((s) => s.id));
}
