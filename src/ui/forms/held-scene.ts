/** What is held, as the picture shows it: the lanes it may go to. */
import type { Hand } from '../drag/index.ts';
import type { Layout, LaneBox } from './model/index.ts';
import type { Places } from './paint/index.ts';

/** The lane that holds the step, and the row in it. */
export const homeOf = (
  layout: Layout,
  piece: string,
  step: string,
): { readonly box: LaneBox; readonly row: number } | null => {
  for (const box of layout.boxes) {
    for (const strip of box.lane.strips) {
      if (strip.hands.some((hand) => hand.piece === piece && hand.step === step))
        return { box, row: strip.row };
    }
  }
  return null;
};

/** Which kind of form a lane stands for while a step is held; null: the step's own, or no form at all. */
export const formOfLane = (layout: Layout, hand: Hand, laneId: string | null): string | null => {
  const held = hand.held();
  const lane = layout.boxes.find((box) => box.lane.id === laneId)?.lane;
  return held && lane?.what === 'form' && held.otherForms.includes(lane.place) ? lane.place : null;
};

export const placesScene = (layout: Layout, hand: Hand): Places | null => {
  const held = hand.held();
  if (!held) return null;
  const own = hand.places(null);
  // Until the engine has said where, nothing is crossed out.
  if (!own) return null;
  const home = homeOf(layout, held.piece, held.step);
  const lanes = new Map<string, readonly (readonly [number, number])[]>();
  for (const { lane } of layout.boxes) {
    const spans =
      lane.id === home?.box.lane.id
        ? own
        : lane.what === 'form' && held.otherForms.includes(lane.place)
          ? hand.places(lane.place)
          : null;
    if (spans)
      lanes.set(
        lane.id,
        spans.open.map(({ from, to }) => [from, to] as const),
      );
  }
  return { lanes };
};
