import { createRoot, createSignal } from 'solid-js';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { createTrials, editOf, saysOf, type Tried } from '../../../src/ui/drag/trials.ts';
import type { WayOut } from '../../../src/ui/drag/ways-out.ts';
import { pinStep } from '../../../src/ui/edits/index.ts';
import type { Session } from '../../../src/ui/state/session.ts';
import { settled, smallSession } from '../small-session.ts';

let end: () => void = () => undefined;
afterEach(() => end());

const boldly = (step: string, at: string): WayOut => ({
  kind: 'move-others',
  name: 'Move Robin',
  says: 'everything else is planned around it',
  edit: pinStep('wren', step, at, `put it at ${at}`),
  isBold: true,
});

const trying = async (way: WayOut): Promise<{ session: Session; tried: () => Tried; anew: () => void }> => {
  const made = createRoot((dispose) => {
    end = dispose;
    const session = smallSession();
    const [ways, setWays] = createSignal<readonly WayOut[]>([]);
    const trials = createTrials(session, () => 'wren', ways);
    return { session, tried: () => trials()[0], anew: () => setWays([{ ...way }]) };
  });
  await made.session.start();
  await settled(made.session);
  made.anew();
  return made;
};

const known = (tried: () => Tried): Promise<void> =>
  vi.waitFor(() => expect(tried().trial).not.toBeNull(), { timeout: 20_000, interval: 10 });

describe('a way out that moves others', () => {
  test('is offered once a plan was found with it, and that plan is what follows', async () => {
    const at = '2026-11-27T09:00+01:00';
    const { session, tried } = await trying(boldly('prepare', at));
    expect(saysOf(tried())).toMatch(/^Looking/);
    await known(tried);
    expect(saysOf(tried())).toBe('everything else is planned around it');
    const { known: found } = editOf(tried());
    const moved = found?.steps.find(({ piece, step }) => piece === 'wren' && step === 'prepare');
    expect(minuteOf(moved?.start ?? '')).toBe(minuteOf(at));
    expect(session.planned()?.plan).not.toEqual(found);
  });

  test('is not offered where no plan can exist, and what clashes is told', async () => {
    const { tried } = await trying(boldly('layer-2-pour', '2026-11-25T15:00+01:00'));
    await known(tried);
    const { trial } = tried();
    expect(trial).toMatchObject({ kind: 'clash', clash: [expect.stringMatching(/^Wren.*pinned/)] });
  });

  test('is not looked into again when its reasons become finer', async () => {
    const { tried, anew } = await trying(boldly('prepare', '2026-11-27T09:00+01:00'));
    await known(tried);
    anew();
    expect(tried().trial).not.toBeNull();
  });

  test('stays on offer where a plan came between', async () => {
    const { session, tried } = await trying(boldly('prepare', '2026-11-27T09:00+01:00'));
    session.planAgain();
    await known(tried);
    expect(tried().trial).toEqual({ kind: 'unknown' });
  });
});
