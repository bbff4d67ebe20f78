/** The plan as a page of text, for a person; readable without colour at 80 columns. */
import { writtenAheadIn, type Plan, type Shop } from '../../engine/index.ts';
import type { Paint, Terminal } from '../terminal.ts';
import { agenda } from './agenda.ts';
import { formTable } from './forms.ts';
import { latePieces } from './late.ts';
import { momentsOf, type Moments } from './moments.ts';
import { quality } from './quality.ts';
import { fill } from '../table.ts';

export { promisePage } from './promise-page.ts';

type Page = Pick<Terminal, 'width' | 'paint'>;

/** All of it: days, forms, late pieces and why, remarks, how good it is. Ends in a newline. */
export function planPage(shop: Shop, plan: Plan, page: Page): string {
  const moments = momentsOf(plan);
  const { width, paint } = page;
  if (plan.steps.length === 0 && plan.status !== 'optimal' && plan.status !== 'feasible') {
    return joined([head(plan, moments, page), noPlan(plan, width)]);
  }
  return joined([
    head(plan, moments, page),
    agenda(shop, plan, moments, page),
    section('Forms', formTable(shop, plan, moments, width), paint),
    section('Late, and why', latePieces(shop, plan, moments, width), paint),
    section(
      'Remarks',
      plan.notes.flatMap((note) => fill(remark(shop, note), width, '  ', '    ')),
      paint,
    ),
    section('How good this plan is, first things first', quality(plan, width), paint),
  ]);
}

/** The short form: today, tomorrow and the forms. Ends in a newline. */
export function planSummary(shop: Shop, plan: Plan, page: Page): string {
  const moments = momentsOf(plan);
  if (plan.steps.length === 0) return joined([head(plan, moments, page), noPlan(plan, page.width)]);
  return joined([
    head(plan, moments, page),
    agenda(shop, plan, moments, { ...page, brief: true }),
    section('Forms', formTable(shop, plan, moments, page.width), page.paint),
  ]);
}

/** With the name of the piece that it is about. */
function remark(shop: Shop, { piece, text }: Plan['notes'][number]): string {
  const name = shop.pieces.find(({ id }) => id === piece)?.name;
  return name === undefined ? text : `${name}: ${text}`;
}

function head(plan: Plan, moments: Moments, { width, paint }: Page): string[] {
  const late = plan.pieces.filter(({ lateMinutes }) => lateMinutes > 0).length;
  const all = plan.pieces.length;
  const verdict = {
    optimal: `${onTime(all, late)} Proved: no better plan exists.`,
    feasible: `${onTime(all, late)} A better plan may exist.`,
    infeasible: isRefused(plan) ? 'No plan is made.' : 'No plan can exist.',
    unknown: 'No plan yet.',
  }[plan.status];
  const lines = fill(verdict, width);
  const title = fill(`${plan.shop}, as of ${moments.full(plan.now)} (${plan.zone})`, width);
  return [...title.map(paint.strong), ...(late > 0 ? lines.map(paint.alarm) : lines)];
}

function onTime(all: number, late: number): string {
  if (all === 0) return 'There are no pieces to make.';
  if (late > 0) return `${late} of ${all} pieces will be LATE.`;
  return all === 1 ? 'The piece will be ready in time.' : `All ${all} pieces will be ready in time.`;
}

/** Whether no plan was looked for, since what is written down cannot have happened yet. */
const isRefused = (plan: Plan): boolean => writtenAheadIn(plan).length > 0;

function noPlan(plan: Plan, width: number): string[] {
  if (plan.status === 'infeasible') {
    const heading = isRefused(plan)
      ? 'This is written down for a time still to come:'
      : 'These cannot all hold:';
    return [heading, ...plan.clash.flatMap((line) => fill(line, width, '  - ', '    '))];
  }
  return fill(
    `The budget of ${plan.budget} ran out before there was a plan; that none exists is not shown either. Give more with --budget.`,
    width,
  );
}

const section = (title: string, lines: readonly string[], paint: Paint): string[] =>
  lines.length === 0 ? [] : [paint.strong(title), ...lines];

const joined = (parts: readonly (readonly string[])[]) =>
  `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
