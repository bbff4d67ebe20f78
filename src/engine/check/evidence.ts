/**
 * Shop file and plan laid side by side: every step with its minutes, every piece with its recipe, everyone's hours
 * and every room's air. The rules only read this.
 */
import type { Plan, PlanStep } from '../plan/document.ts';
import type { Form, Piece, Recipe, Room, Shop, WarmBox } from '../shop/index.ts';
import { applicationsOf, expectedSteps } from './expected.ts';
import type { Application, ExpectedStep } from './expected.ts';
import type { Span } from './hours.ts';
import { MINUTES_A_DAY, readMoment, readPlanTime, sayTime } from './minutes.ts';
import type { Minute } from './minutes.ts';
import { surroundingsOf } from './surroundings.ts';
import type { Surroundings } from './surroundings.ts';
import { makeZone } from './zone.ts';
import type { Zone } from './zone.ts';

/** A rule of the shop that the plan breaks. */
export interface Broken {
  /** The rule's name, as its file in `rules/`. */
  readonly rule: string;
  readonly piece?: string;
  readonly step?: string;
  /** What is wrong, in plain words, with times. */
  readonly text: string;
}

/** A step of the plan on the checker's clock. */
interface Read {
  readonly step: PlanStep;
  readonly start: Minute;
  readonly end: Minute;
}

/** The same beside the record of its piece. */
export interface Timed extends Read {
  /**
   * True when the record has it started, or ended: such a moment is a fact, not a plan. What the record passed over
   * though a later step has begun counts as done.
   */
  readonly started: boolean;
  readonly ended: boolean;
}

/** A stretch in a warm box, half-open. */
export interface BoxStay {
  readonly box: WarmBox;
  readonly from: Minute;
  readonly to: Minute;
}

export interface PieceCase {
  readonly piece: Piece;
  readonly recipe: Recipe;
  readonly form: Form | undefined;
  readonly applications: readonly Application[];
  readonly expected: readonly ExpectedStep[];
  /** All steps that the plan lists for it, in the plan's order. */
  readonly steps: readonly Timed[];
  readonly byId: ReadonlyMap<string, Timed>;
  /** Names of the steps that the record has started or passed over, whether the plan lists them or not. */
  readonly past: ReadonlySet<string>;
  readonly boxStays: readonly BoxStay[];
}

export interface Evidence extends Surroundings {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly now: Minute;
  readonly span: Span;
  readonly pieces: readonly PieceCase[];
  readonly rooms: ReadonlyMap<string, Room>;
  /** "Thu 2026-11-26 03:10" in the shop's zone. */
  say(at: Minute): string;
}

/** Its applications that are not poured yet, each between the mixing and the pouring that the plan has for it. */
export const stillToPour = ({ applications, byId }: PieceCase) =>
  applications.flatMap((application) => {
    const mix = byId.get(application.mix);
    const apply = byId.get(application.apply);
    return mix && apply && !apply.started ? [{ application, mix, apply }] : [];
  });

/** "oak-board layer-2-pour", for the words of a broken rule. */
export const nameOf = (timed: Timed): string => `${timed.step.piece} ${timed.step.step}`;

/** True when both moments are facts: what lies between two facts of the past is not judged. */
export const isPast = (one: Timed, other: Timed = one): boolean => one.started && other.started;

/** True for a bubble pass not made yet over a layer that is poured: whether there is still time for it, its own rule says. */
export const isPassAfterFact = ({ past }: PieceCase, { id, kind, application }: ExpectedStep): boolean =>
  kind === 'bubbles' && application !== undefined && past.has(application.apply) && !past.has(id);

/** A broken rule about one step. */
export const brokenAt = (rule: string, timed: Timed, text: string): Broken => ({
  rule,
  piece: timed.step.piece,
  step: timed.step.step,
  text,
});

/** How long after a pour's start a piece may go into its box: poured, and the last bubble pass surely over. */
export const moveMinutes = (application: Application): number =>
  application.applyMinutes + Math.max(0, ...application.passes.map((pass) => pass.toMinutes + pass.minutes));

function pieceCase(shop: Shop, listed: readonly Read[], piece: Piece, recipe: Recipe, span: Span): PieceCase {
  const formId = listed.find(({ step }) => step.form)?.step.form?.id;
  const form = shop.forms.find((each) => each.id === formId);
  const applications = applicationsOf(shop, piece, recipe);
  const isScuffed = ({ apply }: Application): boolean =>
    listed.some(({ step }) => step.step === apply && step.way === 'scuff');
  const scuffed = new Set(applications.filter(isScuffed).map((each) => each.id));
  const expected = expectedSteps(piece, recipe, applications, scuffed, form);
  const past = pastSteps(piece, expected);
  const steps = listed.map(({ step, start, end }): Timed => ({
    step,
    start,
    end,
    started: past.has(step.step),
    ended: past.get(step.step) === 'ended',
  }));
  const byId = new Map(steps.map((timed) => [timed.step.step, timed]));
  const boxId = listed.find(({ step }) => step.warmBox)?.step.warmBox ?? recordedBox(piece);
  const box = shop.warmBoxes.find((each) => each.id === boxId);
  return {
    piece,
    recipe,
    form,
    applications,
    expected,
    steps,
    byId,
    past: new Set(past.keys()),
    boxStays: box ? boxStays(box, applications, byId, span) : [],
  };
}

/** The box that the record names last. A pour that nobody ended may leave no step that the plan could say it of. */
const recordedBox = ({ actuals }: Piece): string | undefined =>
  actuals
    .filter(({ step, warmBox }) => warmBox && /^(prepare|seal|layer-|demold|turnaround)/.test(step))
    .at(-1)?.warmBox;

/**
 * Which steps have started, and which of them have ended, by the record. Mixing and applying are one: when one of them
 * has started, so has the other. A form may wait for its turnaround and a scuff may not be needed, so those two are
 * past only where the record says so itself.
 */
function pastSteps(
  piece: Piece,
  expected: readonly ExpectedStep[],
): ReadonlyMap<string, 'started' | 'ended'> {
  const past = new Map<string, 'started' | 'ended'>();
  const record = new Map(piece.actuals.map((actual) => [actual.step, actual]));
  let laterHasStarted = false;
  for (const step of [...expected].reverse()) {
    const { application, id, kind } = step;
    const isOneWith = application && (kind === 'mix' || id === application.apply) ? application : undefined;
    const actual = record.get(id) ?? (isOneWith && record.get(isOneWith.apply));
    const hasStarted = actual !== undefined || (isOneWith !== undefined && record.has(isOneWith.mix));
    const mayWait = kind === 'turnaround' || kind === 'scuff';
    if (actual?.ended !== undefined || (laterHasStarted && !mayWait)) past.set(id, 'ended');
    else if (hasStarted) past.set(id, 'started');
    if (hasStarted && !mayWait) laterHasStarted = true;
  }
  return past;
}

/**
 * Into the box some while after each layer's pour, out of it when the next is poured or the piece is demolded. The
 * minutes of mixing beside an open box are counted as in the box.
 */
function boxStays(
  box: WarmBox,
  applications: readonly Application[],
  byId: ReadonlyMap<string, Timed>,
  span: Span,
): BoxStay[] {
  const layers = applications.filter((each) => each.where === 'form' && each.id !== 'seal');
  return layers.flatMap((layer, i) => {
    const pour = byId.get(layer.apply);
    if (!pour) return [];
    const out = i + 1 < layers.length ? byId.get(layers[i + 1].apply) : byId.get('demold');
    const from = pour.start + moveMinutes(layer);
    const to = out?.start ?? span.to;
    return from < to ? [{ box, from, to }] : [];
  });
}

/** From three days before anything that is known or planned to two days after. */
function spanOf(shop: Shop, plan: Plan, steps: readonly Read[], zone: Zone): Span {
  const moments = [
    readPlanTime(plan.now),
    ...steps.flatMap(({ start, end }) => [start, end]),
    ...plan.holds.flatMap((hold) => [readPlanTime(hold.from), readPlanTime(hold.to)]),
    ...shop.pieces.flatMap((piece) => [
      ...piece.actuals.map((actual) => readMoment(actual.started, zone)),
      ...piece.touchTests.map((test) => readMoment(test.at, zone)),
    ]),
  ].filter(Number.isFinite);
  let from = moments[0];
  let to = moments[0];
  for (const moment of moments) {
    from = Math.min(from, moment);
    to = Math.max(to, moment);
  }
  return { from: Math.floor(from) - 3 * MINUTES_A_DAY, to: Math.ceil(to) + 2 * MINUTES_A_DAY };
}

/** Lays shop and plan side by side. Throws a RangeError only where the shop's zone is unknown. */
export function gatherEvidence(shop: Shop, plan: Plan): Evidence {
  const zone = makeZone(shop.zone);
  const steps = plan.steps.map((step): Read => ({
    step,
    start: readPlanTime(step.start),
    end: readPlanTime(step.end),
  }));
  const span = spanOf(shop, plan, steps, zone);
  const surroundings = surroundingsOf(shop, span);
  const listed = new Map<string, Read[]>();
  for (const read of steps) {
    const { piece } = read.step;
    const known = listed.get(piece);
    if (known) known.push(read);
    else listed.set(piece, [read]);
  }
  const pieces = shop.pieces.flatMap((piece) => {
    const recipe = shop.recipes.find((each) => each.id === piece.recipe);
    return recipe ? [pieceCase(shop, listed.get(piece.id) ?? [], piece, recipe, span)] : [];
  });
  return {
    ...surroundings,
    shop,
    plan,
    now: readPlanTime(plan.now),
    span,
    pieces,
    rooms: new Map(shop.rooms.map((room) => [room.id, room])),
    say: (at) => sayTime(at, zone),
  };
}
