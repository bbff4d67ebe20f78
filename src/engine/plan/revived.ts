/** A shop and its plan, wherever the plan came from, as the scheduler's model and its answer again. */
import type { Shop } from '../shop/index.ts';
import { makeClock, toMinute } from '../time/index.ts';
import { recall, remember } from './answered.ts';
import type { Answered } from './answered.ts';
import type { Plan } from './document.ts';
import { firstHorizon } from './plan-ahead.ts';
import { prepare } from './prepare.ts';
import { standingAssignment } from './standing.ts';

const FORTNIGHT = 14 * 1440;

/** Many questions about one plan cost one routing, and none where it has just been planned here. */
export function revive(shop: Shop, plan: Plan): Answered {
  const recalled = recall(shop, plan);
  if (recalled) return recalled;
  const clock = makeClock(plan.zone, plan.now);
  const last = Math.max(0, ...plan.pieces.map((p) => toMinute(clock, p.ready)));
  const horizon = Math.max(last + FORTNIGHT, firstHorizon(shop, plan.now));
  const routed = prepare(shop, plan.now, horizon);
  const { assignment } = standingAssignment(
    routed.ground,
    routed.pieces,
    routed.model,
    plan,
    routed.builder.implied,
  );
  return remember(shop, plan, routed, assignment);
}
