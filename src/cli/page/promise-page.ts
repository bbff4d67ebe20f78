/** The answer to "when could one more be ready?", for a person. */
import { movedSteps } from '../../engine/index.ts';
import type { PieceSize, Plan, Promised, Shop } from '../../engine/index.ts';
import type { Terminal } from '../terminal.ts';
import { fill } from '../table.ts';
import { momentsOf } from './moments.ts';
import { namesOf } from './names.ts';

export interface Asked {
  /** The recipe's name. */
  readonly recipe: string;
  readonly size: PieceSize;
  /** The plan that stands, and whether it may be moved. */
  readonly standing?: Plan;
  readonly mayMove: boolean;
}

/** Ends in a newline. */
export function promisePage(
  shop: Shop,
  { recipe, size, standing, mayMove }: Asked,
  answer: Promised,
  { width, paint }: Pick<Terminal, 'width' | 'paint'>,
): string {
  const what = `${recipe}, ${size.lengthMm} x ${size.widthMm} mm`;
  if (answer.ok) return `${readyLines(shop, what, answer, paint.strong, standing, mayMove).join('\n')}\n`;
  if (answer.status === 'unknown') {
    const line = `${what}: the budget ran out before there was a plan with it. Give more with --budget.`;
    return `${fill(line, width).join('\n')}\n`;
  }
  const reasons = answer.clash.flatMap((line) => fill(line, width, '  - ', '    '));
  return `${[`${what}: no promise can be given while all of this holds:`, ...reasons].join('\n')}\n`;
}

function readyLines(
  shop: Shop,
  what: string,
  { plan, piece, ready }: Extract<Promised, { ok: true }>,
  strong: (text: string) => string,
  standing: Plan | undefined,
  mayMove: boolean,
): string[] {
  const moments = momentsOf(plan);
  const names = namesOf(shop);
  const isProven = plan.levels.some(({ name, proven }) => name === 'promise' && proven);
  const forms = plan.holds.filter((hold) => hold.piece === piece && hold.what === 'form');
  return [
    strong(`${what}: ready ${moments.full(ready)}`),
    ...(standing ? [movedLine(standing, plan)] : []),
    provedLine(isProven, standing !== undefined && !mayMove),
    ...forms.map(
      ({ id, unit, from, to }) =>
        `It would be in ${names.form(id, unit)} from ${moments.full(from)} to ${moments.full(to)}.`,
    ),
  ];
}

function provedLine(isProven: boolean, isBeside: boolean): string {
  if (!isProven) return 'An earlier moment may be possible; that is not proved either way.';
  return isBeside
    ? 'Proved: beside the plan that stands it cannot be ready earlier. --move tells how early with some of it moved.'
    : 'Proved: it cannot be ready earlier.';
}

/** What of the hands-on work that stood is at another time. */
function movedLine(standing: Plan, plan: Plan): string {
  const moments = momentsOf(plan);
  const moved = movedSteps(standing, plan);
  if (moved.length === 0) return 'Nothing of the plan that stands is moved for it.';
  const others = moved.filter(({ from, to }) => moments.date(from) !== moments.date(to)).length;
  const steps = moved.length === 1 ? 'One step' : `${moved.length} steps`;
  return `${steps} of the plan that stands ${moved.length === 1 ? 'is' : 'are'} moved for it, ${others} to another day.`;
}
