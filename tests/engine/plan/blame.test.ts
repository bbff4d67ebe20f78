import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseShop, planShop, tryPlan } from '../../../src/engine/index.ts';
import type { Shop } from '../../../src/engine/index.ts';
import { blameIn } from '../../../src/engine/plan/blame.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';

const sixWeeks = readFileSync(new URL('../../../examples/six-weeks.shop.json', import.meta.url), 'utf8');
const OPTIONS = { now: NOW, seed: 1, budget: 20_000 };
const blamed = (shop: Shop, ...among: (string | null)[]): readonly string[] | null =>
  blameIn(shop, OPTIONS).among(new Set(among));
const pinnedIn = (shop: Shop, now = NOW): readonly string[] | null =>
  blameIn(shop, { ...OPTIONS, now }).pinned();

describe('the piece to blame for a clash', () => {
  it('blames, among many pieces, only the one that cannot be planned even by itself', () => {
    const file = JSON.parse(sixWeeks) as { pieces: { id: string; pins?: unknown[] }[] };
    const dune = file.pieces.find(({ id }) => id === 'dune-1')!;
    dune.pins = [{ step: 'demold', at: '2026-12-04T03:00' }];
    const read = parseShop(JSON.stringify(file));
    if (!read.ok) throw new Error('the example has faults');
    let polls = 0;
    const stop = (): boolean => ++polls < 0;
    const options = { now: '2026-11-25T07:00Z', seed: 1, budget: 0, stop };
    const made = planShop(read.shop, options);
    expect(made.status).toBe('infeasible');
    expect(made.clash).toEqual([expect.stringMatching(/^Dune 1 .*pinned/)]);
    // A clash among all forty is not looked for first: that asks twice as often whether to stop.
    expect(polls).toBeLessThan(100);
    expect(tryPlan(read.shop, 'dune-1', options).clash).toEqual(made.clash);
  });

  // Nobody is there for twenty hours at a stretch, and nobody at three at night.
  const withLong = (pieces: readonly ReturnType<typeof piece>[]): Shop =>
    littleShop((file) => {
      file.recipes.push({ ...file.recipes[0], id: 'long', demold: { work: { minutes: 1200 } } });
      file.pieces = [...pieces];
    });
  const long = piece('long', { recipe: 'long' });
  const night = piece('night', { pins: [{ step: 'prepare', at: '2026-03-04T03:00' }] });

  it('is first one with a pin, which the maker can take back', () => {
    const shop = withLong([piece('a'), long, night]);
    expect(pinnedIn(shop)).toEqual([expect.stringMatching(/^Board night .*pinned/)]);
    expect(blamed(shop, 'a', 'long')).toEqual([expect.stringMatching(/^Board long /)]);
  });

  it('is none of those that are not in the clash, and none that can be planned by itself', () => {
    expect(blamed(withLong([piece('a'), long, night]), 'a', null)).toBeNull();
  });

  it('is all that is pinned, where that cannot be without the others, in few words', () => {
    const file = JSON.parse(sixWeeks) as { pieces: { id: string; pins?: unknown[] }[] };
    const together = ['dune-1', 'elm-1', 'kelp-1', 'cedar-1', 'heath-1'];
    // There are fewer people in the shop than forms that are to be opened.
    for (const id of together)
      file.pieces.find((each) => each.id === id)!.pins = [{ step: 'demold', at: '2026-12-03T10:00' }];
    const read = parseShop(JSON.stringify(file));
    if (!read.ok) throw new Error('the example has faults');
    const clash = pinnedIn(read.shop, '2026-11-25T13:30Z') ?? [];
    const named = read.shop.pieces.filter(({ name }) => clash.join('\n').includes(`${name} - `));
    expect(named.length).toBeGreaterThan(1);
    expect(together).toEqual(expect.arrayContaining(named.map(({ id }) => id)));
  });

  it('is not looked for where there is one piece only', () => {
    expect(pinnedIn(withLong([night]))).toBeNull();
    expect(blamed(withLong([long]), 'long')).toBeNull();
  });
});
