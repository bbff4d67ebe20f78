/** A shop and its plan as the scheduler's model and its answer again: what every question about a plan starts from. */
import { makeOracle } from '../schedule/index.ts';
import type { Assignment, Model, Oracle } from '../schedule/index.ts';
import type { Ground, PieceRoute, Reason } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';
import { makeClock, toMinute } from '../time/index.ts';
import type { Plan } from './document.ts';
import { firstHorizon, prepare } from './plan-shop.ts';
import { standingAssignment } from './standing.ts';

export interface Revived {
  readonly ground: Ground;
  readonly pieces: readonly PieceRoute[];
  readonly model: Model;
  readonly reasons: readonly Reason[];
  readonly answer: Assignment;
  /** The same with every wish let go: what only the rules forbid. */
  readonly unwishing: Assignment;
  readonly oracle: () => Oracle;
}

const known = new WeakMap<Plan, { readonly shop: Shop; readonly revived: Revived }>();
const FORTNIGHT = 14 * 1440;

/** Kept with the plan as long as that lives, so that many questions about one plan cost one routing. */
export function revive(shop: Shop, plan: Plan): Revived {
  const found = known.get(plan);
  if (found && found.shop === shop) return found.revived;
  const clock = makeClock(plan.zone, plan.now);
  const last = Math.max(0, ...plan.pieces.map((p) => toMinute(clock, p.ready)));
  const horizon = Math.max(last + FORTNIGHT, firstHorizon(shop, plan.now));
  const { ground, pieces, model, builder } = prepare(shop, plan.now, horizon);
  const { assignment } = standingAssignment(ground, pieces, model, plan);
  let oracle: Oracle | null = null;
  const revived: Revived = {
    ground,
    pieces,
    model,
    reasons: builder.reasons,
    answer: assignment,
    unwishing: {
      starts: assignment.starts,
      choices: assignment.choices.map((value, choice) => value && !builder.wishes.has(choice)),
    },
    oracle: () => (oracle ??= makeOracle(model, assignment)),
  };
  known.set(plan, { shop, revived });
  return revived;
}
