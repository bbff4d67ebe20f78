/**
 * What a piece's recipe asks for, read straight from the shop file: its applications (seal, layers, coats) and its
 * steps in the order of the bench.
 */
import type { Form, Layer, Piece, PieceSize, Recipe, Resin, Shop, Skill, Work } from '../shop/index.ts';

type StepKind =
  | 'prepare'
  | 'mix'
  | 'seal'
  | 'pour'
  | 'bubbles'
  | 'coat'
  | 'scuff'
  | 'demold'
  | 'turnaround'
  | 'flatten'
  | 'sand'
  | 'flip'
  | 'finish'
  | 'ready';

/** One wet surface: a seal, a layer or a coat. */
export interface Application {
  /** "seal", "layer-2", "coat-1". */
  readonly id: string;
  /** Names of its steps. */
  readonly mix: string;
  readonly apply: string;
  readonly scuff: string;
  readonly set: string;
  readonly where: 'form' | 'coats';
  readonly resin: Resin;
  /** What one cup holds, mL. */
  readonly cupMl: number;
  readonly mixMinutes: number;
  /** Mixing further cups included. */
  readonly applyMinutes: number;
  /** Equal cups, mixed and poured one after the other. */
  readonly cups: number;
  /** Hands-on pouring, without the mixing of further cups. */
  readonly pouringMinutes: number;
  readonly hands: number;
  readonly passes: Layer['bubblePasses'];
  /** The application that this one must bond to; none on raw wood, sanded resin or the other face. */
  readonly over?: string;
}

/** An attended step, or `ready`. Unattended stretches lie between these. */
export interface ExpectedStep {
  readonly id: string;
  readonly kind: StepKind;
  readonly skill?: Skill;
  readonly hands: number;
  readonly minutes: number;
  readonly split: boolean;
  /** The application of which it is the mix, the pour, a bubble pass or the scuff before it. */
  readonly application?: Application;
}

export const areaM2 = (size: PieceSize): number => (size.lengthMm * size.widthMm) / 1_000_000;

/** Whole minutes of hands-on work, one at least; a hair of rounding does not cost a minute. */
const minutesOf = (work: Work, size: PieceSize): number =>
  Math.max(1, Math.ceil(work.minutes + work.minutesPerM2 * areaM2(size) - 1e-9));

/** Depth in mm: as stated, or the stated volume spread over the piece. */
export const depthMm = (layer: Layer, size: PieceSize): number =>
  layer.depthMm ?? ((layer.volumeMl ?? 0) * 1000) / (size.lengthMm * size.widthMm);

/** Share of a layer's box that is wood. */
function woodShare(layer: Layer, size: PieceSize, depth: number): number {
  const { wood } = layer;
  if (!wood) return 0;
  if ('coverPercent' in wood) return wood.coverPercent / 100;
  const boxMm3 = size.lengthMm * size.widthMm * depth;
  let woodMm3 = 0;
  if ('pieces' in wood) {
    for (const p of wood.pieces) woodMm3 += p.count * p.lengthMm * p.widthMm * Math.min(p.thicknessMm, depth);
  } else {
    for (const corners of wood.outlines) woodMm3 += polygonMm2(corners) * depth;
  }
  return Math.min(1, woodMm3 / boxMm3);
}

function polygonMm2(corners: readonly (readonly number[])[]): number {
  let sum = 0;
  for (let i = 0; i < corners.length; i++) {
    const [x, y] = corners[i];
    const [nextX, nextY] = corners[(i + 1) % corners.length];
    sum += (x * nextY - nextX * y) / 2;
  }
  return Math.abs(sum);
}

function layerMl(layer: Layer, size: PieceSize): number {
  if (layer.volumeMl !== undefined) return layer.volumeMl;
  const depth = layer.depthMm ?? 0;
  return areaM2(size) * depth * 1000 * (1 - woodShare(layer, size, depth));
}

/** The wet surfaces of a piece in order. */
export function applicationsOf(shop: Shop, piece: Piece, recipe: Recipe): readonly Application[] {
  const { size } = piece;
  const resinOf = (id: string): Resin => shop.resins.find((r) => r.id === id) as Resin;
  const found: Application[] = [];
  const add = (
    part: Pick<Application, 'id' | 'apply' | 'where' | 'mixMinutes' | 'over'> & {
      resinId: string;
      ml: number;
    },
    work: Work,
    passes: Layer['bubblePasses'],
  ): void => {
    const { id, apply, where, mixMinutes, over, resinId, ml } = part;
    const resin = resinOf(resinId);
    const cups = Math.max(1, Math.ceil(ml / resin.largestBatchMl - 1e-9));
    const pouringMinutes = minutesOf(work, size);
    found.push({
      id,
      apply,
      where,
      mixMinutes,
      over,
      mix: `${id}-mix`,
      scuff: `${id}-scuff`,
      set: `${id}-set`,
      resin,
      cups,
      cupMl: ml / cups,
      pouringMinutes,
      applyMinutes: pouringMinutes + (cups - 1) * mixMinutes,
      hands: work.hands,
      passes,
    });
  };
  const { seal } = recipe;
  if (seal) {
    const ml = seal.coverMlPerM2 * areaM2(size);
    const { mixMinutes } = seal;
    add({ id: 'seal', apply: 'seal', where: 'form', mixMinutes, resinId: seal.resin, ml }, seal.work, []);
  }
  recipe.layers.forEach((layer, i) => {
    const id = `layer-${i + 1}`;
    const over = i > 0 ? `layer-${i}` : seal ? 'seal' : undefined;
    const { mixMinutes } = layer;
    add(
      {
        id,
        apply: `${id}-pour`,
        where: 'form',
        mixMinutes,
        over,
        resinId: layer.resin,
        ml: layerMl(layer, size),
      },
      layer.pour,
      layer.bubblePasses,
    );
  });
  recipe.coats.forEach((coat, i) => {
    const id = `coat-${i + 1}`;
    const sameFace = i > 0 && recipe.coats[i - 1].face === coat.face;
    const ml = coat.coverMlPerM2 * areaM2(size);
    const over = sameFace ? `coat-${i}` : undefined;
    const { mixMinutes } = coat;
    add({ id, apply: id, where: 'coats', mixMinutes, over, resinId: coat.resin, ml }, coat.work, []);
  });
  return found;
}

/** Whether the piece is turned over before this coat. */
export const flipsBefore = (recipe: Recipe, coat: number): boolean =>
  coat > 0 && recipe.coats[coat - 1].face !== recipe.coats[coat].face;

/**
 * The attended steps and `ready`, in order.
 * @param scuffed names of the applications that are met by scuffing
 * @param form the form it is made in, whose turnaround it ends with
 */
export function expectedSteps(
  piece: Piece,
  recipe: Recipe,
  applications: readonly Application[],
  scuffed: ReadonlySet<string>,
  form: Form | undefined,
): readonly ExpectedStep[] {
  const { size } = piece;
  const steps: ExpectedStep[] = [];
  const add = (
    id: string,
    kind: StepKind,
    skill: Skill,
    work: Work,
    more: Partial<ExpectedStep> = {},
  ): void => {
    steps.push({ id, kind, skill, hands: work.hands, minutes: minutesOf(work, size), split: false, ...more });
  };
  const apply = (application: Application, kind: 'seal' | 'pour' | 'coat'): void => {
    const { hands, mixMinutes, applyMinutes } = application;
    if (scuffed.has(application.id))
      add(application.scuff, 'scuff', 'sand', recipe.scuff.work, { application });
    const common = { skill: 'pour', hands, split: false, application } as const;
    steps.push({ id: application.mix, kind: 'mix', minutes: mixMinutes, ...common });
    steps.push({ id: application.apply, kind, minutes: applyMinutes, ...common });
    application.passes.forEach((pass, j) =>
      steps.push({
        ...common,
        id: `${application.id}-bubbles-${j + 1}`,
        kind: 'bubbles',
        minutes: pass.minutes,
        hands: 1,
      }),
    );
  };

  add('prepare', 'prepare', 'prepare', recipe.prepare.work, { split: recipe.prepare.split });
  for (const each of applications)
    if (each.where === 'form') apply(each, each.id === 'seal' ? 'seal' : 'pour');
  add('demold', 'demold', 'demold', recipe.demold.work);
  steps.push({
    id: 'turnaround',
    kind: 'turnaround',
    skill: 'prepare',
    hands: 1,
    minutes: form?.turnaroundMinutes ?? 0,
    split: false,
  });
  for (const kind of ['flatten', 'sand'] as const) {
    const machining = recipe[kind];
    if (machining) add(kind, kind, kind, machining.work, { split: machining.split });
  }
  const coats = applications.filter((each) => each.where === 'coats');
  coats.forEach((each, i) => {
    if (flipsBefore(recipe, i)) add(`flip-${i + 1}`, 'flip', 'pour', recipe.flip.work);
    apply(each, 'coat');
  });
  if (recipe.finish) add('finish', 'finish', 'finish', recipe.finish.work, { split: recipe.finish.split });
  steps.push({ id: 'ready', kind: 'ready', hands: 0, minutes: 0, split: false });
  return steps;
}
