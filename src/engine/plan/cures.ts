/** How every seal, layer and coat of a plan cures where it stands, dense enough to draw. */
import { stalls } from '../cure/index.ts';
import { placedCures, standingAge } from '../routing/index.ts';
import type { Ground, MilestoneName, PieceRoute, PlacedCure, RoutedBlock } from '../routing/index.ts';
import { NEVER } from '../schedule/index.ts';
import type { Assignment } from '../schedule/index.ts';
import type { Shop } from '../shop/index.ts';
import { intersect, toIso } from '../time/index.ts';
import type { Plan } from './document.ts';
import { allHold, isPresent } from './reading.ts';
import { revive } from './revived.ts';

export interface Span {
  readonly from: string;
  readonly to: string;
}

/** One point of a cure: `age` in equivalent minutes at the resin's reference temperature since the pour. */
export interface CureSample {
  readonly at: string;
  readonly age: number;
}

/** One application of the plan; a moment is null when it is not reached while the forecast lasts. */
export interface ApplicationCure {
  readonly piece: string;
  /** The apply step: `seal`, `layer-2-pour`, `coat-1`. */
  readonly step: string;
  readonly resin: string;
  readonly applied: string;
  /** The last moment at which the (first) cup still flows. */
  readonly pourBy: string | null;
  /** When it has set: tacky, or found hard before its sheet has it tacky. */
  readonly opens: string | null;
  readonly closes: string | null;
  /** A finger found it hard, which has shut its window. */
  readonly isFoundHard: boolean;
  readonly scuffable: string | null;
  readonly demold: string | null;
  readonly machinable: string | null;
  readonly fullCure: string | null;
  /** Equivalent minutes at which the window opens and closes, touch tests included: wet below, hard above. */
  readonly opensAge: number;
  readonly closesAge: number;
  readonly samples: readonly CureSample[];
  /** Stretches in which cure stands still because the air is below the resin's lowest temperature. */
  readonly stalls: readonly Span[];
}

const SAMPLES = 28;

function cureOf(
  ground: Ground,
  answer: Assignment,
  route: PieceRoute,
  routed: RoutedBlock,
  placed: PlacedCure,
) {
  const { block } = routed;
  const { standing, resin } = placed;
  const start = answer.starts[routed.start];
  const { mixMinutes = 0, batchMl = 1, cups = 1 } = block.application ?? {};
  const applied = start + mixMinutes;
  const iso = (minute: number): string => toIso(ground.clock, minute);
  const moment = (minute: number): string | null => (minute >= NEVER ? null : iso(minute));
  const at = (name: MilestoneName): number => placed.milestone(name).at(start);
  const opens = placed.set().at(start);
  const last = [at('demold'), at('scuffable'), opens, ground.horizon].find((m) => m < NEVER) ?? applied;
  const samples = Array.from({ length: SAMPLES + 1 }, (_, i) => {
    // Denser at the beginning, where a surface changes fastest.
    const minute = Math.round(applied + (last - applied) * (i / SAMPLES) ** 1.5);
    return { at: iso(minute), age: standingAge(ground, standing, resin, applied, minute) };
  });
  const still = standing.box
    ? new Int32Array(0)
    : intersect(stalls(ground.age(standing.room, resin)), Int32Array.of(applied, Math.max(applied, last)));
  const cold: Span[] = [];
  for (let i = 0; i < still.length; i += 2) cold.push({ from: iso(still[i]), to: iso(still[i + 1]) });
  return {
    piece: route.itinerary.piece.id,
    step: block.id,
    resin: resin.id,
    applied: iso(applied),
    pourBy: moment(ground.workingUntil(standing.room, resin, batchMl / cups).at(start)),
    opens: moment(opens),
    closes: moment(at('closes')),
    isFoundHard: placed.isFoundHard,
    scuffable: moment(at('scuffable')),
    demold: moment(at('demold')),
    machinable: moment(at('machinable')),
    fullCure: moment(at('fullCure')),
    opensAge: Math.min(placed.ageOf('opens'), placed.ageOf('closes')),
    closesAge: placed.ageOf('closes'),
    samples,
    stalls: cold,
  };
}

/** The cure of every application in the plan, in the order of pieces and steps. */
export function milestones(shop: Shop, plan: Plan): readonly ApplicationCure[] {
  if (plan.steps.length === 0) return [];
  const { ground, pieces, answer } = revive(shop, plan);
  return pieces.flatMap((route) =>
    route.blocks.flatMap((routed) => {
      if (!routed.block.application || !isPresent(answer, routed)) return [];
      const placed = placedCures(ground, route, routed).find((p) => allHold(answer, p.when));
      return placed ? [cureOf(ground, answer, route, routed, placed)] : [];
    }),
  );
}
