import { readFileSync } from 'node:fs';
import { createRoot } from 'solid-js';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { parseShop, planShop, type Plan } from '../../../src/engine/index.ts';
import { makeEngine } from '../../../src/ui/engine/index.ts';
import { changePiece, pinStep, together, wishForms, type Edit } from '../../../src/ui/edits/index.ts';
import type { StateName } from '../../../src/ui/storage/index.ts';
import { makeSession, type Session } from '../../../src/ui/state/session.ts';
import { inProcess } from '../in-process.ts';
import { shopText } from '../small-shop.ts';

/** A device's storage that keeps what it is given; a real one refuses now and then. */
const makeStorage = (shop: string | null, refuses = false) => {
  const kept: {
    shop: string | null;
    plan: string | null;
    view: null;
    isExample: boolean;
    line: string | null;
  } = {
    shop,
    plan: null,
    view: null,
    isExample: false,
    line: null,
  };
  const states = new Map<number, string>();
  return {
    kept,
    states,
    readKept: async () => ({ ...kept }),
    keepShop: async (
      text: string,
      plan: string | null,
      isExample: boolean,
      line: string,
      { position }: StateName,
    ) => {
      if (refuses) throw new Error('the disk is full');
      Object.assign(kept, { shop: text, plan, isExample, line });
      states.set(position, text);
    },
    readState: async ({ position }: StateName) => states.get(position) ?? null,
  };
};

const SHORT = 15_000;
const coldGarage = readFileSync(new URL('../../../examples/cold-garage.shop.json', import.meta.url), 'utf8');

let end: () => void = () => undefined;
afterEach(() => end());

const NOW_MS = Date.parse('2026-11-25T13:30Z');

const visit = (storage = makeStorage(shopText), clockMs = () => NOW_MS): Session =>
  createRoot((dispose) => {
    end = dispose;
    return makeSession({ engine: makeEngine(inProcess), storage, clockMs, budget: SHORT });
  });

const settled = (session: Session): Promise<void> =>
  vi.waitFor(() => expect(['settled', 'clash', 'failed']).toContain(session.phase()), {
    timeout: 20_000,
    interval: 10,
  });
const startOf = (session: Session, step: string): string | undefined =>
  session.planned()?.plan.steps.find((one) => one.piece === 'wren' && one.step === step)?.start;

describe('a visit', () => {
  test('the kept shop is restored and planned, and how it cures is known', async () => {
    const session = visit();
    await session.start();
    await settled(session);
    await session.ready();
    expect(session.shop()?.name).toBe('Two Evenings');
    expect(session.phase()).toBe('settled');
    expect(session.cures().length).toBeGreaterThan(4);
    expect(session.undoSays()).toBeNull();
  });

  test('an edit that breaks a promise says so, by how much, and says nothing of one that already was', async () => {
    const session = visit(makeStorage(shopText));
    await session.start();
    await settled(session);
    const promised = (due: string): Edit => ({
      says: 'promise it sooner',
      apply: (shop) => changePiece(shop, 'wren', (piece) => ({ ...piece, due })),
    });
    session.edit(promised('2026-11-27T12:00'));
    await settled(session);
    const wren = session.planned()?.plan.pieces.find(({ piece }) => piece === 'wren');
    expect(wren?.lateMinutes).toBeGreaterThan(0);
    expect(session.change()?.later).toEqual([{ piece: 'wren', lateMinutes: wren?.lateMinutes }]);
    session.edit(promised('2026-11-27T13:00'));
    await settled(session);
    expect(session.change()?.later).toEqual([]);
  });

  test('while a piece is late that might not have to be, the search goes on for longer', async () => {
    const file = JSON.parse(coldGarage) as { pieces: { due: string }[] };
    for (const piece of file.pieces) piece.due = `2026-12-0${1 + file.pieces.indexOf(piece)}`;
    const text = JSON.stringify(file);
    const read = parseShop(text);
    if (!read.ok) throw new Error('the example has faults');
    const soon = planShop(read.shop, { now: '2026-11-25T13:30Z', seed: 1, budget: SHORT });
    const lateness = ({ levels }: Plan): number =>
      levels.find(({ name }) => name === 'tardiness')?.value ?? 0;
    const session = visit(makeStorage(text));
    await session.start();
    await settled(session);
    expect(lateness(session.planned()!.plan)).toBeLessThan(lateness(soon));
    expect(session.planned()?.broken).toEqual([]);
  });

  test('an edit is planned, kept, undone and done again', async () => {
    const storage = makeStorage(shopText);
    const session = visit(storage);
    await session.start();
    await settled(session);
    const before = startOf(session, 'prepare');
    session.edit(pinStep('wren', 'prepare', '2026-11-27T09:00+01:00', 'pin it'));
    await settled(session);
    expect(startOf(session, 'prepare')).toBe('2026-11-27T09:00+01:00');
    expect(session.change()).toMatchObject({ says: 'pin it' });
    expect(session.change()?.moved.length).toBeGreaterThan(0);
    await vi.waitFor(() => expect(storage.kept.shop).toContain('2026-11-27T09:00+01:00'));
    await vi.waitFor(() => expect(storage.kept.plan).toContain('"steps"'));
    session.undo();
    await settled(session);
    expect(session.shop()?.pieces[0].pins).toEqual([]);
    expect(startOf(session, 'prepare')).toBe(before);
    session.redo();
    await settled(session);
    expect(startOf(session, 'prepare')).toBe('2026-11-27T09:00+01:00');
  });

  test('what the maker changed is kept at once, before any plan for it is there', async () => {
    const storage = makeStorage(shopText);
    const session = visit(storage);
    await session.start();
    await settled(session);
    session.edit(pinStep('wren', 'prepare', '2026-11-27T09:00+01:00', 'pin it'));
    expect(storage.kept.shop).toBe(JSON.stringify(session.shop()));
    session.undo();
    expect(storage.kept.shop).toBe(JSON.stringify(session.shop()));
  });

  test('what is shown is kept before the page is left for a newer app, or it is said that it is not', async () => {
    const storage = makeStorage(shopText);
    const session = visit(storage);
    await session.start();
    await settled(session);
    session.edit(pinStep('wren', 'prepare', '2026-11-27T09:00+01:00', 'pin it'));
    await settled(session);
    expect(await session.kept()).toBe(true);
    expect(storage.kept.plan).toBe(JSON.stringify(session.planned()?.plan));
    end();
    const refused = visit(makeStorage(shopText, true));
    await refused.start();
    expect(await refused.kept()).toBe(false);
  });

  describe('after a reload', () => {
    const pin = pinStep('wren', 'prepare', '2026-11-27T09:00+01:00', 'pin it');
    /** A visit in which Wren was pinned, and the next one on the same device. */
    const reloaded = async (storage: ReturnType<typeof makeStorage>, undone = false): Promise<Session> => {
      const before = visit(storage);
      await before.start();
      await settled(before);
      before.edit(pin);
      await settled(before);
      if (undone) before.undo();
      end();
      const after = visit(storage);
      await after.start();
      await settled(after);
      return after;
    };

    test('what was changed before is taken back, and done again', async () => {
      const session = await reloaded(makeStorage(shopText));
      expect(session.undoSays()).toBe('pin it');
      session.undo();
      await vi.waitFor(() => expect(session.shop()?.pieces[0].pins).toEqual([]));
      expect(session.undoSays()).toBeNull();
      await settled(session);
      expect(session.change()?.says).toBe('undone: pin it');
      session.redo();
      expect(session.shop()?.pieces[0].pins).toHaveLength(1);
    });

    test('what was taken back before is done again', async () => {
      const session = await reloaded(makeStorage(shopText), true);
      expect(session.redoSays()).toBe('pin it');
      session.redo();
      await vi.waitFor(() => expect(session.shop()?.pieces[0].pins).toHaveLength(1));
    });

    test.each([
      ['lost', undefined],
      ['broken', '{"half": '],
    ])('a state that is %s is told of, and the shop stays as it is', async (_, text) => {
      const storage = makeStorage(shopText);
      const session = await reloaded(storage);
      const shop = session.shop();
      storage.states.clear();
      if (text !== undefined) storage.states.set(0, text);
      session.undo();
      await vi.waitFor(() => expect(session.trouble()?.title).toContain('no longer keeps'));
      expect(session.shop()).toBe(shop);
      expect(session.undoSays()).toBeNull();
      expect(JSON.parse(storage.kept.line ?? '')).toMatchObject({ past: [] });
    });
  });

  test('while something is in the hand no plan moves under it; let go, the newest is there', async () => {
    const session = visit();
    await session.start();
    await settled(session);
    const standing = session.planned();
    session.takeInHand();
    session.edit(pinStep('wren', 'prepare', '2026-11-27T10:00+01:00', 'pin it'));
    await settled(session);
    expect(session.planned()).toBe(standing);
    session.letGo();
    expect(startOf(session, 'prepare')).toBe('2026-11-27T10:00+01:00');
  });

  test('what should have begun a while ago has the plan made again from now, which says what moved', async () => {
    let ms = NOW_MS;
    const session = visit(makeStorage(shopText), () => ms);
    await session.start();
    await settled(session);
    const first = session.planned()?.plan.steps.find(({ people }) => people.length > 0);
    const since = (minutes: number): number => Date.parse(first?.start ?? '') + minutes * 60_000;
    ms = since(10);
    await vi.waitFor(() => expect(session.now()).toBe(ms / 60_000), { timeout: 5_000, interval: 20 });
    expect(session.phase()).toBe('settled');
    expect(session.change()).toBeNull();
    ms = since(11);
    await vi.waitFor(() => expect(session.change()?.says).toBe('planned again from now'), {
      timeout: 20_000,
      interval: 20,
    });
    await settled(session);
    const starts = session
      .planned()
      ?.plan.steps.filter(({ state }) => state === 'planned')
      .map(({ start }) => Date.parse(start));
    expect(Math.min(...(starts ?? []))).toBeGreaterThanOrEqual(ms);
    expect(session.change()?.moved.map(({ step }) => step)).toContain(first?.step);
  });

  test('a file with faults is not opened and the shop stays as it was', async () => {
    const session = visit();
    await session.start();
    await settled(session);
    const shop = session.shop();
    const faults = await session.openText('{"format":"pourwright.shop","version":1,"name":7}', 'open x');
    expect(faults.map((fault) => fault.path)).toContain('name');
    expect(session.shop()).toBe(shop);
  });

  test('a file that is chosen before the kept shop is on the screen comes after it, and undo leads back', async () => {
    const storage = makeStorage(shopText);
    const session = visit(storage);
    const starting = session.start();
    expect(await session.openText(coldGarage, 'open the garage')).toEqual([]);
    await starting;
    expect(session.shop()?.name).toBe("Ilse's garage");
    expect(session.undoSays()).toBe('open the garage');
    session.undo();
    expect(session.shop()?.name).toBe('Two Evenings');
    expect(await session.kept()).toBe(true);
    expect(storage.kept.shop).toContain('Two Evenings');
  });

  test('what is exported opens again as the same shop', async () => {
    const session = visit();
    await session.start();
    const text = session.exportText() ?? '';
    const shop = session.shop();
    expect(await session.openText(text, 'open it')).toEqual([]);
    expect(session.shop()).toEqual(shop);
  });

  test('a wish that no form can meet is told as a clash, with the way back', async () => {
    const session = visit();
    await session.start();
    await settled(session);
    session.edit(
      together(
        [
          wishForms('wren', ['slab'], ''),
          wishForms('robin', ['slab'], ''),
          pinStep('wren', 'prepare', '2026-11-26T09:00+01:00', ''),
          pinStep('robin', 'prepare', '2026-11-26T12:00+01:00', ''),
        ],
        'both in one form',
      ),
    );
    await settled(session);
    expect(session.phase()).toBe('clash');
    expect(session.trouble()?.lines.length).toBeGreaterThan(0);
    expect(session.undoSays()).toBe('both in one form');
    session.undo();
    await settled(session);
    expect(session.phase()).toBe('settled');
    expect(session.trouble()).toBeNull();
  });

  test('a device that refuses to keep anything says so, and the work goes on', async () => {
    const session = visit(makeStorage(shopText, true));
    await session.start();
    await vi.waitFor(() => expect(session.trouble()?.title).toContain('does not keep'), { timeout: 10_000 });
    expect(session.shop()).not.toBeNull();
  });

  test('what was kept but cannot be read is named, and an example is shown instead', async () => {
    const session = visit(makeStorage('{"half": '));
    await session.start();
    expect(session.trouble()?.title).toContain('could not be read');
    expect(session.isExample()).toBe(true);
  });
});
