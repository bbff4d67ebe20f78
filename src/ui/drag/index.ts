/** The drag: a step in the hand, where it may go, and what to do where it may not. */
export { makeHand, type Hand } from './hand.ts';
export { takeUp, type Held, type PickUp } from './held.ts';
export { HeldNote, verdictWords, type Spot } from './held-note.tsx';
export { isMovable, isTooLate, othersOf, reasonText } from './reasons.ts';
export { PinButton } from './pin-button.tsx';
export { RefusalDialog } from './refusal-dialog.tsx';
export { gridFor, snapTo } from './snap.ts';
export { nearestOpen, nextOpen, spanAt, spansOf, verdictAt, type Spans, type Verdict } from './spans.ts';
export { dropEdit, waysOut, type Refusal, type WayOut } from './ways-out.ts';
