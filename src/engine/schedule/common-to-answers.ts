/**
 * What all answers to each open question of a part have in common: a start is no earlier than with the answer that has it earliest, and an answer
 * with which nothing fits is not given. To the fixpoint, question by question.
 *
 * Literature: constructive disjunction (Van Hentenryck, Saraswat, Deville 1998).
 */
import type { Earliest } from './earliest.ts';
import { NEVER } from './model.ts';
import type { Part } from './parts.ts';
import type { Question } from './questions.ts';

/** Raises the part's times in `times`, which has been begun. False when no answer fits. */
export function raiseToCommon(times: Earliest, { starts }: Part, questions: readonly Question[]): boolean {
  const common = new Int32Array(starts.length);
  for (let isChanged = true; isChanged;) {
    isChanged = false;
    for (const { literals } of questions) {
      if (literals.some((literal) => times.isTrue(literal))) continue;
      const open = literals.filter((literal) => !times.isFalse(literal));
      common.fill(NEVER);
      const failed = open.filter((literal) => {
        const mark = times.mark();
        const fits = times.assign(literal) && times.propagate();
        if (fits)
          for (let k = 0; k < starts.length; k++) common[k] = Math.min(common[k], times.least[starts[k]]);
        times.undoTo(mark);
        return !fits;
      });
      if (failed.length === open.length) return false;
      for (const literal of failed) if (!times.assign(literal ^ 1)) return false;
      isChanged ||= failed.length > 0;
      for (let k = 0; k < starts.length; k++) {
        if (common[k] <= times.least[starts[k]]) continue;
        isChanged = true;
        if (!times.raise(starts[k], common[k])) return false;
      }
      if (!times.propagate()) return false;
    }
  }
  return true;
}
