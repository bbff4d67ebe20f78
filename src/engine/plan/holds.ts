/** What every piece holds and for how long: a form, a stretch of bench, room in a warm box. */
import { placedCures, takenUpAt } from '../routing/index.ts';
import type { Ground } from '../routing/index.ts';
import { formOutside, spaceNeeded } from '../routing/index.ts';
import { NEVER } from '../schedule/index.ts';
import type { Assignment } from '../schedule/index.ts';
import type { Bench, WarmBox } from '../shop/index.ts';
import { toIso } from '../time/index.ts';
import type { PlanHold } from './document.ts';
import { allHold } from './reading.ts';
import type { PieceReading } from './reading.ts';

/** Deals the pieces that use one kind of form out to its alike units: first come, lowest free number. */
export function dealUnits(readings: readonly PieceReading[]): ReadonlyMap<string, number> {
  const units = new Map<string, number>();
  const freeAt = new Map<string, number[]>();
  const holds = readings.flatMap((r) => {
    const from = r.times.get('prepare')?.start;
    const to = r.times.get('turnaround')?.end;
    return r.form && from !== undefined && to !== undefined
      ? [{ piece: r.route.itinerary.piece.id, form: r.form.id, from, to }]
      : [];
  });
  for (const { piece, form, from, to } of holds.sort((a, b) => a.from - b.from || a.to - b.to)) {
    const free = freeAt.get(form) ?? [];
    freeAt.set(form, free);
    let unit = free.findIndex((minute) => minute <= from);
    if (unit < 0) unit = free.length;
    free[unit] = to;
    units.set(piece, unit + 1);
  }
  return units;
}

export function holdsOf(
  ground: Ground,
  answer: Assignment,
  reading: PieceReading,
  unit: number,
): readonly PlanHold[] {
  const { route, times, form, formBench, formStanding, restBench, coatBench } = reading;
  const piece = route.itinerary.piece;
  const holds: PlanHold[] = [];
  const iso = (minute: number): string => toIso(ground.clock, Math.min(minute, ground.horizon));
  const add = (what: PlanHold['what'], id: string, from: number, to: number, amount: number): void => {
    if (to <= from) return;
    const which = what === 'form' ? { unit } : {};
    holds.push({ piece: piece.id, what, id, ...which, from: iso(from), to: iso(to), amount });
  };
  const at = (id: string) => times.get(id) ?? { start: 0, begins: 0, end: 0 };
  const [prepare, poured, demold, turnaround] = ['prepare', 'layer-1-pour', 'demold', 'turnaround'].map(at);
  if (form && formBench && formStanding) {
    const needs = (place: Bench | WarmBox): number => spaceNeeded(place, formOutside(form));
    add('form', form.id, prepare.start, turnaround.end, 1);
    if (formStanding.box) {
      const layer = route.byId.get('layer-1-pour');
      const move = layer ? placedCures(ground, route, layer).find((p) => allHold(answer, p.when)) : undefined;
      const mix = layer?.block.application?.mixMinutes ?? 0;
      const moved = poured.start + mix + (move?.standing.boxAfterMinutes ?? 0);
      // A cure that ends before the piece would be moved never sees the box.
      add(
        'bench',
        formBench.id,
        prepare.start,
        moved < demold.start ? moved : turnaround.end,
        needs(formBench),
      );
      add('warm-box', formStanding.box.id, moved, demold.start, needs(formStanding.box));
      if (moved < demold.start) add('bench', formBench.id, demold.start, turnaround.end, needs(formBench));
    } else {
      add('bench', formBench.id, prepare.start, turnaround.end, needs(formBench));
    }
  }
  const next = route.blocks[route.blocks.findIndex((b) => b.block.id === 'demold') + 2];
  if (restBench) {
    add('bench', restBench.id, demold.end, at(next.block.id).begins, spaceNeeded(restBench, piece.size));
  }
  const coats = route.blocks.filter((b) => b.block.kind === 'coat');
  const last = coats[coats.length - 1];
  if (coatBench && last) {
    const placed = placedCures(ground, route, last).find((p) => allHold(answer, p.when));
    const hard = placed?.milestone('scuffable').at(at(last.block.id).start) ?? NEVER;
    const until = Math.min(hard, takenUpAt(route));
    add('bench', coatBench.id, at(coats[0].block.id).begins, until, spaceNeeded(coatBench, piece.size));
  }
  return holds;
}
