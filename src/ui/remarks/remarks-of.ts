/** Remarks of the plan that a maker reads beside the step they are about: cure that stands still, a pin whose time has passed. */
import type { Plan } from '../../engine/plan/document.ts';
import { together, unpinStep, type Edit } from '../edits/index.ts';
import { mixStepOf } from '../words/index.ts';

export interface Remark {
  readonly kind: 'stall' | 'passed-pin';
  readonly step: string;
  /** A sentence. */
  readonly says: string;
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** What is remarked on the piece, or on those of its steps; a missed bubble pass is told among what is setting. */
export const remarksOf = (
  plan: Pick<Plan, 'notes'> | null | undefined,
  piece: string,
  steps?: readonly string[],
): readonly Remark[] =>
  (plan?.notes ?? []).flatMap(({ kind, piece: of, step, text }): Remark[] => {
    if (of !== piece || step === undefined || steps?.includes(step) === false) return [];
    return kind === 'stall' || kind === 'passed-pin' ? [{ kind, step, says: sentence(text) }] : [];
  });

/** Lets go of a pin that time has passed, whether it stood at the mix or at what is mixed for. */
export const unpinPassed = (piece: string, { step }: Remark, says: string): Edit =>
  together(
    [step, mixStepOf(step)].map((one) => unpinStep(piece, one, '')),
    says,
  );
