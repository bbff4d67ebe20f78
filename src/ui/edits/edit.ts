/** An edit is a command that makes a new shop; the old one stays as it is. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Piece, Shop } from '../../engine/shop/index.ts';

export interface Edit {
  /** What it does, in words that complete "Undo: …". */
  readonly says: string;
  readonly apply: (shop: Shop) => Shop;
  /** A plan that was found for the shop as it then is: the next one is no worse. */
  readonly known?: Plan;
}

/** The shop with one piece changed; the same shop when it holds no such piece. */
export const changePiece = (shop: Shop, id: string, change: (piece: Piece) => Piece): Shop => {
  const at = shop.pieces.findIndex((piece) => piece.id === id);
  if (at < 0) return shop;
  return { ...shop, pieces: shop.pieces.map((piece, index) => (index === at ? change(piece) : piece)) };
};
