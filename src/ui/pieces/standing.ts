/** How each piece stands: what is done, what it does now, what comes next, and whether it will be in time. */
import type { Piece, Plan, PlanStep } from '../../engine/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';

export type MarkState = 'done' | 'now' | 'ahead';

export interface PieceStanding {
  readonly piece: Piece;
  /** Not begun, under way, or everything done. */
  readonly stage: 'waiting' | 'under-way' | 'ready';
  /** Attended steps, in order, each as one mark. */
  readonly marks: readonly { readonly step: string; readonly state: MarkState }[];
  readonly doneSteps: number;
  /** What it does now: a step under way, or the waiting it is in; null before it begins. */
  readonly now: PlanStep | null;
  /** The next step that needs hands; null when none is left. */
  readonly next: PlanStep | null;
  readonly ready: Minute | null;
  readonly due: Minute | null;
  /** Minutes after the due time; 0 in time. */
  readonly lateMinutes: number;
  readonly pins: number;
}

const isAttended = (step: PlanStep): boolean => step.handsOnMinutes > 0;

export const standingOf = (piece: Piece, plan: Plan | null, now: Minute): PieceStanding => {
  const steps = (plan?.steps ?? [])
    .filter((step) => step.piece === piece.id)
    .sort((a, b) => minuteOf(a.start) - minuteOf(b.start));
  const attended = steps.filter(isAttended);
  const promised = plan?.pieces.find((one) => one.piece === piece.id);
  const doneSteps = attended.filter((step) => step.state === 'done').length;
  const begun = attended.some((step) => step.state !== 'planned');
  const current =
    attended.find((step) => step.state === 'begun') ??
    // Between two steps it waits: the unattended stretch that holds the present minute.
    (begun
      ? steps.find((step) => !isAttended(step) && minuteOf(step.start) <= now && now < minuteOf(step.end))
      : undefined) ??
    null;
  const next = attended.find((step) => step.state === 'planned') ?? null;
  const isReady = attended.length > 0 && doneSteps === attended.length;
  return {
    piece,
    stage: isReady ? 'ready' : begun ? 'under-way' : 'waiting',
    marks: attended.map((step) => ({
      step: step.step,
      state: step.state === 'done' ? 'done' : step.state === 'begun' ? 'now' : 'ahead',
    })),
    doneSteps,
    now: current,
    next,
    ready: promised ? minuteOf(promised.ready) : null,
    due: promised ? minuteOf(promised.due) : null,
    lateMinutes: promised?.lateMinutes ?? 0,
    pins: piece.pins.filter((pin) => pin.at !== undefined).length,
  };
};

/** The latest first, then by promise; what is ready stands last. */
export const inOrder = (standings: readonly PieceStanding[]): readonly PieceStanding[] =>
  [...standings].sort((a, b) => {
    const ready = Number(a.stage === 'ready') - Number(b.stage === 'ready');
    if (ready !== 0) return ready;
    if (a.lateMinutes !== b.lateMinutes) return b.lateMinutes - a.lateMinutes;
    return (a.due ?? Number.MAX_SAFE_INTEGER) - (b.due ?? Number.MAX_SAFE_INTEGER);
  });
