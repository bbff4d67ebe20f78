/** What things and moments are called on paper, in calendars and in tables. */
import type { PlanStep } from '../plan/document.ts';
import type { Shop } from '../shop/index.ts';
import { addDays, formatDay, formatMoment, formatTime, localParts, type Clock } from '../time/index.ts';

export interface Names {
  piece(id: string): string;
  person(id: string): string;
  room(id: string): string;
  bench(id: string): string;
  tool(id: string): string;
  warmBox(id: string): string;
  resin(id: string): string;
  /** With its number where the form is one of several alike: "Long form 2". */
  form(id: string, unit?: number): string;
}

/** The maker's own names by id; an id that the shop does not have stands for itself. */
export function namesOf(shop: Shop): Names {
  const by = (things: readonly { readonly id: string; readonly name: string }[]) => {
    const names = new Map(things.map(({ id, name }) => [id, name]));
    return (id: string): string => names.get(id) ?? id;
  };
  const form = by(shop.forms);
  const several = new Set(shop.forms.filter(({ count }) => count > 1).map(({ id }) => id));
  return {
    piece: by(shop.pieces),
    person: by(shop.people),
    room: by(shop.rooms),
    bench: by(shop.benches),
    tool: by(shop.tools),
    warmBox: by(shop.warmBoxes),
    resin: by(shop.resins),
    form: (id, unit) => (unit !== undefined && several.has(id) ? `${form(id)} ${unit}` : form(id)),
  };
}

/** "layer 2", "coat 1", "the seal": what a step's wet surface is called. */
export function surfaceName(step: string): string {
  const [what, number] = step.split('-');
  return what === 'layer' || what === 'coat'
    ? `${what} ${number}`
    : what === 'flip'
      ? `coat ${number}`
      : 'the seal';
}

/** "Pour layer 2", "Demold", "Clean the form". */
export function stepTitle({ kind, step }: Pick<PlanStep, 'kind' | 'step'>): string {
  const surface = surfaceName(step);
  const titles: Readonly<Record<PlanStep['kind'], string>> = {
    prepare: 'Prepare wood and form',
    mix: `Mix for ${surface}`,
    seal: 'Brush the seal on',
    pour: `Pour ${surface}`,
    bubbles: `Bubble pass, ${surface}`,
    coat: `Put ${surface} on`,
    scuff: `Scuff before ${surface}`,
    set: `Sets (${surface})`,
    cure: step === 'full-cure' ? 'Cures fully' : 'Cures in the form',
    demold: 'Demold',
    turnaround: 'Clean the form',
    rest: 'Rests until it can be machined',
    flatten: 'Flatten',
    sand: 'Sand',
    flip: `Turn over for ${surface}`,
    finish: 'Finish',
    ready: 'Ready',
  };
  return titles[kind];
}

/** Where a step is done: the form it is in, else its tool, its bench, its room. */
export function placeName(step: PlanStep, names: Names): string {
  if (step.form) return names.form(step.form.id, step.form.unit);
  if (step.tool !== undefined) return names.tool(step.tool);
  if (step.bench !== undefined) return names.bench(step.bench);
  return step.room === '' ? '' : names.room(step.room);
}

export const dateOf = (clock: Clock, minute: number): string => localParts(clock, minute).date;

/** `14:20` on the given date, `Thu 14:20` within six days of it, else `Thu 26 Nov 14:20`. */
export function timeSeenFrom(clock: Clock, date: string, minute: number): string {
  const own = dateOf(clock, minute);
  if (own === date) return formatTime(clock, minute);
  if (own < addDays(date, -6) || own > addDays(date, 6)) return formatMoment(clock, minute);
  return `${formatDay(clock, minute).slice(0, 3)} ${formatTime(clock, minute)}`;
}
