/**
 * The plan as a list to work from: what is under way, what is due, what comes next, what is done. A mix and what it is
 * mixed for are one entry, for they are one stretch of work.
 */
import type { Plan, PlanStep } from '../../engine/plan/document.ts';
import type { Shop } from '../../engine/shop/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import type { ApplicationCure } from '../engine/index.ts';
import { stepTitle } from '../words/index.ts';

export interface Entry {
  readonly key: string;
  readonly piece: string;
  readonly pieceName: string;
  /** One step, or a mix and its application. */
  readonly steps: readonly PlanStep[];
  readonly title: string;
  readonly start: Minute;
  readonly end: Minute;
  readonly handsOnMinutes: number;
  readonly people: readonly string[];
  /** Where, in words: "Board form 2", "Wall bench", "Planer". */
  readonly place: string;
  readonly window: { readonly opens: Minute; readonly closes: Minute } | null;
  readonly way: 'recoat' | 'scuff' | null;
  /** Begins with a mix; what goes into its cup the engine tells. */
  readonly isMixed: boolean;
  readonly state: PlanStep['state'];
  /** The step that is under way. */
  readonly running: PlanStep | null;
  /** While a mix is open: the minute at which it stops flowing. */
  readonly pourBy: Minute | null;
}

export interface Worklist {
  /** Under way. */
  readonly running: readonly Entry[];
  /** Its time has come, and it is not begun. */
  readonly due: readonly Entry[];
  /** Later, up to the end of the next day that holds work. */
  readonly next: readonly Entry[];
  /** Done since `dayStart`. */
  readonly done: readonly Entry[];
}

/** A step is offered as due this long before its time. */
const EARLY_MINUTES = 10;

export const worklistOf = (
  shop: Shop,
  plan: Plan,
  cures: readonly ApplicationCure[],
  now: Minute,
  dayStart: Minute,
): Worklist => {
  const entries = entriesOf(shop, plan, cures);
  const running = entries.filter((entry) => entry.running !== null);
  const open = entries.filter((entry) => entry.state !== 'done' && entry.running === null);
  const due = open.filter((entry) => entry.start <= now + EARLY_MINUTES);
  const later = open.filter((entry) => entry.start > now + EARLY_MINUTES);
  const done = entries.filter((entry) => entry.state === 'done' && entry.end >= dayStart);
  return { running, due, next: later, done: done.reverse() };
};

/** All attended work, in the order of its times. */
export const entriesOf = (shop: Shop, plan: Plan, cures: readonly ApplicationCure[]): readonly Entry[] => {
  const entries: Entry[] = [];
  const byPiece = new Map<string, PlanStep[]>();
  for (const step of plan.steps) {
    const steps = byPiece.get(step.piece);
    if (steps) steps.push(step);
    else byPiece.set(step.piece, [step]);
  }
  for (const steps of byPiece.values()) {
    const attended = steps.filter((step) => step.handsOnMinutes > 0);
    for (let index = 0; index < attended.length; index += 1) {
      const step = attended[index];
      const next = attended[index + 1];
      if (step.kind === 'mix' && next) {
        entries.push(entryOf(shop, [step, next], cures));
        index += 1;
      } else entries.push(entryOf(shop, [step], cures));
    }
  }
  return entries.sort((a, b) => a.start - b.start || a.key.localeCompare(b.key));
};

const entryOf = (shop: Shop, steps: readonly PlanStep[], cures: readonly ApplicationCure[]): Entry => {
  const first = steps[0];
  const last = steps[steps.length - 1];
  const piece = shop.pieces.find((one) => one.id === first.piece);
  const cure = cures.find((one) => one.piece === last.piece && one.step === last.step);
  const running = steps.find((step) => step.state === 'begun') ?? null;
  // Between a mix that is done and its pour that is not begun, the mix stands open all the same.
  const between = first.kind === 'mix' && first.state === 'done' && last.state === 'planned' ? last : null;
  const isOpenMix = steps.length > 1 && (running !== null || between !== null);
  return {
    key: `${first.piece}/${first.step}`,
    piece: first.piece,
    pieceName: piece?.name ?? first.piece,
    steps,
    title: steps.length > 1 ? `Mix, then ${lowerFirst(stepTitle(last))}` : stepTitle(first),
    start: minuteOf(first.start),
    end: minuteOf(last.end),
    handsOnMinutes: steps.reduce((sum, step) => sum + step.handsOnMinutes, 0),
    people: first.people.map((id) => shop.people.find((one) => one.id === id)?.name ?? id),
    place: placeOf(shop, last),
    window: last.window ? { opens: minuteOf(last.window.opens), closes: minuteOf(last.window.closes) } : null,
    way: last.way ?? null,
    isMixed: first.kind === 'mix',
    state: last.state === 'done' ? 'done' : first.state === 'planned' ? 'planned' : 'begun',
    running: running ?? between,
    pourBy: isOpenMix && cure?.pourBy ? minuteOf(cure.pourBy) : null,
  };
};

const placeOf = (shop: Shop, step: PlanStep): string => {
  const tool = shop.tools.find((one) => one.id === step.tool);
  if (tool) return tool.name;
  const form = shop.forms.find((one) => one.id === step.form?.id);
  if (form) return form.count > 1 ? `${form.name} ${step.form?.unit}` : form.name;
  const bench = shop.benches.find((one) => one.id === step.bench);
  return bench?.name ?? shop.rooms.find((one) => one.id === step.room)?.name ?? '';
};

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
