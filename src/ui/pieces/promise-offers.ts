/**
 * What can be promised of a piece, from all that the engine has answered so far: the date that moves least of what stands, and an earlier one only
 * where more gives way for it. Searches of other kinds and lengths may find the same date, or a better one than was asked for.
 */
import { movedSteps, type Plan } from '../../engine/index.ts';
import { minuteOf, type Minute } from '../clock/index.ts';
import type { PromiseAnswer } from '../engine/index.ts';
import type { Promised } from './promised-as.ts';

export interface Offer extends Promised {
  readonly ready: Minute;
  /** The first full hour at which it is ready. */
  readonly safe: Minute;
  /** Steps of other pieces at another time than they stood. */
  readonly movedSteps: number;
  /** Whether other pieces keep all they had, their places too. */
  readonly movesNothing: boolean;
}

export interface Offers {
  /** Of the dates that move least the earliest. */
  readonly calm: Offer | null;
  /** An earlier one, for which more moves. */
  readonly sooner: Offer | null;
  /** Whether it is proved that nothing before these can be promised, whatever gave way. */
  readonly isEarliest: boolean;
}

type Found = Extract<PromiseAnswer, { ok: true }>;

/** One search of the engine: whether others could give way in it, and what came of it. */
export interface Searched {
  readonly mayMove: boolean;
  readonly answer: PromiseAnswer;
}

/** @param stood the plan that stood when it was asked */
export const offersOf = (searched: readonly Searched[], stood: Plan | undefined): Offers => {
  const offers = searched.flatMap(({ answer }) => (answer.ok ? [offerOf(answer, stood)] : []));
  const [calm = null] = [...offers].sort((a, b) => disturbance(a) - disturbance(b) || a.ready - b.ready);
  const [first = null] = [...offers].sort((a, b) => a.ready - b.ready || disturbance(a) - disturbance(b));
  return {
    calm,
    sooner: calm && first && first.safe < calm.safe ? first : null,
    isEarliest: searched.some(isSettled),
  };
};

/** Why nothing can be promised, as far as it is known. */
export const clashIn = (searched: readonly Searched[]): readonly string[] =>
  searched.map(({ answer }) => (answer.ok ? [] : answer.clash)).find((clash) => clash.length > 0) ?? [];

/** Whether no longer search can tell more: a clash that was found is one that was proved. */
export const isSettled = ({ mayMove, answer }: Searched): boolean =>
  answer.ok
    ? mayMove && answer.plan.levels.some(({ name, proven }) => name === 'promise' && proven)
    : answer.clash.length > 0;

export const movedText = ({ movesNothing, movedSteps: count }: Offer): string => {
  if (movesNothing) return 'with nothing else moved';
  if (count === 0) return 'with no work on other pieces at another time';
  return `with ${count === 1 ? 'one step' : `${count} steps`} of other pieces moved`;
};

const offerOf = ({ plan, piece, ready }: Found, stood: Plan | undefined): Offer => ({
  plan,
  piece,
  ready: minuteOf(ready),
  safe: Math.ceil(minuteOf(ready) / 60) * 60,
  movedSteps: stood ? movedSteps(stood, plan).length : 0,
  movesNothing: !plan.levels.some(({ name, value }) => name === 'moved' && value > 0),
});

const disturbance = ({ movesNothing, movedSteps: count }: Offer): number => (movesNothing ? 0 : 1 + count);
