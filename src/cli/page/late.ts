/** Late pieces, each with the chain of reasons that holds it. */
import { whyStep } from '../../engine/index.ts';
import type { Plan, Shop } from '../../engine/index.ts';
import { formatDuration } from '../../engine/time/index.ts';
import type { Moments } from './moments.ts';
import { namesOf } from './names.ts';
import { fill } from '../table.ts';

/** The rest of a long chain is for the `why` command. */
const REASONS_SHOWN = 6;

export function latePieces(shop: Shop, plan: Plan, moments: Moments, width: number): string[] {
  const names = namesOf(shop);
  return plan.pieces
    .filter(({ lateMinutes }) => lateMinutes > 0)
    .flatMap(({ piece, ready, due, lateMinutes }) => {
      const reasons = whyStep(shop, plan, piece, 'ready');
      const rest = reasons.length - REASONS_SHOWN;
      return [
        ...fill(
          `${names.piece(piece)}: ready ${moments.full(ready)}, due ${moments.full(due)}, ${formatDuration(lateMinutes)} late`,
          width,
          '  ',
          '    ',
        ),
        ...reasons.slice(0, REASONS_SHOWN).flatMap((reason) => fill(reason, width, '    ', '      ')),
        ...(rest > 0 ? [`    and ${rest} more: why FILE ${piece} ready`] : []),
      ];
    });
}
