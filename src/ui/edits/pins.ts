/** The maker's word that a step stays where it was put, how a window is met, and in which form a piece is cast. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Piece, Pin, Shop } from '../../engine/shop/index.ts';
import { changePiece, type Edit } from './edit.ts';

const setPin = (shop: Shop, piece: string, step: string, change: (pin: Pin) => Pin): Shop =>
  changePiece(shop, piece, (old) => {
    const known = old.pins.find((pin) => pin.step === step) ?? { step };
    const changed = change(known);
    const others = old.pins.filter((pin) => pin.step !== step);
    const empty = changed.at === undefined && changed.way === undefined;
    return { ...old, pins: empty ? others : [...others, changed] };
  });

/** The step starts at exactly this moment. */
export const pinStep = (piece: string, step: string, at: string, says: string): Edit => ({
  says,
  apply: (shop) => setPin(shop, piece, step, (pin) => ({ ...pin, at })),
});

/** The step may move again; how its window is met stays as it was decided. */
export const unpinStep = (piece: string, step: string, says: string): Edit => ({
  says,
  apply: (shop) => setPin(shop, piece, step, (pin) => ({ step: pin.step, way: pin.way })),
});

/** Every given step of the piece stays where it is. */
export const pinWhole = (
  piece: string,
  steps: readonly { readonly step: string; readonly at: string }[],
  says: string,
): Edit => ({
  says,
  apply: (shop) =>
    steps.reduce((so, { step, at }) => setPin(so, piece, step, (pin) => ({ ...pin, at })), shop),
});

/** Nothing of the piece is held in its place any more. */
export const unpinWhole = (piece: string, says: string): Edit => ({
  says,
  apply: (shop) =>
    changePiece(shop, piece, (old) => ({
      ...old,
      pins: old.pins.filter((pin) => pin.way !== undefined).map(({ step, way }) => ({ step, way })),
    })),
});

/** Whether any step of the piece is held in its place. */
export const isHeldInPlace = (piece: Piece): boolean => piece.pins.some((pin) => pin.at !== undefined);

/** Lets go of a piece of which anything is pinned; pins every planned step of one of which nothing is. */
export const toggleWholePin = (piece: Piece, plan: Plan | null): Edit => {
  if (isHeldInPlace(piece)) return unpinWhole(piece.id, `unpin “${piece.name}”`);
  const steps = (plan?.steps ?? [])
    .filter((step) => step.piece === piece.id && step.handsOnMinutes > 0 && step.state === 'planned')
    .map(({ step, start }) => ({ step, at: start }));
  return pinWhole(piece.id, steps, `pin all of “${piece.name}”`);
};

/** The application is poured inside its window, or after scuffing; undefined leaves it to the plan. */
export const chooseWay = (piece: string, step: string, way: Pin['way'], says: string): Edit => ({
  says,
  apply: (shop) => setPin(shop, piece, step, (pin) => ({ ...pin, way })),
});

/** Only these forms will do for the piece; undefined: whichever fits. */
export const wishForms = (piece: string, forms: readonly string[] | undefined, says: string): Edit => ({
  says,
  apply: (shop) => changePiece(shop, piece, (old) => ({ ...old, forms })),
});

/** Each of the two pieces is cast in the form that the plan had for the other. */
export const swapForms = (
  one: { readonly piece: string; readonly form: string },
  other: { readonly piece: string; readonly form: string },
  says: string,
): Edit => ({
  says,
  apply: (shop) =>
    wishForms(other.piece, [one.form], '').apply(wishForms(one.piece, [other.form], '').apply(shop)),
});

/** Several edits as one, undone as one. */
export const together = (edits: readonly Edit[], says: string): Edit => ({
  says,
  apply: (shop) => edits.reduce((so, edit) => edit.apply(so), shop),
});
