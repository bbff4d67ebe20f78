/** How good the plan is, level by level, and how much of that is proved. */
import type { Plan, PlanLevel } from '../../engine/index.ts';
import { table } from '../table.ts';

const WORDS: Readonly<Record<PlanLevel['name'], string>> = {
  passes: 'bubble passes late over a poured layer (minutes), or left out',
  tardiness: 'lateness (minutes, by weight)',
  windows: 'scuffs and pours near the edge of a window',
  visits: 'visits, and work in unloved hours',
  early: 'minutes until forms and pieces are free, summed',
  promise: 'minutes until the asked piece is ready',
  moved: 'minutes moved against the standing plan',
};

export function quality(plan: Plan, width: number): string[] {
  const rows = plan.levels.map(({ name, value, bound, proven }) => [
    WORDS[name],
    number(value),
    verdict(bound, proven),
  ]);
  return table(rows, { columns: [{}, { align: 'right' }, { wraps: true }], width, indent: '  ' });
}

const number = (value: number) => String(Math.round(value * 10) / 10);

function verdict(bound: number, proven: boolean): string {
  if (proven) return 'proved best';
  return bound > 0 ? `not proved best; no plan is below ${number(bound)}` : 'not proved best';
}
