/**
 * The run sheet of a day or of a piece: what to do when, what to mix, what frees up, what can hurt. Plain data in words;
 * the terminal and the printed page lay it out.
 */
import {
  cautionsFor,
  cupsOf,
  foodContact,
  woodStates,
  type Caution,
  type Cup,
  type CupsOfPlan,
} from '../mix/index.ts';
import type { Plan, PlanStep } from '../plan/document.ts';
import { isAttended, type Shop } from '../shop/index.ts';
import { formatDay, formatDuration, formatMoment, formatTime, toMinute } from '../time/index.ts';
import { cupCard, type CupCard } from './cup-card.ts';
import { dateOf, namesOf, placeName, stepTitle, timeSeenFrom, type Names } from './words.ts';

export interface SheetLine {
  readonly time: string;
  readonly piece: string;
  readonly what: string;
  readonly where: string;
  /** Hands-on time, "2 x 15 min" for two people. */
  readonly hands: string;
  readonly who: string;
  /** Tack window of the layer below, or a deadline. */
  readonly window: string;
}

export interface SheetDay {
  /** Local date, `YYYY-MM-DD`. */
  readonly date: string;
  /** "Thu 26 Nov" */
  readonly heading: string;
  readonly lines: readonly SheetLine[];
  readonly cups: readonly CupCard[];
  /** "Long form 1 frees up 14:20 (Curlew)" */
  readonly frees: readonly string[];
}

export interface RunSheet {
  readonly shop: string;
  /** "Thu 26 Nov", or the piece's name. */
  readonly title: string;
  /** "Wed 25 Nov 08:00" */
  readonly asOf: string;
  readonly days: readonly SheetDay[];
  /** Every local date with something left to do, this sheet's or not. */
  readonly dates: readonly string[];
  /** Wood to look at and food contact, one sentence each. */
  readonly remarks: readonly string[];
  readonly cautions: readonly Caution[];
}

export interface SheetChoice {
  /** Local date; left out, the first day from the plan's now on with anything to do. */
  readonly date?: string;
  /** Only this piece, all its days (or the one of `date`). */
  readonly piece?: string;
}

/** @throws RangeError when the plan names what the shop does not have */
export function runSheet(shop: Shop, plan: Plan, choice: SheetChoice = {}): RunSheet {
  const all = cupsOf(shop, plan);
  const { clock } = all;
  const names = namesOf(shop);
  const minute = (iso: string): number => toMinute(clock, iso);
  const now = minute(plan.now);
  const today = dateOf(clock, now);
  const hasWork = ({ step, kind, state, piece }: PlanStep): boolean =>
    (isAttended(step) || kind === 'ready') &&
    state !== 'done' &&
    (choice.piece === undefined || piece === choice.piece);
  /** Work under way since before today is today's work. */
  const dayOf = (step: PlanStep): string => {
    const own = dateOf(clock, minute(step.start));
    return own < today ? today : own;
  };
  const open = plan.steps.filter(hasWork);
  const dates = [...new Set(open.map(dayOf))].sort();
  const shown =
    choice.date !== undefined ? [choice.date] : choice.piece !== undefined ? dates : [dates[0] ?? today];
  const isShown = (step: PlanStep): boolean => shown.includes(dayOf(step));
  const steps = open.filter(isShown);
  const numbers = cupNumbers(all);
  return {
    shop: shop.name,
    title:
      choice.piece !== undefined ? names.piece(choice.piece) : formatDay(clock, minute(`${shown[0]}T12:00`)),
    asOf: formatMoment(clock, now),
    days: shown.map((date) =>
      dayOfSheet(
        { shop, plan, all, names, numbers, choice, date },
        steps.filter((s) => dayOf(s) === date),
      ),
    ),
    dates,
    remarks: remarksFor(shop, plan, all, names, steps),
    cautions: cautionsFor(steps, all),
  };
}

interface DayParts {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly all: CupsOfPlan;
  readonly names: Names;
  readonly numbers: ReadonlyMap<Cup, number>;
  readonly choice: SheetChoice;
  readonly date: string;
}

/** Cups are counted through each day. */
export function cupNumbers({ cups, clock }: CupsOfPlan): Map<Cup, number> {
  const count = new Map<string, number>();
  return new Map(
    cups.map((cup) => {
      const date = dateOf(clock, cup.mixFrom);
      const number = (count.get(date) ?? 0) + 1;
      count.set(date, number);
      return [cup, number];
    }),
  );
}

function dayOfSheet(parts: DayParts, steps: readonly PlanStep[]): SheetDay {
  const { shop, plan, all, names, numbers, choice, date } = parts;
  const { clock } = all;
  const minute = (iso: string): number => toMinute(clock, iso);
  const cups = all.cups.filter(
    (cup) =>
      cup.state !== 'done' &&
      cup.portions.some(({ pour }) => steps.some((s) => s.piece === pour.piece && s.step === pour.step)),
  );
  const lines = steps
    .flatMap((step) => lineOf(step, parts, cups))
    .sort((a, b) => a.at - b.at)
    .map(({ line }) => line);
  const frees = plan.holds
    .filter(
      (hold) =>
        hold.what === 'form' && dateOf(clock, minute(hold.to)) === date && minute(hold.to) > minute(plan.now),
    )
    .filter((hold) => choice.piece === undefined || hold.piece === choice.piece)
    .sort((a, b) => minute(a.to) - minute(b.to))
    .map(
      (hold) =>
        `${names.form(hold.id, hold.unit)} frees up ${formatTime(clock, minute(hold.to))} (${names.piece(hold.piece)})`,
    );
  return {
    date,
    heading: formatDay(clock, minute(`${date}T12:00`)),
    lines,
    cups: cups.map((cup) => cupCard(cup, numbers.get(cup) ?? 0, all, shop)),
    frees,
  };
}

/** A mix has no line of its own: it is told with what it is for, at the moment its hands begin. */
function lineOf(
  step: PlanStep,
  { all, names, date }: DayParts,
  cups: readonly Cup[],
): { at: number; line: SheetLine }[] {
  if (step.kind === 'mix') return [];
  const { clock } = all;
  const minute = (iso: string): number => toMinute(clock, iso);
  const own = cups.filter((cup) =>
    cup.portions.some(({ pour }) => pour.piece === step.piece && pour.step === step.step),
  );
  const [first] = own;
  const isFirstOfCup =
    first?.portions[0].pour.piece === step.piece && first.portions[0].pour.step === step.step;
  const at = first && isFirstOfCup ? first.mixFrom : minute(step.start);
  const end = minute(step.end);
  const minutes =
    first && isFirstOfCup ? step.handsOnMinutes + (minute(step.start) - at) : step.handsOnMinutes;
  const numbers = first ? cupList(own, all) : '';
  const what = !first
    ? stepTitle(step)
    : isFirstOfCup
      ? `Mix ${numbers}, then ${lower(stepTitle(step))}`
      : `${stepTitle(step)} from ${numbers}`;
  const paused = end - minute(step.start) > step.handsOnMinutes && step.kind !== 'ready';
  const remarks = [
    ...(step.state === 'begun' ? ['under way'] : []),
    ...(paused ? [`in parts, until ${timeSeenFrom(clock, date, end)}`] : []),
    ...(step.pinned ? ['pinned'] : []),
  ];
  return [
    {
      at,
      line: {
        time: dateOf(clock, at) < date ? 'now' : formatTime(clock, at),
        piece: names.piece(step.piece),
        what: remarks.length === 0 ? what : `${what} (${remarks.join(', ')})`,
        where: placeName(step, names),
        hands: step.kind === 'ready' ? '' : handsText(minutes, step.people.length),
        who: step.people.map(names.person).join(', '),
        window: windowText(step, (iso) => timeSeenFrom(clock, date, minute(iso))),
      },
    },
  ];
}

const cupList = (own: readonly Cup[], all: CupsOfPlan): string => {
  const numbers = cupNumbers(all);
  const counted = own.map((cup) => numbers.get(cup) ?? 0);
  return counted.length === 1 ? `cup ${counted[0]}` : `cups ${counted[0]} to ${counted[counted.length - 1]}`;
};

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const handsText = (minutes: number, people: number): string =>
  people > 1 ? `${people} x ${formatDuration(minutes)}` : formatDuration(minutes);

function windowText(step: PlanStep, time: (iso: string) => string): string {
  if (step.way === 'scuff') return step.kind === 'scuff' ? '' : 'scuffed, no window';
  return step.window ? `${time(step.window.opens)} to ${time(step.window.closes)}` : '';
}

function remarksFor(
  shop: Shop,
  plan: Plan,
  all: CupsOfPlan,
  names: Names,
  steps: readonly PlanStep[],
): string[] {
  const wood = new Map<string, string[]>();
  for (const { piece, text } of woodStates(shop, plan, all.ground, (iso) => toMinute(all.clock, iso))) {
    if (!steps.some((s) => s.piece === piece && s.kind === 'prepare')) continue;
    wood.set(text, [...(wood.get(text) ?? []), names.piece(piece)]);
  }
  const food = steps
    .filter(({ kind }) => kind === 'ready')
    .map(({ piece }) => {
      const { notBefore, isFullyCured, text } = foodContact(plan, piece);
      const until =
        notBefore === null || isFullyCured
          ? ''
          : ` Full cure not before ${formatMoment(all.clock, toMinute(all.clock, notBefore))}.`;
      return `${names.piece(piece)}: ${text}${until}`;
    });
  return [...[...wood].map(([text, pieces]) => `${pieces.join('; ')}: ${text}.`), ...food];
}
