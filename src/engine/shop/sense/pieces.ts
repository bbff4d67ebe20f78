/** Whether a piece can be made in this shop: a form it fits, depths, dates, pins, actuals and touch tests. */
import { entryOf, type Draft, type Placed } from '../draft.ts';
import { listOf, nearest, type PathKey } from '../faults.ts';
import type { Form, Layer, Piece, Recipe } from '../schema/shop.ts';
import { isApplication, isAttended, isOver, stepNames } from '../step-names.ts';
import { minuteReader } from './calendar.ts';
import { depthFault } from './recipes.ts';
import type { Verdict } from './verdict.ts';

type MinuteOf = (moment: string) => number;

export function judgePieces(draft: Draft, verdict: Verdict): void {
  const minute = minuteReader(draft);
  for (const { index, entry: piece } of draft.pieces) {
    const at = ['pieces', index] as const;
    // A bare date is due by the end of that day.
    const due = minute(piece.due) + (piece.due.includes('T') ? 0 : 1440);
    if (piece.earliest !== undefined && due <= minute(piece.earliest)) {
      verdict.odd(
        [...at, 'due'],
        piece.due,
        `not after "earliest", ${piece.earliest}, so the piece is late whatever is done`,
      );
    }
    const recipe = entryOf(draft.recipes, piece.recipe);
    if (!recipe) continue;
    judgeFit(draft, piece, recipe, at, verdict);
    judgeDepths(draft, piece, recipe, at, verdict);
    judgeSteps(piece, recipe, at, minute, verdict);
  }
}

const depthOf = (layer: Layer, piece: Piece): number =>
  layer.depthMm ?? ((layer.volumeMl ?? 0) * 1000) / (piece.size.lengthMm * piece.size.widthMm);

const inMm = (length: number, width: number, depth: number): string =>
  `${length} x ${width} x ${Math.round(depth * 10) / 10} mm`;

function judgeFit(
  draft: Draft,
  piece: Piece,
  recipe: Recipe,
  at: readonly PathKey[],
  verdict: Verdict,
): void {
  const allowed = draft.forms.filter(({ entry }) => piece.forms?.includes(entry.id) ?? true);
  const unread = piece.forms === undefined ? !draft.whole('forms') : allowed.length < piece.forms.length;
  if (piece.forms?.length === 0) {
    verdict.wrong([...at, 'forms'], piece.forms, 'must name at least one form; left out, any form will do');
    return;
  }
  const depth = recipe.layers.reduce((sum, layer) => sum + depthOf(layer, piece), 0);
  if (unread || allowed.length === 0 || allowed.some((form) => takes(form, piece, depth))) return;
  const insides = allowed.map(
    ({ entry: { id, inside } }) => `"${id}" ${inMm(inside.lengthMm, inside.widthMm, inside.depthMm)}`,
  );
  verdict.wrong(
    [...at, 'size'],
    `${inMm(piece.size.lengthMm, piece.size.widthMm, depth)} with all its layers`,
    `must fit a form; inside they are ${insides.slice(0, 12).join(', ')}`,
  );
}

/** Whether the form holds the piece, either way round. */
function takes({ entry: { inside } }: Placed<Form>, { size }: Piece, depthMm: number): boolean {
  const within = (length: number, width: number): boolean =>
    length <= inside.lengthMm && width <= inside.widthMm;
  const lies = within(size.lengthMm, size.widthMm) || within(size.widthMm, size.lengthMm);
  return lies && depthMm <= inside.depthMm + 1e-9;
}

/** A layer given by volume is as deep as the piece is small. */
function judgeDepths(
  draft: Draft,
  piece: Piece,
  recipe: Recipe,
  at: readonly PathKey[],
  { wrong }: Verdict,
): void {
  recipe.layers.forEach((layer, k) => {
    const resin = entryOf(draft.resins, layer.resin);
    if (!resin || layer.volumeMl === undefined || layer.depthMm !== undefined) return;
    const depth = Math.round(depthOf(layer, piece) * 10) / 10;
    const message = depthFault(depth, resin);
    if (message !== undefined) {
      wrong(
        [...at, 'size'],
        `layer ${k + 1} of "${recipe.id}" with ${layer.volumeMl} mL would be ${depth} mm deep`,
        `a layer ${message}`,
      );
    }
  });
}

function judgeSteps(
  piece: Piece,
  recipe: Recipe,
  at: readonly PathKey[],
  minute: MinuteOf,
  { wrong, odd }: Verdict,
): void {
  const names = stepNames(recipe);
  const known = (step: string, path: readonly PathKey[]): boolean => {
    if (names.includes(step)) return true;
    const meant = nearest(step, names);
    const suggestion = meant === undefined ? '' : `; did you mean "${meant}"?`;
    wrong(
      [...path, 'step'],
      step,
      `no step of "${recipe.id}" has this name; it has ${listOf(names)}${suggestion}`,
    );
    return false;
  };

  const pinned = new Set<string>();
  piece.pins.forEach((pin, k) => {
    const path = [...at, 'pins', k];
    if (!known(pin.step, path)) return;
    if (pin.at === undefined && pin.way === undefined) {
      wrong(path, pin, 'must say what is pinned: "at", a moment, or "way", "recoat" or "scuff", or both');
    }
    if (pin.at !== undefined && !isAttended(pin.step)) {
      wrong(
        [...path, 'step'],
        pin.step,
        'must be a step that hands are needed for; a waiting step cannot be pinned',
      );
    }
    if (pin.way !== undefined && !isOver(recipe, pin.step)) {
      wrong(
        [...path, 'way'],
        pin.way,
        'must stand only at a layer or coat that goes over another one on the same face',
      );
    }
    for (const what of ['at', 'way'] as const) {
      if (pin[what] === undefined) continue;
      const name = `${what} ${pin.step}`;
      if (pinned.has(name))
        wrong([...path, what], pin[what], 'must be given only once for a step; take one out');
      pinned.add(name);
    }
  });

  const started = new Map<string, number>();
  piece.actuals.forEach((actual, k) => {
    const path = [...at, 'actuals', k];
    if (!known(actual.step, path)) return;
    if (actual.ended !== undefined && minute(actual.ended) < minute(actual.started)) {
      wrong([...path, 'ended'], actual.ended, `must not be before "started", which is ${actual.started}`);
    }
    if (started.has(actual.step)) {
      wrong(
        [...path, 'step'],
        actual.step,
        'must be told only once; put "started" and "ended" into one entry',
      );
    }
    started.set(actual.step, minute(actual.started));
  });

  piece.touchTests.forEach((test, k) => {
    const path = [...at, 'touchTests', k];
    if (!known(test.step, path)) return;
    const applied = started.get(test.step);
    if (!isApplication(test.step)) {
      wrong(
        [...path, 'step'],
        test.step,
        'must be the step that laid the resin on: "seal", "layer-1-pour", "coat-1"',
      );
    } else if (applied === undefined) {
      odd(
        [...path, 'step'],
        test.step,
        'has no actual yet, so this touch test is not counted; tell when it started',
      );
    } else if (minute(test.at) <= applied) {
      wrong([...path, 'at'], test.at, 'must be after the step has started');
    }
  });
}
