/** What has already happened to a piece, block by block; begun and done steps never move. */
import type { Actual, Piece } from '../shop/index.ts';
import { toMinute } from '../time/index.ts';
import type { Ground } from './ground.ts';
import type { Block, Itinerary } from './itinerary.ts';
import type { Past } from './piece-route.ts';

const actualOf = (piece: Piece, step: string): Actual | undefined =>
  [...piece.actuals].reverse().find((a) => a.step === step);

/** Minutes from the start of a block to the start of one of its steps. */
export function stepOffset(block: Block, step: string): number {
  let offset = 0;
  for (const each of block.steps) {
    if (each.id === step) return offset;
    offset += each.minutes;
  }
  throw new RangeError(`step "${step}" is not part of "${block.id}"`);
}

/** The actuals that tell of this block, in the order of its steps. */
export const actualsOf = (piece: Piece, block: Block): readonly Actual[] =>
  block.steps.flatMap((s) => actualOf(piece, s.id) ?? []);

/** Minutes a block takes; for a turnaround those of the recorded form, or of the slowest when none is recorded. */
function usualMinutes(ground: Ground, piece: Piece, block: Block): number {
  if (block.kind !== 'turnaround') return block.minutes;
  const { forms } = ground.shop;
  // The last word counts, as it does for where the piece stands.
  const said = [...piece.actuals].reverse().find((a) => a.form !== undefined)?.form;
  const recordedForm = forms.find((f) => f.id === said);
  return recordedForm?.turnaroundMinutes ?? Math.max(...forms.map((f) => f.turnaroundMinutes));
}

function recorded(ground: Ground, piece: Piece, block: Block): Past | null {
  const known = actualsOf(piece, block);
  if (known.length === 0) return null;
  const minute = (iso: string): number => toMinute(ground.clock, iso);
  const last = known.find((a) => a.step === block.id);
  // A layer cures from its pour on, however long its mix took.
  const { started, step } = last ?? known[0];
  const start = minute(started) - stepOffset(block, step);
  const begins = known[0].step === block.steps[0].id ? minute(known[0].started) : start;
  if (last?.ended !== undefined)
    return { start, begins, end: Math.max(start, minute(last.ended)), state: 'done' };
  const whole = start + usualMinutes(ground, piece, block);
  const foreseen =
    last && block.steps.length > 1
      ? minute(last.started) + block.steps[block.steps.length - 1].minutes
      : whole;
  return { start, begins, end: foreseen, state: 'begun' };
}

/**
 * The past of every block. A step that was passed over in the record, though a later one has begun, is taken as
 * done just before the next.
 */
export function pastOf(ground: Ground, { piece, blocks }: Itinerary): (Past | null)[] {
  const past = blocks.map((block) => recorded(ground, piece, block));
  let next: Past | null = null;
  for (let i = blocks.length - 1; i >= 0; i--) {
    const block = blocks[i];
    const here = past[i];
    // A form may wait for its turnaround while the piece goes on.
    const mayLag = block.kind === 'turnaround' || block.kind === 'scuff';
    if (here === null && next !== null && !mayLag) {
      const start = next.start - Math.max(1, block.minutes);
      past[i] = { start, begins: start, end: next.start, state: 'done' };
    } else if (here?.state === 'begun') {
      past[i] =
        next !== null && !mayLag
          ? {
              ...here,
              // Nor does a record out of order end it before its last step began.
              end: Math.max(here.start + stepOffset(block, block.id), Math.min(here.end, next.start)),
              state: 'done',
            }
          : { ...here, end: Math.max(here.end, ground.now) };
    }
    if (!mayLag) next = past[i] ?? next;
  }
  return past;
}
