/** A step in the hand. */
import type { Plan } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import { stepTitle } from '../words/index.ts';

export interface Held {
  readonly piece: string;
  readonly step: string;
  readonly title: string;
  readonly pieceName: string;
  /** Where it was taken from. */
  readonly start: Minute;
  readonly minutes: number;
  /** The kind of form the piece is cast in. */
  readonly form: string | null;
  /** Other kinds of form it may be carried to. */
  readonly otherForms: readonly string[];
}

export type PickUp =
  | { readonly ok: true; readonly held: Held }
  /** Why it cannot be moved, in words. */
  | { readonly ok: false; readonly why: string };

/** Takes a step of the plan into the hand; what is begun, done or unattended stays where it is. */
export const takeUp = (shop: Shop, plan: Plan, piece: string, step: string): PickUp => {
  const found = plan.steps.find((one) => one.piece === piece && one.step === step);
  if (!found) return { ok: false, why: 'the plan has no such step' };
  if (found.state === 'done') return { ok: false, why: 'it is done; what happened does not move' };
  if (found.state === 'begun') return { ok: false, why: 'it is under way; what has begun does not move' };
  if (found.handsOnMinutes === 0)
    return { ok: false, why: 'nobody has hands on it; it follows from the steps around it' };
  const prepare = plan.steps.find((one) => one.piece === piece && one.kind === 'prepare');
  const demold = plan.steps.find((one) => one.piece === piece && one.kind === 'demold');
  const isCast = demold !== undefined && minuteOf(found.start) < minuteOf(demold.start);
  const form = prepare?.form?.id ?? found.form?.id ?? null;
  const mayChange = isCast && prepare?.state === 'planned';
  return {
    ok: true,
    held: {
      piece,
      step,
      title: stepTitle(found),
      pieceName: shop.pieces.find((one) => one.id === piece)?.name ?? piece,
      start: minuteOf(found.start),
      minutes: minuteOf(found.end) - minuteOf(found.start),
      form,
      otherForms: mayChange ? shop.forms.map((one) => one.id).filter((id) => id !== form) : [],
    },
  };
};
