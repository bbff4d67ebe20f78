import { createRoot, createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import { makeZoneClock } from '../../../src/ui/clock/index.ts';
import { makeEngine } from '../../../src/ui/engine/index.ts';
import { makePlanning } from '../../../src/ui/state/planning.ts';
import { inProcess } from '../in-process.ts';
import { shopOf } from '../small-shop.ts';

test('what is held over the end of a minute is rehearsed anew, for the minute in which it may be put down', () => {
  const [now, setNow] = createSignal(Date.parse('2026-11-25T13:30Z') / 60_000);
  const rehearsedAt: string[] = [];
  const shop = shopOf();
  const [planning, dispose] = createRoot((end) => [
    makePlanning({
      engine: { ...makeEngine(inProcess), rehearse: (request) => void rehearsedAt.push(request.now) },
      budget: 1,
      shop: () => shop,
      now,
      clock: () => makeZoneClock('UTC'),
      tell: () => undefined,
      shown: () => undefined,
    }),
    end,
  ]);
  const minutes = (): readonly string[] => rehearsedAt.map((at) => at.slice(11, 16));
  setNow((minute) => minute + 1);
  expect(minutes()).toEqual([]);
  planning.takeInHand();
  setNow((minute) => minute + 1);
  expect(minutes()).toEqual(['13:31', '13:32']);
  planning.letGo();
  setNow((minute) => minute + 1);
  expect(minutes()).toEqual(['13:31', '13:32']);
  dispose();
});
