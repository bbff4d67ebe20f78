/** The seals, pours and coats of a plan, each with what its recipe says of it. */
import { layerDepthMm } from '../routing/index.ts';
import type { Plan, PlanStep } from '../plan/document.ts';
import type { Recipe, Resin, Shop } from '../shop/index.ts';
import { toMinute, type Clock } from '../time/index.ts';

export type Tint = NonNullable<Recipe['layers'][number]['tint']>;

export interface Pour {
  readonly piece: string;
  /** The apply step: "seal", "layer-2-pour", "coat-1". */
  readonly step: string;
  readonly kind: 'seal' | 'pour' | 'coat';
  readonly resin: Resin;
  readonly room: string;
  readonly people: readonly string[];
  /** Minutes of the clock: mixing begins, pouring begins, pouring ends. */
  readonly mixMinute: number;
  readonly pourMinute: number;
  readonly endMinute: number;
  /** What goes onto the piece. */
  readonly ml: number;
  readonly depthMm: number;
  readonly tint: Tint | null;
  readonly state: PlanStep['state'];
}

/** What a recipe says of the application behind a step, and how deep it stands on this piece. */
function saidOf(recipe: Recipe | undefined, step: string, size: Shop['pieces'][number]['size']) {
  const number = Number(/-(\d+)/.exec(step)?.[1] ?? 0);
  if (step.startsWith('layer-')) {
    const layer = recipe?.layers[number - 1];
    return { tint: layer?.tint ?? null, depthMm: layer ? layerDepthMm(layer, size) : 0 };
  }
  const thin = step.startsWith('coat-') ? recipe?.coats[number - 1] : recipe?.seal;
  // One litre on a square metre stands one millimetre deep.
  return { tint: thin?.tint ?? null, depthMm: (thin?.coverMlPerM2 ?? 0) / 1000 };
}

/**
 * Every application of the plan in the order in which its mixing begins.
 * @throws RangeError when the plan names a resin or piece that the shop does not have
 */
export function poursOf(shop: Shop, plan: Plan, clock: Clock): readonly Pour[] {
  const pours = plan.steps.flatMap((step, at): Pour[] => {
    if (step.kind !== 'pour' && step.kind !== 'seal' && step.kind !== 'coat') return [];
    const piece = shop.pieces.find(({ id }) => id === step.piece);
    const resin = shop.resins.find(({ id }) => id === step.resin);
    if (!piece || !resin) {
      throw new RangeError(
        `plan: ${step.piece} ${step.step} needs ${piece ? `the resin "${step.resin}"` : 'its piece'}, which the shop does not have`,
      );
    }
    const mixStep = step.step.replace(/-pour$/, '') + '-mix';
    const before = plan.steps[at - 1];
    const mix =
      before?.piece === step.piece && before.step === mixStep
        ? before
        : plan.steps.find((s) => s.piece === step.piece && s.step === mixStep);
    const pourMinute = toMinute(clock, step.start);
    return [
      {
        piece: piece.id,
        step: step.step,
        kind: step.kind,
        resin,
        room: step.room,
        people: step.people,
        mixMinute: mix ? toMinute(clock, mix.start) : pourMinute,
        pourMinute,
        endMinute: toMinute(clock, step.end),
        ml: step.batchMl ?? 0,
        ...saidOf(
          shop.recipes.find(({ id }) => id === piece.recipe),
          step.step,
          piece.size,
        ),
        // What is being mixed has left the can already.
        state: mix && mix.state !== 'planned' && step.state === 'planned' ? 'begun' : step.state,
      },
    ];
  });
  return pours
    .filter(({ ml }) => ml > 0)
    .sort((a, b) => a.mixMinute - b.mixMinute || a.pourMinute - b.pourMinute || (a.piece < b.piece ? -1 : 1));
}
