/**
 * A room's temperature as knots joined by straight lines: what was measured, else what is forecast, else the
 * daily pattern with its heating. The definition is in docs/temperature.md; this is its second writing.
 */
import type { Room } from '../shop/index.ts';
import { hourStretches } from './hours.ts';
import type { Span, Stretch } from './hours.ts';
import { clockMinutes, MINUTES_A_DAY, readMoment } from './minutes.ts';
import type { Zone } from './zone.ts';

export interface Knot {
  /** Minutes since 1970-01-01T00:00Z; may be a fraction. */
  readonly minute: number;
  readonly degC: number;
}

/** A stretch longer than this without a measurement is not spoken for by the measurements at its ends. */
const LONGEST_SILENCE = 12 * 60;

/** Temperature at a minute: on the line between its neighbours; before the first and after the last knot as there. */
export function degCAt(knots: readonly Knot[], minute: number): number {
  let low = 0;
  let high = knots.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (knots[middle].minute <= minute) low = middle + 1;
    else high = middle;
  }
  if (low === 0) return knots[0].degC;
  const before = knots[low - 1];
  if (low === knots.length) return before.degC;
  const after = knots[low];
  return (
    before.degC + ((after.degC - before.degC) * (minute - before.minute)) / (after.minute - before.minute)
  );
}

/** Sorted by time; where two stand at the same minute the later in the list counts. */
function inOrder(knots: readonly Knot[]): Knot[] {
  const byMinute = new Map(knots.map((knot) => [knot.minute, knot]));
  return [...byMinute.values()].sort((a, b) => a.minute - b.minute);
}

/** The better source's knots, and the other's wherever the better one does not speak. */
function overlay(better: readonly Knot[], lesser: readonly Knot[], longestSilence: number): Knot[] {
  const known = inOrder(better);
  if (known.length === 0) return inOrder(lesser);
  const spokenFor = (minute: number): boolean => {
    for (let i = 0; i < known.length; i++) {
      if (known[i].minute === minute) return true;
      if (i === 0) continue;
      const [from, to] = [known[i - 1].minute, known[i].minute];
      if (from < minute && minute < to && to - from <= longestSilence) return true;
    }
    return false;
  };
  return inOrder([...lesser.filter((knot) => !spokenFor(knot.minute)), ...known]);
}

/** The knots of a room from a day before the span to a day after it, and whatever was measured besides. */
export function roomKnots(room: Room, zone: Zone, span: Span): readonly Knot[] {
  const { measured, forecast, pattern } = room.temperature;
  const readings = (list: Room['temperature']['measured']): Knot[] =>
    list.map(({ at, degC }) => ({ minute: readMoment(at, zone), degC }));

  const days: Span = { from: span.from - MINUTES_A_DAY, to: span.to + MINUTES_A_DAY };
  const firstDay = Math.floor(zone.toLocal(days.from) / MINUTES_A_DAY);
  const lastDay = Math.floor(zone.toLocal(days.to) / MINUTES_A_DAY);
  const daily: Knot[] = [];
  for (let day = firstDay; day <= lastDay; day++) {
    const at = (clock: string): number => zone.fromLocal(day * MINUTES_A_DAY + clockMinutes(clock));
    daily.push({ minute: at(pattern.nightLowAt), degC: pattern.nightLowDegC });
    daily.push({ minute: at(pattern.dayHighAt), degC: pattern.dayHighDegC });
  }
  let expected = inOrder(daily);
  for (const heating of pattern.heating) {
    const on = joined(hourStretches(heating.hours, zone, span), span);
    expected = heated(expected, on, heating.degC, Math.max(1, heating.warmUpMinutes));
  }
  return overlay(
    readings(measured),
    overlay(readings(forecast), expected, Number.POSITIVE_INFINITY),
    LONGEST_SILENCE,
  );
}

/** Stretches inside the span in order, those that touch made one. */
function joined(stretches: readonly Stretch[], span: Span): Stretch[] {
  const out: [number, number][] = [];
  const inside = stretches
    .map(([from, to]) => [Math.max(from, span.from), Math.min(to, span.to)] as const)
    .filter(([from, to]) => from < to)
    .sort((a, b) => a[0] - b[0]);
  for (const [from, to] of inside) {
    const last = out.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}

/**
 * How warm the heating has made the room, 0 to 1: it rises by 1 / warmUp a minute while on and falls as fast while
 * off. Between its bends, the room's own bends and the minutes at which the room is at the heating's temperature by
 * itself, the temperature is straight.
 */
function heated(base: readonly Knot[], on: readonly Stretch[], degC: number, warmUp: number): Knot[] {
  const warmth: Knot[] = [];
  let share = 0;
  let since = Number.NEGATIVE_INFINITY;
  for (const [from, to] of on) {
    const coldAt = since + share * warmUp;
    if (share > 0 && coldAt < from) warmth.push({ minute: coldAt, degC: 0 });
    share = Math.max(0, share - (share > 0 ? (from - since) / warmUp : 0));
    warmth.push({ minute: from, degC: share });
    const warmAt = from + (1 - share) * warmUp;
    if (warmAt < to) warmth.push({ minute: warmAt, degC: 1 });
    share = Math.min(1, share + (to - from) / warmUp);
    warmth.push({ minute: to, degC: share });
    since = to;
  }
  if (warmth.length === 0) return [...base];
  warmth.push({ minute: since + share * warmUp, degC: 0 });

  const bends = new Set([...base, ...warmth].map((knot) => knot.minute));
  for (let i = 1; i < base.length; i++) {
    const [a, b] = [base[i - 1], base[i]];
    if ((a.degC - degC) * (b.degC - degC) >= 0) continue;
    bends.add(a.minute + ((degC - a.degC) / (b.degC - a.degC)) * (b.minute - a.minute));
  }
  return [...bends]
    .sort((a, b) => a - b)
    .map((minute) => {
      const cold = degCAt(base, minute);
      return { minute, degC: cold + degCAt(warmth, minute) * Math.max(0, degC - cold) };
    });
}
