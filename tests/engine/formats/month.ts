/** A month of work, windows and forms freeing up, in any zone: a plan written down, with times told by Intl and not by us. */
import type { Plan, PlanHold, PlanStep } from '../../../src/engine/plan/document.ts';
import type { Shop } from '../../../src/engine/shop/index.ts';
import { mixingShop, planWith } from '../mix/bench-day.ts';

const MINUTE_MS = 60_000;

/** `2026-03-29T01:30+01:00` for a moment, by the zone data of Intl. */
export function isoIn(zone: string, ms: number): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    timeZoneName: 'longOffset',
  }).formatToParts(ms);
  const part = (type: string): string => parts.find((p) => p.type === type)?.value ?? '';
  const offset = part('timeZoneName').replace('GMT', '') || '+00:00';
  return `${part('year')}-${part('month')}-${part('day')}T${part('hour')}:${part('minute')}${offset}`;
}

export interface Month {
  readonly shop: Shop;
  readonly plan: Plan;
  /** Milliseconds since 1970 of every step's start, and of every window and hold, as they were meant. */
  readonly starts: readonly number[];
}

/** Every `hours` hours from `from` (an ISO moment) on, for `days` days, one step, one window and one form freeing up. */
export function month(zone: string, from: string, days = 31, hours = 7): Month {
  const first = Date.parse(from);
  const count = Math.floor((days * 24) / hours);
  const starts = Array.from({ length: count }, (_, k) => first + k * hours * 60 * MINUTE_MS);
  const iso = (ms: number): string => isoIn(zone, ms);
  const shop = mixingShop((file) => {
    file.zone = zone;
    file.name = 'Wren; Sons, \\ Daughters';
    file.pieces = starts.map((_, k) => ({
      id: `p${k}`,
      name: `Brücke, No. ${k}; 木の板`,
      recipe: 'three-layer',
      size: { lengthMm: 400, widthMm: 200 },
      due: '2027-12-01',
    }));
  });
  const steps = starts.map((ms, k): PlanStep => {
    return {
      piece: `p${k}`,
      step: 'layer-2-pour',
      kind: 'pour',
      start: iso(ms),
      end: iso(ms + 20 * MINUTE_MS),
      handsOnMinutes: 20,
      people: ['wren'],
      room: 'shop',
      form: { id: 'long', unit: 1 },
      window: { of: 'layer-1', opens: iso(ms - 30 * MINUTE_MS), closes: iso(ms + 90 * MINUTE_MS) },
      way: 'recoat',
      resin: 'fast',
      batchMl: 160,
      state: 'planned',
      pinned: false,
    };
  });
  const holds = starts.map((ms, k): PlanHold => {
    return {
      piece: `p${k}`,
      what: 'form',
      id: 'long',
      unit: 1,
      from: iso(ms),
      to: iso(ms + 60 * MINUTE_MS),
      amount: 1,
    };
  });
  return { shop, plan: planWith(shop, steps, { now: iso(first - 60 * MINUTE_MS), holds }), starts };
}
