/**
 * What a plan tells of one piece. Most pieces stay as they are from one plan to the next, so the last telling is kept with the piece's
 * blocks, which live as long as the shop's routing does. It is a cache of what is equal: found by every time and choice that was read.
 */
import type { Ground, Option, PieceRoute, RoutedBlock } from '../routing/index.ts';
import type { Assignment, Literal } from '../schedule/index.ts';
import type { PlanHold, PlanNote, PlanStep } from './document.ts';
import { holdsOf } from './holds.ts';
import { missedPassNotes, stallNotes } from './notes.ts';
import type { PieceReading } from './reading.ts';
import { stepsOf } from './steps.ts';

export interface ToldPiece {
  readonly steps: readonly PlanStep[];
  readonly holds: readonly PlanHold[];
  readonly notes: readonly PlanNote[];
}

interface Kept {
  /** Every literal on which anything about the piece depends. */
  readonly literals: readonly Literal[];
  readonly key: string;
  readonly told: ToldPiece;
}

const kept = new WeakMap<readonly RoutedBlock[], Kept>();

function literalsOf(route: PieceRoute): readonly Literal[] {
  const options: readonly (readonly Option<unknown>[])[] = [
    route.forms,
    route.formBenches,
    route.formStandings,
    route.restBenches,
    route.coatBenches,
    route.coatStandings,
    ...route.blocks.flatMap(({ crews, ends }) => [crews, ends]),
  ];
  const whens = options.flat().flatMap(({ when }) => when);
  return [
    ...new Set([...whens, ...route.blocks.flatMap(({ present }) => present), ...route.recoat.values()]),
  ];
}

/** @param unit which of the alike forms it is cast in */
export function tellPiece(
  ground: Ground,
  answer: Assignment,
  reading: PieceReading,
  unit: number,
): ToldPiece {
  const { route } = reading;
  const { blocks, itinerary } = route;
  const before = kept.get(blocks);
  const literals = before?.literals ?? literalsOf(route);
  const key = JSON.stringify([
    unit,
    itinerary.piece.pins,
    blocks.map(({ start }) => answer.starts[start]),
    literals.map((literal) => answer.choices[literal >> 1]),
  ]);
  if (before?.key === key) return before.told;
  const told = {
    steps: stepsOf(ground, answer, reading, () => unit),
    holds: holdsOf(ground, answer, reading, unit),
    notes: [...missedPassNotes(ground, answer, reading), ...stallNotes(ground, answer, reading)],
  };
  kept.set(blocks, { literals, key, told });
  return told;
}
