/** With which pieces a piece could change forms: neither is begun, each fits the other's form, and the forms differ. */
import type { Plan } from '../../../engine/plan/document.ts';
import { fits } from '../../../engine/plan/index.ts';
import type { Form, Piece, Shop } from '../../../engine/shop/index.ts';

export interface Cast {
  readonly piece: Piece;
  readonly form: Form;
}

export interface Swap {
  readonly own: Cast;
  readonly other: Cast;
}

const castOf = (shop: Shop, plan: Plan, piece: Piece): Cast | null => {
  const hold = plan.holds.find((one) => one.piece === piece.id && one.what === 'form');
  const form = shop.forms.find(({ id }) => id === hold?.id);
  return form ? { piece, form } : null;
};

const goesInto = (shop: Shop, piece: Piece, form: Form): boolean => {
  const recipe = shop.recipes.find(({ id }) => id === piece.recipe);
  return recipe !== undefined && fits(form, { piece, recipe });
};

/** Every swap open to the piece, in the order of the shop's pieces; none once the piece is begun. */
export const swapsOf = (shop: Shop, plan: Plan, pieceId: string): readonly Swap[] => {
  const begun = new Set(plan.steps.filter((step) => step.state !== 'planned').map((step) => step.piece));
  const free = shop.pieces
    .filter(({ id }) => !begun.has(id))
    .map((piece) => castOf(shop, plan, piece))
    .filter((cast) => cast !== null);
  const own = free.find(({ piece }) => piece.id === pieceId);
  if (!own) return [];
  return free
    .filter(
      (other) =>
        other.form.id !== own.form.id &&
        goesInto(shop, own.piece, other.form) &&
        goesInto(shop, other.piece, own.form),
    )
    .map((other) => ({ own, other }));
};
