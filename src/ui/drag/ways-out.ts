/** What would make an illegal place possible, each as an edit that can be undone. */
import type { Shop } from '../../engine/shop/index.ts';
import type { Minute } from '../clock/index.ts';
import { chooseWay, pinStep, together, wishForms, type Edit } from '../edits/index.ts';
import type { Obstacle } from '../engine/index.ts';
import { applyStepOf } from '../words/index.ts';
import type { Held } from './held.ts';
import { isMovable, isTooLate, othersOf } from './reasons.ts';

export interface WayOut {
  readonly kind: 'nearest' | 'scuff' | 'other-form' | 'move-others';
  readonly name: string;
  /** What it costs or means, in a sentence. */
  readonly says: string;
  readonly edit: Edit;
  /** Whether it moves what the legal places leave where it is, so that it is not known to be possible. */
  readonly isBold: boolean;
}

export interface Refusal {
  readonly held: Held;
  readonly at: Minute;
  /** The form it was dropped into; null: its own. */
  readonly form: string | null;
  readonly why: readonly Obstacle[];
  readonly nearest: Minute | null;
  /** Forms in which the place would be legal. */
  readonly freeForms: readonly string[];
}

export interface WayWords {
  readonly near: (minute: Minute) => string;
  readonly iso: (minute: Minute) => string;
}

/** The ways out of a refusal, the mildest first. Putting it back is always there and not in this list. */
export const waysOut = (refusal: Refusal, shop: Shop, words: WayWords): readonly WayOut[] => {
  const { held, at, why, nearest } = refusal;
  const ways: WayOut[] = [];
  const when = words.near(at);
  if (nearest !== null) {
    ways.push({
      kind: 'nearest',
      name: `At ${words.near(nearest)} instead`,
      says: 'The nearest place where nothing else has to move.',
      edit: dropEdit(held, nearest, refusal.form, words),
      isBold: false,
    });
  }
  if (isTooLate(why) && isApplication(held.step)) {
    ways.push({
      kind: 'scuff',
      name: 'Scuff first',
      says: 'The window may pass: the surface is sanded and wiped before this goes on.',
      edit: together(
        [
          chooseWay(held.piece, applyStepOf(held.step), 'scuff', ''),
          pinStep(held.piece, held.step, words.iso(at), ''),
        ],
        `scuff, and ${lowerFirst(held.title)} of ${held.pieceName} at ${when}`,
      ),
      isBold: true,
    });
  }
  for (const id of refusal.freeForms) {
    const name = shop.forms.find((form) => form.id === id)?.name ?? id;
    ways.push({
      kind: 'other-form',
      name: `In ${name}`,
      says: 'There it may begin at this time.',
      edit: dropEdit(held, at, id, words),
      isBold: false,
    });
  }
  if (isMovable(why)) {
    const others = othersOf(why).map((id) => shop.pieces.find((piece) => piece.id === id)?.name ?? id);
    ways.push({
      kind: 'move-others',
      name: others.length > 0 ? `Move ${others.slice(0, 3).join(', ')}` : 'Move what stands in the way',
      says: 'This stays where you put it; everything else is planned around it.',
      edit: dropEdit(held, at, refusal.form, words),
      isBold: true,
    });
  }
  return ways;
};

/** Letting go in a legal place: the step is pinned there, in another form where it was carried to one. */
export const dropEdit = (held: Held, at: Minute, form: string | null, words: WayWords): Edit => {
  const pin = pinStep(
    held.piece,
    held.step,
    words.iso(at),
    `put “${held.title}” of ${held.pieceName} at ${words.near(at)}`,
  );
  return form === null || form === held.form
    ? pin
    : together([wishForms(held.piece, [form], ''), pin], pin.says);
};

const isApplication = (step: string): boolean => /^(seal|layer-\d+|coat-\d+)(-mix|-pour)?$/.test(step);
const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
