/** A recipe as a stack of layers: what lies on what, as thick as it is. */
import type { PieceSize, Recipe } from '../../../engine/shop/index.ts';

export interface Slab {
  readonly kind: 'bottom-coat' | 'seal' | 'layer' | 'top-coat';
  /** From 1 within its kind as the recipe counts them. */
  readonly number: number;
  readonly resin: string;
  /** NaN when neither depth nor size is known. */
  readonly depthMm: number;
  /** 0..1 of the slab that is wood. */
  readonly woodShare: number;
  readonly tint: string | null;
  /** Top edge and height in the picture; thin slabs are drawn no thinner than can be seen. */
  readonly top: number;
  readonly height: number;
  /** Whether it had to be drawn thicker than to scale. */
  readonly thickened: boolean;
}

export interface RecipeStack {
  /** From the bottom up. */
  readonly slabs: readonly Slab[];
  readonly height: number;
  /** Sum of what is known, in mm. */
  readonly depthMm: number;
}

export const THINNEST = 5;

type Bare = Omit<Slab, 'top' | 'height' | 'thickened'>;

const depthOf = (layer: Recipe['layers'][number], size: PieceSize | undefined): number => {
  if (layer.depthMm !== undefined) return layer.depthMm;
  if (layer.volumeMl === undefined || !size) return Number.NaN;
  return (layer.volumeMl * 1000) / (size.lengthMm * size.widthMm);
};

const woodShareOf = (layer: Recipe['layers'][number], size: PieceSize | undefined): number => {
  const { wood } = layer;
  if (!wood) return 0;
  if ('coverPercent' in wood) return wood.coverPercent / 100;
  if (!size) return 0.5;
  const area =
    'pieces' in wood
      ? wood.pieces.reduce((sum, piece) => sum + piece.count * piece.lengthMm * piece.widthMm, 0)
      : wood.outlines.reduce((sum, corners) => sum + polygonArea(corners), 0);
  return Math.min(1, area / (size.lengthMm * size.widthMm));
};

/** The shoelace formula. */
const polygonArea = (corners: readonly (readonly number[])[]): number =>
  Math.abs(
    corners.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = corners[(at + 1) % corners.length];
      return sum + (x * nextY - nextX * y) / 2;
    }, 0),
  );

/**
 * Stacks a recipe from the bottom up into a picture `height` high. Layers are to scale among each other; seal and coats
 * too, as long as that leaves them `THINNEST` high. 1 mL on 1 m2 is 1/1000 mm.
 */
export const recipeStack = (recipe: Recipe, height: number, size?: PieceSize): RecipeStack => {
  const coats = recipe.coats.map((coat, at) => ({ coat, number: at + 1 }));
  const coatSlab = ({ coat, number }: (typeof coats)[number]): Bare => ({
    kind: coat.face === 'bottom' ? 'bottom-coat' : 'top-coat',
    number,
    resin: coat.resin,
    depthMm: coat.coverMlPerM2 / 1000,
    woodShare: 0,
    tint: coat.tint?.name ?? null,
  });
  const bare: readonly Bare[] = [
    // The last coat of the bottom lies outermost.
    ...coats
      .filter(({ coat }) => coat.face === 'bottom')
      .map(coatSlab)
      .reverse(),
    ...(recipe.seal
      ? [
          {
            kind: 'seal' as const,
            number: 1,
            resin: recipe.seal.resin,
            depthMm: recipe.seal.coverMlPerM2 / 1000,
            woodShare: 0,
            tint: recipe.seal.tint?.name ?? null,
          },
        ]
      : []),
    ...recipe.layers.map((layer, at) => ({
      kind: 'layer' as const,
      number: at + 1,
      resin: layer.resin,
      depthMm: depthOf(layer, size),
      woodShare: woodShareOf(layer, size),
      tint: layer.tint?.name ?? null,
    })),
    ...coats.filter(({ coat }) => coat.face === 'top').map(coatSlab),
  ];
  const known = (slab: Bare): number => (Number.isFinite(slab.depthMm) ? slab.depthMm : 0);
  const pixelsPerMm = scaleOf(bare.map(known), height);
  let bottom = height;
  const slabs = bare.map((slab): Slab => {
    const drawn = Math.max(THINNEST, known(slab) * pixelsPerMm);
    bottom -= drawn;
    return { ...slab, top: bottom, height: drawn, thickened: known(slab) * pixelsPerMm < THINNEST - 1e-9 };
  });
  return { slabs, height, depthMm: bare.reduce((sum, slab) => sum + known(slab), 0) };
};

/** Pixels a mm at which everything fills `height` when nothing is drawn thinner than THINNEST. */
const scaleOf = (depthsMm: readonly number[], height: number): number => {
  let thin = new Set<number>();
  for (;;) {
    const left = height - thin.size * THINNEST;
    const thick = depthsMm.filter((_, at) => !thin.has(at));
    const sum = thick.reduce((a, b) => a + b, 0);
    if (sum === 0 || left <= 0) return 0;
    const scale = left / sum;
    const next = new Set(depthsMm.flatMap((depth, at) => (depth * scale < THINNEST ? [at] : [])));
    if (next.size === thin.size) return scale;
    thin = next;
  }
};
