/** Legal and closed stretches of a held step, in minutes, and what they say about one minute. */
import { minuteOf, type Minute } from '../clock/index.ts';
import type { LegalPlaces, Obstacle } from '../engine/index.ts';

export interface OpenSpan {
  readonly from: Minute;
  readonly to: Minute;
}

export interface ShutSpan extends OpenSpan {
  readonly why: readonly Obstacle[];
}

export interface Spans {
  /** Disjoint, in order, half-open. */
  readonly open: readonly OpenSpan[];
  readonly shut: readonly ShutSpan[];
}

export type Verdict =
  /** The engine has not answered yet, or was not asked so far out. */
  | { readonly kind: 'unknown' }
  | { readonly kind: 'open' }
  | { readonly kind: 'shut'; readonly why: readonly Obstacle[] };

export const spansOf = (places: LegalPlaces): Spans => ({
  open: places.open.map((span) => ({ from: minuteOf(span.from), to: minuteOf(span.to) })).sort(byStart),
  shut: places.closed
    .map((span) => ({ from: minuteOf(span.from), to: minuteOf(span.to), why: span.why }))
    .sort(byStart),
});

const byStart = (a: OpenSpan, b: OpenSpan): number => a.from - b.from;

/** The span that holds the minute, by halving: asked at every move of the pointer. */
export const spanAt = <T extends OpenSpan>(spans: readonly T[], minute: Minute): T | null => {
  let low = 0;
  let high = spans.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const span = spans[middle];
    if (minute < span.from) high = middle - 1;
    else if (minute >= span.to) low = middle + 1;
    else return span;
  }
  return null;
};

export const verdictAt = (spans: Spans | null, minute: Minute): Verdict => {
  if (!spans) return { kind: 'unknown' };
  if (spanAt(spans.open, minute)) return { kind: 'open' };
  const shut = spanAt(spans.shut, minute);
  return shut ? { kind: 'shut', why: shut.why } : { kind: 'unknown' };
};

/** The legal start nearest to the minute; null when there is none. */
export const nearestOpen = (spans: Spans | null, minute: Minute): Minute | null => {
  let best: Minute | null = null;
  for (const { from, to } of spans?.open ?? []) {
    const candidate = minute < from ? from : minute >= to ? to - 1 : minute;
    if (best === null || Math.abs(candidate - minute) < Math.abs(best - minute)) best = candidate;
  }
  return best;
};

/** The first legal start after the minute's own span, or the last one before it. */
export const nextOpen = (spans: Spans | null, minute: Minute, direction: 1 | -1): Minute | null => {
  const open = spans?.open ?? [];
  if (direction > 0) return open.find((span) => span.from > minute)?.from ?? null;
  const before = open.filter((span) => span.to <= minute);
  const last = before[before.length - 1];
  return last ? last.to - 1 : null;
};
