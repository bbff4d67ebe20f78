/** Why no plan can exist, piece by piece, in the maker's words. */
import { stepWords } from '../routing/index.ts';
import type { Reason } from '../routing/index.ts';
import type { Shop } from '../shop/index.ts';

/**
 * One line a piece (and one for what belongs to none): the rules that cannot all hold.
 * @param clash indices into `reasons`
 */
export function clashWords(shop: Shop, reasons: readonly Reason[], clash: readonly number[]): string[] {
  const lines = new Map<string, string[]>();
  for (const index of clash) {
    const { piece, step, text } = reasons[index];
    const name = shop.pieces.find((p) => p.id === piece)?.name ?? 'The shop';
    const said = lines.get(name) ?? [];
    said.push(step ? `${stepWords(step)}: ${text}` : text);
    lines.set(name, said);
  }
  return [...lines].map(([name, said]) => `${name} - ${[...new Set(said)].join('; ')}`);
}
