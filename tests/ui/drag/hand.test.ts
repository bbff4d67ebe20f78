import { createRoot } from 'solid-js';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { makeHand, type Hand } from '../../../src/ui/drag/hand.ts';
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

const takeTo = async (hand: Hand, minute: number): Promise<void> => {
  expect(hand.pickUp('wren', 'prepare', WEEK)).toBe('');
  hand.aim(minute, null);
  await vi.waitFor(() => expect(hand.verdict().kind).toBe('open'));
};

describe('a step that is put down', () => {
  test('lands where it was put, until the plan around it is there', async () => {
    const { session, hand } = await handInShop();
    await takeTo(hand, LATER);
    const before = session.planned();
    hand.letGo();
    expect(hand.held()).toBeNull();
    expect(session.planned()).toBe(before);
    expect(hand.landing()).toMatchObject({ piece: 'wren', step: 'prepare' });
    expect(hand.at()).toBe(LATER);
    await vi.waitFor(() => expect(session.planned()).not.toBe(before));
    expect(hand.landing()).toBeNull();
    const step = session.planned()?.plan.steps.find((one) => one.piece === 'wren' && one.step === 'prepare');
    expect(minuteOf(step?.start ?? '')).toBe(LATER);
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
