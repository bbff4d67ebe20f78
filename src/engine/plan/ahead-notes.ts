/** That no plan is made because of what is written down for a time far ahead: how a plan notes it, and how that is read. */
import type { Plan, PlanNote } from './document.ts';

const KIND = 'ahead';

/** A step of a piece that is written down for a time still far ahead. */
export interface WrittenAhead {
  readonly piece: string;
  readonly step: string;
}

export const aheadNote = ({ piece, step }: WrittenAhead, text: string): PlanNote => ({
  kind: KIND,
  piece,
  step,
  text,
});

/** The steps for the sake of which no plan was looked for; none where that is not the reason. */
export const writtenAheadIn = ({ notes }: Pick<Plan, 'notes'>): readonly WrittenAhead[] =>
  notes.flatMap(({ kind, piece, step }) =>
    kind === KIND && piece !== undefined && step !== undefined ? [{ piece, step }] : [],
  );
