/** An answer of the scheduler as the plan document. */
import type { Assignment, LevelOutcome } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import { toDeadline, toIso } from '../time/index.ts';
import { remember } from './answered.ts';
import { PLAN_FORMAT, PLAN_VERSION } from './document.ts';
import type { Plan, PlanLevel } from './document.ts';
import { dealUnits } from './holds.ts';
import { passedPinNote } from './notes.ts';
import type { PlanOptions } from './options.ts';
import type { Prepared } from './prepare.ts';
import { readPiece } from './reading.ts';
import { tellPiece } from './told-piece.ts';

/** The document of an answer, or of none. */
export function tellPlan(
  shop: Shop,
  { seed, budget }: PlanOptions,
  prepared: Prepared,
  answer: Assignment | null,
  levels: readonly LevelOutcome[],
  status: Plan['status'],
  clash: readonly string[],
): Plan {
  const { ground, pieces, passedPins } = prepared;
  const head = {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    shop: shop.name,
    zone: shop.zone,
    now: toIso(ground.clock, ground.now),
    seed,
    budget,
    status,
  } as const;
  if (!answer) return { ...head, levels: [], steps: [], holds: [], pieces: [], notes: [], clash };
  const readings = pieces.map((route) => readPiece(answer, route));
  const units = dealUnits(readings);
  const isTold = ({ piece, step }: { piece: string; step: string }): boolean =>
    readings.some(({ route, times }) => route.itinerary.piece.id === piece && times.has(step));
  const told = readings.map((r) => tellPiece(ground, answer, r, units.get(r.route.itinerary.piece.id) ?? 1));
  const plan: Plan = {
    ...head,
    levels: levels.map(({ name, value, bound, proven }) => ({
      name: name as PlanLevel['name'],
      value,
      bound,
      proven,
    })),
    steps: told.flatMap(({ steps }) => steps),
    holds: told.flatMap(({ holds }) => holds),
    pieces: readings.map(({ route, times }) => {
      const ready = times.get('ready')?.start ?? ground.horizon;
      const due = toDeadline(ground.clock, route.itinerary.piece.due);
      return {
        piece: route.itinerary.piece.id,
        ready: toIso(ground.clock, ready),
        due: toIso(ground.clock, due),
        lateMinutes: Math.max(0, ready - due),
      };
    }),
    notes: [...passedPins.filter(isTold).map(passedPinNote), ...told.flatMap(({ notes }) => notes)],
    clash: [],
  };
  remember(shop, plan, prepared, answer);
  return plan;
}
