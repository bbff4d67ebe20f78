import { createRoot } from 'solid-js';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { makeHand, type Hand } from '../../../src/ui/drag/hand.ts';
import type { PlanAnswer } from '../../../src/ui/engine/index.ts';
import type { Session } from '../../../src/ui/state/session.ts';
import { settled, smallSession } from '../small-session.ts';

let end: () => void = () => undefined;
afterEach(() => end());

const handInShop = async (): Promise<{ readonly session: Session; readonly hand: Hand }> => {
  const made = createRoot((dispose) => {
    end = dispose;
    const session = smallSession();
    return { session, hand: makeHand(session) };
  });
  await made.session.start();
  await settled(made.session);
  return made;
};

const LATER = minuteOf('2026-11-27T09:00+01:00');
const WEEK = [minuteOf('2026-11-25T00:00Z'), minuteOf('2026-12-02T00:00Z')] as const;

const startOf = (session: Session): number | null => {
  const step = session.planned()?.plan.steps.find((one) => one.piece === 'wren' && one.step === 'prepare');
  return step ? minuteOf(step.start) : null;
};

const takeTo = async (hand: Hand, minute: number): Promise<void> => {
  expect(hand.pickUp('wren', 'prepare', WEEK)).toBe('');
  hand.aim(minute, null);
  await vi.waitFor(() => expect(hand.verdict().kind).toBe('open'));
};

/** A hand that has rested over a later place until the plan that would follow was made. */
const restedThere = async () => {
  const { session, hand } = await handInShop();
  const foresee = vi.spyOn(session.engine, 'foresee');
  await takeTo(hand, LATER);
  await vi.waitFor(() => expect(foresee.mock.settledResults[0]?.type).toBe('fulfilled'));
  return { session, hand, foresee, before: session.planned() };
};

describe('a step that is put down', () => {
  test('lands where it was put, until the plan around it is there', async () => {
    const { session, hand } = await handInShop();
    // However fast a machine is, nothing has been foreseen here.
    vi.spyOn(session.engine, 'foresee').mockRejectedValue(new Error('nothing foreseen'));
    await takeTo(hand, LATER);
    const before = session.planned();
    hand.letGo();
    expect(hand.held()).toBeNull();
    expect(session.planned()).toBe(before);
    expect(hand.landing()).toMatchObject({ piece: 'wren', step: 'prepare' });
    expect(hand.at()).toBe(LATER);
    await vi.waitFor(() => expect(session.planned()).not.toBe(before));
    expect(hand.landing()).toBeNull();
    expect(startOf(session)).toBe(LATER);
  });

  test('that rested there is shown at once with the plan that was made meanwhile, and with nothing to land', async () => {
    const { session, hand, foresee, before } = await restedThere();
    hand.letGo();
    const early = session.planned();
    expect(early).not.toBe(before);
    expect(early).toEqual(await foresee.mock.results[0].value);
    expect(startOf(session)).toBe(LATER);
    expect(session.change()?.says).toMatch(/^put /);
    expect(session.phase()).toBe('improving');
    expect(hand.landing()).toBeNull();
    await settled(session);
    expect(startOf(session)).toBe(LATER);
    session.undo();
    expect(session.planned()).toBe(before);
  });

  test('that rested there too shortly is shown as soon as its plan is there', async () => {
    const { session, hand } = await handInShop();
    let answer: () => void = () => undefined;
    const asked = new Promise<void>((resolve) => (answer = resolve));
    const real = session.engine.foresee;
    const foresee = vi.spyOn(session.engine, 'foresee').mockImplementation(async (request) => {
      const found = await real(request);
      await asked;
      return found;
    });
    await takeTo(hand, LATER);
    const before = session.planned();
    await vi.waitFor(() => expect(foresee).toHaveBeenCalledTimes(1));
    const never = new Promise<PlanAnswer>(() => undefined);
    vi.spyOn(session.engine, 'plan').mockReturnValue({ done: never, stop: () => undefined });
    hand.letGo();
    expect(session.planned()).toBe(before);
    answer();
    const foreseen = await foresee.mock.results[0].value;
    await vi.waitFor(() => expect(session.planned()).not.toBe(before));
    expect(session.planned()).toBe(foreseen);
  });

  test('elsewhere than where it rested waits for its own plan', async () => {
    const { session, hand, before } = await restedThere();
    hand.aim(LATER + 60, null);
    expect(hand.verdict().kind).toBe('open');
    hand.letGo();
    expect(session.planned()).toBe(before);
    await vi.waitFor(() => expect(session.planned()).not.toBe(before));
    expect(startOf(session)).toBe(LATER + 60);
  });

  test('does not land when it goes back to where it was', async () => {
    const { session, hand } = await handInShop();
    const before = session.planned();
    expect(hand.pickUp('wren', 'prepare', WEEK)).toBe('');
    hand.letGo();
    expect(hand.landing()).toBeNull();
    expect(session.planned()).toBe(before);
  });
});
