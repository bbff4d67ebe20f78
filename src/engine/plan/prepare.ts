/** From a shop to the model that is solved: routed, with what moving a standing plan costs. */
import { LEVELS, LEVELS_REPLAN, routeShop } from '../routing/index.ts';
import type { Ground, ModelBuilder, Option, PieceRoute } from '../routing/index.ts';
import type { Assignment, Model } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import type { Routed } from './answered.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { allHold } from './reading.ts';
import { standingAssignment, withPassesMade } from './standing.ts';

/** The routed shop with its model ready to be solved. */
export interface Prepared extends Routed {
  readonly passedPins: readonly { readonly piece: string; readonly step: string }[];
  readonly hint: Assignment | undefined;
  readonly others: readonly Assignment[];
}

/** Adds costs of its own to the model, and names the levels to be minimised. */
export type Aim = (builder: ModelBuilder, ground: Ground, pieces: readonly PieceRoute[]) => readonly string[];

/** Another form or bench than before costs as much as moving a step by so many minutes. */
const ANOTHER_PLACE_COST = 120;

/** Routes the shop; with a standing plan, moving what it has settled costs, and its values are the hint. A known plan only has values. */
export function prepare(
  shop: Shop,
  now: string,
  horizonMinutes: number,
  { standing, known }: Pick<PlanOptions, 'standing' | 'known'> = {},
  aim?: Aim,
): Prepared {
  const { builder, ground, pieces, passedPins } = routeShop(shop, { now, horizonMinutes });
  const aimed = aim?.(builder, ground, pieces);
  // A wet layer waits for nobody: its passes come before any date.
  const build = (levels: readonly string[]): Model =>
    builder.build(builder.costsAt('passes') ? ['passes', ...levels] : levels);
  let plain: Model | null = null;
  const read = (plan: Plan) =>
    standingAssignment(ground, pieces, (plain ??= builder.build([])), plan, builder.implied);
  const others = known && known.steps.length > 0 ? [read(known).assignment] : [];
  if (!standing || standing.steps.length === 0) {
    const model = build(aimed ?? LEVELS);
    return { ground, pieces, builder, passedPins, model, hint: undefined, others };
  }
  const { assignment, isKnown } = read(standing);
  for (const { blocks } of pieces) {
    for (const { block, start, past } of blocks) {
      if (past || !isKnown[start] || block.optionalFor) continue;
      const at = assignment.starts[start];
      builder.cost('moved', { kind: 'late', start, after: at, weight: 1 });
      builder.cost('moved', { kind: 'early', start, before: at, weight: 1 });
    }
  }
  for (const { forms, formBenches, formStandings, coatBenches, blocks } of pieces) {
    const isOpen = blocks.some((b) => b.past === null);
    for (const options of isOpen ? [forms, formStandings, formBenches, coatBenches] : []) {
      for (const { when } of options as readonly Option<unknown>[]) {
        if (when.length !== 1 || !allHold(assignment, when)) continue;
        builder.cost('moved', { kind: 'choice', when: when[0] ^ 1, weight: ANOTHER_PLACE_COST });
      }
    }
  }
  const model = build(aimed ?? LEVELS_REPLAN);
  const better = withPassesMade(pieces, model, assignment);
  const hints = better ? { hint: better, others: [assignment, ...others] } : { hint: assignment, others };
  return { ground, pieces, builder, passedPins, model, ...hints };
}
