/** A session over the small shop with the real engine in this process; nothing is kept. */
import { expect, vi } from 'vitest';
import { makeEngine } from '../../src/ui/engine/index.ts';
import { makeSession, type Session } from '../../src/ui/state/session.ts';
import { inProcess } from './in-process.ts';
import { shopText } from './small-shop.ts';

/** Call it inside a root; `start` it there or later. */
export const smallSession = (): Session =>
  makeSession({
    engine: makeEngine(inProcess),
    storage: {
      readKept: async () => ({ shop: shopText, plan: null, view: null, isExample: false, line: null }),
      keepShop: async () => undefined,
      readState: async () => null,
    },
    clockMs: () => Date.parse('2026-11-25T13:30Z'),
    budget: 15_000,
  });

export const settled = (session: Session): Promise<void> =>
  vi.waitFor(() => expect(session.phase()).toBe('settled'), { timeout: 20_000, interval: 10 });
