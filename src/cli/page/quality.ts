/** How good the plan is, level by level, and how much of that is proved. */
import type { Plan, PlanLevel } from '../../engine/index.ts';
import { table } from '../table.ts';

const WORDS: Readonly<Record<PlanLevel['name'], string>> = {
  tardiness: 'lateness (minutes, by weight)',
  windows: 'scuffs and pours near the edge of a window',
  visits: 'visits, and work in unloved hours',
  early: 'hours until forms and pieces are free',
  moved: 'minutes moved against the standing plan',
};

export function quality(plan: Plan, width: number): string[] {
  const rows = plan.levels.map(({ name, value, bound, proven }) => [
    WORDS[name],
    number(value),
    proven ? 'proved best' : `proved: no plan is below ${number(bound)}`,
  ]);
  return table(rows, { columns: [{}, { align: 'right' }, { wraps: true }], width, indent: '  ' });
}

const number = (value: number) => String(Math.round(value * 10) / 10);
