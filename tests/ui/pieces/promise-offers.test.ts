/** What is offered of all that the engine answers, coarse answers first. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/engine/index.ts';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { clashIn, movedText, offersOf, type Searched } from '../../../src/ui/pieces/promise-offers.ts';
import { planned } from '../small-shop.ts';

const { plan: stood } = planned();
const attended = stood.steps.filter(({ handsOnMinutes }) => handsOnMinutes > 0);

interface Kind {
  readonly mayMove?: boolean;
  /** So many attended steps of other pieces are moved. */
  readonly moved?: number;
  /** What leaving the plan that stood costs. */
  readonly cost?: number;
  readonly proven?: boolean;
}

const found = (
  ready: string,
  { mayMove = true, moved = 0, cost = moved, proven = false }: Kind = {},
): Searched => {
  const plan: Plan = {
    ...stood,
    steps: stood.steps.map((step) =>
      attended.slice(0, moved).includes(step) ? { ...step, start: step.end } : step,
    ),
    levels: [
      { name: 'promise', value: 1, bound: proven ? 1 : 0, proven },
      { name: 'moved', value: cost, bound: 0, proven: false },
    ],
  };
  return { mayMove, answer: { ok: true, ready, piece: 'asked-1', plan } };
};
const refused = (...clash: readonly string[]): Searched => ({ mayMove: false, answer: { ok: false, clash } });
const beside = (ready: string, kind: Kind = {}): Searched => found(ready, { ...kind, mayMove: false });

const FRIDAY = '2026-12-11T14:20Z';
const THURSDAY = '2026-12-10T09:10Z';
const WEDNESDAY = '2026-12-09T10:00Z';

/** The dates that are offered, with what moves for each. */
const told = (...searched: readonly Searched[]): readonly (string | null)[] => {
  const { calm, sooner } = offersOf(searched, stood);
  return [calm, sooner].map((offer) => {
    const ready = [FRIDAY, THURSDAY, WEDNESDAY].find((date) => minuteOf(date) === offer?.ready);
    return offer && `${ready} ${movedText(offer)}`;
  });
};

describe('what can be promised', () => {
  test('is one date, the earlier, where a longer search finds one that moves nothing either', () => {
    expect(told(beside(FRIDAY))).toEqual([`${FRIDAY} with nothing else moved`, null]);
    expect(told(beside(FRIDAY), found(THURSDAY))).toEqual([`${THURSDAY} with nothing else moved`, null]);
  });

  test('is two dates where more moves for the earlier one', () => {
    expect(told(beside(FRIDAY), found(THURSDAY, { moved: 2 }))).toEqual([
      `${FRIDAY} with nothing else moved`,
      `${THURSDAY} with 2 steps of other pieces moved`,
    ]);
    expect(told(beside(FRIDAY), found(WEDNESDAY, { moved: 1 }), found(THURSDAY))).toEqual([
      `${THURSDAY} with nothing else moved`,
      `${WEDNESDAY} with one step of other pieces moved`,
    ]);
  });

  test('does not move what need not be moved for the same hour', () => {
    expect(told(beside(FRIDAY), found('2026-12-11T14:05Z', { moved: 3 }))).toEqual([
      `${FRIDAY} with nothing else moved`,
      null,
    ]);
  });

  test('is not said to move nothing where others are only in another form', () => {
    expect(told(beside(FRIDAY), found(THURSDAY, { cost: 120 }))[1]).toBe(
      `${THURSDAY} with no work on other pieces at another time`,
    );
  });

  test('is said to be the earliest once that is proved with others giving way', () => {
    expect(offersOf([beside(FRIDAY, { proven: true })], stood).isEarliest).toBe(false);
    expect(offersOf([beside(FRIDAY), found(FRIDAY)], stood).isEarliest).toBe(false);
    expect(offersOf([beside(FRIDAY), found(FRIDAY, { proven: true })], stood).isEarliest).toBe(true);
  });

  test('is what fits in place of some, where nothing was found beside it; else why not', () => {
    expect(told(refused(), found(THURSDAY, { moved: 1 }))).toEqual([
      `${THURSDAY} with one step of other pieces moved`,
      null,
    ]);
    expect(told(refused())).toEqual([null, null]);
    expect(clashIn([refused(), refused('no form is large enough')])).toEqual(['no form is large enough']);
  });
});
