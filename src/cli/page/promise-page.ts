/** The answer to "when could one more be ready?", for a person. */
import type { PieceSize, Promised, Shop } from '../../engine/index.ts';
import type { Terminal } from '../terminal.ts';
import { fill } from '../table.ts';
import { momentsOf } from './moments.ts';
import { namesOf } from './names.ts';

export interface Asked {
  /** The recipe's name. */
  readonly recipe: string;
  readonly size: PieceSize;
}

/** Ends in a newline. */
export function promisePage(
  shop: Shop,
  { recipe, size }: Asked,
  answer: Promised,
  { width, paint }: Pick<Terminal, 'width' | 'paint'>,
): string {
  const what = `${recipe}, ${size.lengthMm} x ${size.widthMm} mm`;
  if (answer.ok) return `${readyLines(shop, what, answer, paint.strong).join('\n')}\n`;
  if (answer.status === 'unknown') {
    const line = `${what}: the budget ran out before there was a plan with it. Give more with --budget.`;
    return `${fill(line, width).join('\n')}\n`;
  }
  const reasons = answer.clash.flatMap((line) => fill(line, width, '  - ', '    '));
  return `${[`${what}: no promise can be given. These cannot all hold:`, ...reasons].join('\n')}\n`;
}

function readyLines(
  shop: Shop,
  what: string,
  { plan, piece, ready }: Extract<Promised, { ok: true }>,
  strong: (text: string) => string,
): string[] {
  const moments = momentsOf(plan);
  const names = namesOf(shop);
  const isProven = plan.levels.some(({ name, proven }) => name === 'promise' && proven);
  const forms = plan.holds.filter((hold) => hold.piece === piece && hold.what === 'form');
  return [
    strong(`${what}: ready ${moments.full(ready)}`),
    isProven
      ? 'Proved: it cannot be ready earlier.'
      : 'An earlier moment may be possible; that is not proved either way.',
    ...forms.map(
      ({ id, unit, from, to }) =>
        `It would be in ${names.form(id, unit)} from ${moments.full(from)} to ${moments.full(to)}.`,
    ),
  ];
}
