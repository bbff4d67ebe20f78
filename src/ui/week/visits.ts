/** The plan's hands-on work as the calendar shows it: a mix and what it is poured into are one stretch of work. */
import type { Plan, PlanStep, Shop } from '../../engine/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import { stepBrief, stepTitle } from '../words/index.ts';

export interface Visit {
  readonly piece: string;
  /** The step that is moved when this is moved: the first one. */
  readonly step: string;
  readonly steps: readonly string[];
  readonly title: string;
  /** The title in a word, of what a mix is for. */
  readonly brief: string;
  readonly pieceName: string;
  readonly people: string;
  readonly peopleIds: readonly string[];
  readonly from: Minute;
  readonly to: Minute;
  readonly state: PlanStep['state'];
  readonly pinned: boolean;
  /** Hands-on minutes, when the work is spread over more time than that. */
  readonly spreadMinutes: number | null;
}

const APPLIED = new Set<PlanStep['kind']>(['seal', 'pour', 'coat']);

/** All attended work, the earliest first. */
export const visitsOf = (shop: Shop, plan: Plan): readonly Visit[] => {
  const attended = plan.steps
    .filter((step) => step.handsOnMinutes > 0)
    .sort((a, b) => minuteOf(a.start) - minuteOf(b.start));
  const applications = new Map(
    attended
      .filter((step) => APPLIED.has(step.kind))
      .map((step) => [`${step.piece} ${step.start}`, step] as const),
  );
  const taken = new Set<PlanStep>();
  return attended.flatMap((first): readonly Visit[] => {
    if (taken.has(first)) return [];
    const poured = first.kind === 'mix' ? applications.get(`${first.piece} ${first.end}`) : undefined;
    if (poured) taken.add(poured);
    const last = poured ?? first;
    const hands = first.handsOnMinutes + (poured?.handsOnMinutes ?? 0);
    const peopleIds = [...new Set([...first.people, ...last.people])];
    const [from, to] = [minuteOf(first.start), minuteOf(last.end)];
    return [
      {
        piece: first.piece,
        step: first.state === 'planned' ? first.step : last.step,
        steps: poured ? [first.step, poured.step] : [first.step],
        title: poured ? `Mix and ${lower(stepTitle(poured))}` : stepTitle(first),
        brief: stepBrief(last),
        pieceName: shop.pieces.find(({ id }) => id === first.piece)?.name ?? first.piece,
        peopleIds,
        people: peopleIds
          .map((id) => shop.people.find((person) => person.id === id)?.name ?? id)
          .join(' and '),
        from,
        to,
        state: first.state === 'planned' ? 'planned' : last.state === 'done' ? 'done' : 'begun',
        pinned: first.pinned || last.pinned,
        spreadMinutes: hands < to - from ? hands : null,
      },
    ];
  });
};

/** One sitting of a visit: all of it, or what of spread work falls into one stretch of its people's hours. */
export interface Sitting {
  readonly visit: Visit;
  /** From 0. */
  readonly number: number;
  readonly from: Minute;
  readonly to: Minute;
}

/** Cuts spread work to the hours of its people; where their hours are not known, it stays whole. */
export const sittingsOf = (
  visits: readonly Visit[],
  openOf: (person: string) => readonly { readonly from: Minute; readonly to: Minute }[] | null,
): readonly Sitting[] =>
  visits.flatMap((visit) => {
    const whole: readonly Sitting[] = [{ visit, number: 0, from: visit.from, to: visit.to }];
    if (visit.spreadMinutes === null) return whole;
    let parts: readonly { readonly from: Minute; readonly to: Minute }[] = [visit];
    for (const person of visit.peopleIds) {
      const open = openOf(person);
      if (!open) return whole;
      parts = parts.flatMap((part) =>
        open
          .map(({ from, to }) => ({ from: Math.max(from, part.from), to: Math.min(to, part.to) }))
          .filter(({ from, to }) => from < to),
      );
    }
    return parts.length === 0 ? whole : parts.map(({ from, to }, number) => ({ visit, number, from, to }));
  });

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
