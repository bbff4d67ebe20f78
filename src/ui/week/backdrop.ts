/** What lies behind the work on the calendar: hours in which nobody is there, hours not loved, and open windows. */
import type { Plan } from '../../engine/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import type { PersonOpen, Span } from '../engine/index.ts';

export interface Stretch {
  readonly from: Minute;
  readonly to: Minute;
}

const stretch = ({ from, to }: Span): Stretch => ({ from: minuteOf(from), to: minuteOf(to) });

/** The stretches of [from, to) that none of `spans` covers. */
const without = (spans: readonly Stretch[], from: Minute, to: Minute): readonly Stretch[] => {
  const left: Stretch[] = [];
  let at = from;
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    if (span.from > at) left.push({ from: at, to: Math.min(span.from, to) });
    at = Math.max(at, span.to);
    if (at >= to) break;
  }
  if (at < to) left.push({ from: at, to });
  return left;
};

export const nobodyThere = (people: readonly PersonOpen[], from: Minute, to: Minute): readonly Stretch[] =>
  without(
    people.flatMap(({ open }) => open.map(stretch)),
    from,
    to,
  );

/** Stretches in which only people are there who would rather not be. */
export const unlovedOnly = (people: readonly PersonOpen[], from: Minute, to: Minute): readonly Stretch[] => {
  const loved = people.flatMap(({ open, unloved }) =>
    open.map(stretch).flatMap((span) => without(unloved.map(stretch), span.from, span.to)),
  );
  const closed = nobodyThere(people, from, to);
  return without([...loved, ...closed], from, to);
};

export interface Opening extends Stretch {
  readonly piece: string;
  /** The application whose surface is tacky. */
  readonly of: string;
  /** The application that must go on while it is. */
  readonly step: string;
  /** Windows open at the same time stand on different rails, from 0. */
  readonly rail: number;
}

/** The tack windows of what is still to be poured, each on the first rail that is free. */
export const openingsOf = (plan: Plan): readonly Opening[] => {
  const free: Minute[] = [];
  return plan.steps
    .flatMap(({ piece, step, window, state }) =>
      window && state === 'planned'
        ? [{ piece, step, of: window.of, from: minuteOf(window.opens), to: minuteOf(window.closes) }]
        : [],
    )
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from || a.to - b.to)
    .map((opening) => {
      const found = free.findIndex((until) => until <= opening.from);
      const rail = found < 0 ? free.length : found;
      free[rail] = opening.to;
      return { ...opening, rail };
    });
};

/**
 * Clock hours that the calendar has to show: from the first full hour at or before anything begins to the one at or
 * after everything ends. `clockMinute` gives the local minute of the day; at most 0 to 24.
 */
export const hoursShown = (
  spans: readonly Stretch[],
  clockMinute: (minute: Minute) => number,
): { readonly from: number; readonly to: number } => {
  let first = 24;
  let last = 0;
  for (const { from, to } of spans) {
    if (to <= from) continue;
    const start = clockMinute(from);
    const end = clockMinute(to - 1) + 1;
    // A stretch over midnight needs the whole day.
    if (to - from >= 1440 || end <= start) return { from: 0, to: 24 };
    first = Math.min(first, Math.floor(start / 60));
    last = Math.max(last, Math.ceil(end / 60));
  }
  return first < last ? { from: first, to: last } : { from: 7, to: 20 };
};
