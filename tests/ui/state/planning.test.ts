import { createRoot, createSignal } from 'solid-js';
import { expect, test, vi } from 'vitest';
import { makeZoneClock } from '../../../src/ui/clock/index.ts';
import type { Plan, Shop } from '../../../src/engine/index.ts';
import { makeEngine, type Planned } from '../../../src/ui/engine/index.ts';
import { makePlanning } from '../../../src/ui/state/planning.ts';
import { inProcess } from '../in-process.ts';
import { shopOf } from '../small-shop.ts';

test('a plan that was foreseen is shown for its own shop, beside the plan that stood, in its own minute, and not else', async () => {
  const [now, setNow] = createSignal(Date.parse('2026-11-25T13:30Z') / 60_000);
  const [shop, setShop] = createSignal(shopOf());
  const empty = (): Planned => ({
    plan: { seed: 1, steps: [{ start: '2026-11-25T14:00Z' }], pieces: [] } as unknown as Plan,
    broken: [],
  });
  const [foreseen, stood] = [empty(), empty()];
  const planned: Shop[] = [];
  let better: (found: Planned) => void = () => undefined;
  const [planning, dispose] = createRoot((end) => [
    makePlanning({
      engine: {
        ...makeEngine(inProcess),
        plan: ({ shop: asked }, heard) => {
          planned.push(asked);
          better = heard;
          return { done: new Promise(() => undefined), stop: () => undefined };
        },
        foresee: async () => foreseen,
      },
      budget: 1,
      shop,
      now,
      clock: () => makeZoneClock('UTC'),
      tell: () => undefined,
      shown: () => undefined,
    }),
    end,
  ]);
  const shownAfter = async (meanwhile: () => void, comes?: Shop): Promise<boolean> => {
    planning.stand(shop(), stood);
    const next = shopOf();
    await planning.foresee(next);
    meanwhile();
    planning.follow(comes ?? next, 'it comes', []);
    setShop(comes ?? next);
    planning.bringBack(comes ?? next);
    return planning.planned() === foreseen;
  };
  expect(await shownAfter(() => undefined)).toBe(true);
  // It is drawn before the planner is set to work.
  expect(planned).toEqual([]);
  await vi.waitFor(() => expect(planned).toHaveLength(1));
  // Made for its shop, it comes once more; the next one is another.
  better(structuredClone(foreseen));
  expect(planning.planned()).toBe(foreseen);
  better({ ...foreseen, plan: { ...foreseen.plan, seed: 2 } });
  expect(planning.planned()).not.toBe(foreseen);
  expect(await shownAfter(() => undefined, shopOf())).toBe(false);
  // What comes before that takes its place.
  expect(await shownAfter(() => undefined)).toBe(true);
  const [count, last] = [planned.length, shopOf()];
  planning.follow(last, 'it comes at once', []);
  await new Promise((resolve) => void setTimeout(resolve, 100));
  expect(planned.slice(count)).toEqual([last]);
  expect(planned.at(-1)).toBe(last);
  expect(await shownAfter(() => setNow((minute) => minute + 1))).toBe(false);
  expect(await shownAfter(() => planning.stand(shop(), empty()))).toBe(false);
  dispose();
});

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
