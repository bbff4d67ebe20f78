/**
 * When a piece not yet ordered could be ready, without making another late.
 *
 * Beside a plan that stands, a promise is first that plan with one piece more: what stands stays, and the new piece takes what is left. Only when
 * asked may the others give way within their dates; then the piece is as early as it can be, and what moves for it moves as little as it can.
 */
import type { PieceSize, Piece, Shop } from '../shop/index.ts';
import type { Plan } from './document.ts';
import type { PlanOptions } from './options.ts';
import { firstHorizon, NOBODY, planAhead } from './plan-ahead.ts';
import type { Aim } from './prepare.ts';

export interface PromiseOptions extends Omit<PlanOptions, 'progress' | 'known'> {
  readonly recipe: string;
  readonly size: PieceSize;
  /** As in a piece: when it may be begun, and the only forms it may be cast in. */
  readonly earliest?: string;
  readonly forms?: readonly string[];
  /** Whether the plan that stands may be moved for it; else what fits beside it is promised. */
  readonly mayMove?: boolean;
}

/** What is aimed at: without a plan that stands, beside one, and in place of some of it. As in a re-plan nothing comes before the dates. */
const AIMS = {
  fresh: ['tardiness', 'promise'],
  beside: ['tardiness', 'moved', 'windows', 'promise'],
  moving: ['tardiness', 'promise', 'moved'],
} as const;

export type Promised =
  /** `ready` ISO; `plan` holds the new piece under the name `piece`. */
  | { readonly ok: true; readonly ready: string; readonly piece: string; readonly plan: Plan }
  /** `unknown`: the budget ran out; that no promise can be given is not shown. */
  | { readonly ok: false; readonly status: 'infeasible' | 'unknown'; readonly clash: readonly string[] };

/** A name that no piece has yet. */
function freshName(shop: Shop): string {
  for (let n = 1; ; n++) if (!shop.pieces.some((p) => p.id === `asked-${n}`)) return `asked-${n}`;
}

/**
 * Others keep their dates (or are no later than they must be anyway). The piece keeps its date, too, in a re-plan that is told of the promise's plan.
 * @throws RangeError when the shop has no such recipe
 */
export function promise(shop: Shop, options: PromiseOptions): Promised {
  const { now, recipe, size, earliest, forms, standing, mayMove = false } = options;
  const id = freshName(shop);
  const asked: Piece = {
    id,
    name: `a new ${shop.recipes.find((r) => r.id === recipe)?.name ?? recipe}`,
    recipe,
    size,
    earliest,
    forms,
    due: '2999-12-31',
    weight: 1,
    pins: [],
    actuals: [],
    touchTests: [],
  };
  const more: Shop = { ...shop, pieces: [...shop.pieces, asked] };
  const hasPlan = standing !== undefined && standing.steps.length > 0;
  const aim: Aim = (builder, ground, pieces) => {
    const { blocks } = pieces[pieces.length - 1];
    const { start } = blocks[blocks.length - 1];
    builder.cost('promise', { kind: 'late', start, after: ground.now, weight: 1 });
    return AIMS[!hasPlan ? 'fresh' : mayMove ? 'moving' : 'beside'];
  };
  // It has a date that it cannot miss; how far to look does not hang on that.
  const horizon = firstHorizon({ ...more, pieces: [...shop.pieces, { ...asked, due: now }] }, now);
  const plan = planAhead(more, options, NOBODY, aim, horizon);
  if (plan.status === 'infeasible') return { ok: false, status: 'infeasible', clash: plan.clash };
  const ready = plan.pieces.find((p) => p.piece === id)?.ready;
  return ready === undefined
    ? { ok: false, status: 'unknown', clash: [] }
    : { ok: true, ready, piece: id, plan };
}
