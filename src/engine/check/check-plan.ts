/** The checker: lays shop file and plan side by side and asks every rule. */
import type { Plan } from '../plan/document.ts';
import type { Shop } from '../shop/index.ts';
import { makeCuring } from './cure.ts';
import { gatherEvidence } from './evidence.ts';
import type { Broken } from './evidence.ts';
import { actuals } from './rules/actuals.ts';
import { bench } from './rules/bench.ts';
import { bubbles } from './rules/bubbles.ts';
import { cure } from './rules/cure.ts';
import { dust } from './rules/dust.ts';
import { earliest } from './rules/earliest.ts';
import { fit } from './rules/fit.ts';
import { form } from './rules/form.ts';
import { hands } from './rules/hands.ts';
import { holds } from './rules/holds.ts';
import { hours } from './rules/hours.ts';
import { order } from './rules/order.ts';
import { pins } from './rules/pins.ts';
import { tardiness } from './rules/tardiness.ts';
import { temperature } from './rules/temperature.ts';
import { tool } from './rules/tool.ts';
import { warmBox } from './rules/warm-box.ts';
import { window } from './rules/window.ts';
import { workingTime } from './rules/working-time.ts';
import { staysOf } from './stays.ts';

/**
 * Every rule that the plan breaks, with the rule's name and a sentence that says what, where and when; none when the
 * plan can be worked as it stands. A plan that says there is none (infeasible, unknown) and lists no step holds.
 * @throws RangeError when the platform does not know the shop's time zone
 */
export function checkPlan(shop: Shop, plan: Plan): readonly Broken[] {
  const saysThereIsNone = plan.status === 'infeasible' || plan.status === 'unknown';
  if (saysThereIsNone && plan.steps.length === 0) return [];
  const evidence = gatherEvidence(shop, plan);
  const curing = makeCuring(evidence);
  const stays = evidence.pieces.flatMap((of) => staysOf(evidence, curing, of));
  return [
    ...order(evidence),
    ...hours(evidence),
    ...hands(evidence),
    ...bubbles(evidence, curing),
    ...window(evidence, curing),
    ...cure(evidence, curing),
    ...workingTime(evidence, curing),
    ...temperature(evidence),
    ...form(evidence, stays),
    ...fit(evidence),
    ...bench(evidence, stays),
    ...warmBox(evidence, stays),
    ...tool(evidence),
    ...dust(evidence, curing),
    ...pins(evidence),
    ...actuals(evidence),
    ...earliest(evidence),
    ...tardiness(evidence),
    ...holds(evidence, stays),
  ];
}
