/** Bubble passes that the plan has left out, since nobody recorded them while their layer was wet. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';

export interface MissedPass {
  readonly step: string;
  /** When the recipe would have had it. */
  readonly start: Minute;
  readonly end: Minute;
}

/** All of one layer together. */
export interface Missed {
  readonly piece: string;
  readonly pieceName: string;
  /** "layer-1" */
  readonly layer: string;
  /** What the plan says of it. */
  readonly text: string;
  readonly passes: readonly MissedPass[];
}

/** What is still missing in the record, though the plan asks for it no more. */
export const missedOf = (shop: Shop, plan: Plan): readonly Missed[] =>
  plan.notes.flatMap(({ kind, piece: id, step, text }): Missed[] => {
    const piece = kind === 'missed-pass' ? shop.pieces.find((one) => one.id === id) : undefined;
    const number = /^layer-(\d+)-/.exec(step ?? '')?.[1];
    const recipe = shop.recipes.find((one) => one.id === piece?.recipe);
    const layer = `layer-${number}`;
    const pour = plan.steps.find((one) => one.piece === id && one.step === `${layer}-pour`);
    const asked = recipe?.layers[Number(number) - 1]?.bubblePasses;
    if (!piece || !pour || !asked) return [];
    const poured = minuteOf(pour.end);
    const isOpen = ({ step: name }: MissedPass): boolean =>
      !piece.actuals.some((actual) => actual.step === name) &&
      !plan.steps.some((one) => one.piece === piece.id && one.step === name);
    const passes = asked
      .map(({ fromMinutes, minutes }, index) => ({
        step: `${layer}-bubbles-${index + 1}`,
        start: poured + fromMinutes,
        end: poured + fromMinutes + minutes,
      }))
      .filter(isOpen);
    return passes.length > 0 ? [{ piece: piece.id, pieceName: piece.name, layer, text, passes }] : [];
  });
