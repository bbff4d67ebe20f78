/** The big buttons of Today, as edits of the shop. */
import type { PlanStep } from '../../engine/plan/document.ts';
import type { Minute } from '../clock/index.ts';
import {
  beginStep,
  endStep,
  forgetActual,
  together,
  touchSurface,
  type Edit,
  type Places,
} from '../edits/index.ts';
import { applicationWords, stepTitle } from '../words/index.ts';
import type { Entry } from './entries.ts';
import type { Missed } from './missed.ts';
import type { Surface } from './setting.ts';

type Iso = (minute: Minute) => string;

const placesOf = (step: PlanStep): Places => ({
  ...(step.form ? { form: step.form.id } : {}),
  ...(step.bench ? { bench: step.bench } : {}),
  ...(step.warmBox ? { warmBox: step.warmBox } : {}),
  ...(step.people.length > 0 ? { person: step.people[0] } : {}),
});

/** The first step of the entry is under way. */
export const begin = (entry: Entry, now: Minute, iso: Iso): Edit => {
  const step = entry.steps[0];
  return beginStep(
    entry.piece,
    step.step,
    iso(now),
    placesOf(step),
    `begin "${entry.title}" of ${entry.pieceName}`,
  );
};

/** The cup is mixed and goes into the form: the mix ends, what it is for begins. */
export const startPouring = (entry: Entry, now: Minute, iso: Iso): Edit => {
  const [mix, apply] = entry.steps;
  return endStep(
    entry.piece,
    mix.step,
    iso(now),
    iso(now),
    placesOf(mix),
    `mixed; begin "${stepTitle(apply)}" of ${entry.pieceName}`,
    apply.step,
  );
};

/** All of the entry is done. Steps nobody marked as begun are taken to have taken as long as planned. */
export const finish = (entry: Entry, now: Minute, iso: Iso): Edit => {
  let end = now;
  const edits: Edit[] = [];
  for (const step of [...entry.steps].reverse()) {
    if (step.state === 'done') break;
    const start = end - step.handsOnMinutes;
    edits.push(endStep(entry.piece, step.step, iso(end), iso(start), placesOf(step), ''));
    // A step that was begun began when it was said to; what lies before it ended then.
    end = step.state === 'begun' ? Math.min(end, Date.parse(step.start) / 60_000) : start;
  }
  return together(edits.reverse(), `done: "${entry.title}" of ${entry.pieceName}`);
};

/** It was not begun or done after all. */
export const takeBack = (entry: Entry): Edit =>
  together(
    entry.steps.map((step) => forgetActual(entry.piece, step.step, '')),
    `take back "${entry.title}" of ${entry.pieceName}`,
  );

/** The passes were made in their time after all, and only not written down. */
export const wereMade = ({ piece, pieceName, layer, passes }: Missed, now: Minute, iso: Iso): Edit =>
  together(
    passes.map(({ step, start, end }) =>
      endStep(piece, step, iso(Math.min(end, now)), iso(Math.min(start, now)), {}, ''),
    ),
    `bubbles are out of ${applicationWords(layer)} of ${pieceName}`,
  );

export const touch = (
  piece: { readonly id: string; readonly name: string },
  step: string,
  found: Surface,
  now: Minute,
  iso: Iso,
): Edit =>
  touchSurface(piece.id, step, iso(now), found, `${applicationWords(step)} of ${piece.name} found ${found}`);
