/** A shop that pours, and plans for it written down by hand: pours at given times, everything around them left out. */
import type { Plan, PlanStep } from '../../../src/engine/plan/document.ts';
import type { Resin, Shop, ShopFile } from '../../../src/engine/shop/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';

/** The clock of the hand-written plans: Berlin in winter. */
export const at = (day: number, time: string): string =>
  `2026-03-${String(day).padStart(2, '0')}T${time}+01:00`;

export interface WrittenPour {
  readonly piece: string;
  readonly step?: string;
  readonly resin?: string;
  readonly ml: number;
  readonly mix: string;
  readonly pour: string;
  readonly end: string;
  readonly state?: PlanStep['state'];
}

/** The mix and pour steps of these pours. */
export const pourSteps = (pours: readonly WrittenPour[]): PlanStep[] =>
  pours.flatMap(({ piece, step = 'layer-1-pour', resin = 'slow', ml, mix, pour, end, state = 'planned' }) => {
    const common = { piece, people: ['wren'], room: 'shop', resin, batchMl: ml, state, pinned: false };
    const kind = step.startsWith('coat') ? 'coat' : step === 'seal' ? 'seal' : 'pour';
    return [
      {
        ...common,
        step: `${step.replace(/-pour$/, '')}-mix`,
        kind: 'mix',
        start: mix,
        end: pour,
        handsOnMinutes: 5,
      },
      { ...common, step, kind, start: pour, end, handsOnMinutes: 5 },
    ] satisfies PlanStep[];
  });

export function planWith(shop: Shop, steps: readonly PlanStep[], rest: Partial<Plan> = {}): Plan {
  return {
    format: 'pourwright.plan',
    version: 1,
    shop: shop.name,
    zone: shop.zone,
    now: `${NOW}+01:00`,
    seed: 1,
    budget: 1,
    status: 'feasible',
    levels: [],
    steps,
    holds: [],
    pieces: shop.pieces.map(({ id, due }) => ({ piece: id, ready: at(20, '12:00'), due, lateMinutes: 0 })),
    notes: [],
    clash: [],
    ...rest,
  };
}

/** The little shop with pieces `a` to `d`, without loss in the cup, on 5 mL marks and a 1 g scale. */
export const mixingShop = (edit: (file: ShopFile) => void = () => undefined): Shop =>
  littleShop((file) => {
    file.pieces = ['a', 'b', 'c', 'd'].map((id) => piece(id));
    file.mixing = { cupLossPercent: 0 };
    edit(file);
  });

/** A resin mixed by volume or by mass; densities of the worked example. */
export const resinOf = (
  a: number,
  b: number,
  by: 'volume' | 'mass' = 'volume',
  [densityAGPerMl, densityBGPerMl] = [1.1, 0.95],
): Resin => {
  const [slow] = mixingShop().resins;
  return { ...slow, largestBatchMl: 1e6, mix: { by, a, b, densityAGPerMl, densityBGPerMl } };
};
