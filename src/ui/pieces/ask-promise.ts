/** Asks the engine when a piece that is being written could be ready: soon and beside what stands, then with more time and others giving way. */
import { createMemo, onCleanup, type Accessor } from 'solid-js';
import type { Piece, Plan, Shop } from '../../engine/index.ts';
import { startEngine } from '../engine/index.ts';
import { createAnswer, useSession } from '../state/index.ts';
import { isSettled, type Searched } from './promise-offers.ts';

const SEED = 1;
/** A search is begun only once what is asked has rested so long: a question that follows a long one would wait for its end. */
const AFTER_MS = 350;
const LONGER_AFTER_MS = 1_000;
/** In counted steps: for an answer while one is still writing, then for one that is as good as proved. */
const SEARCHES = [
  { budget: 150_000, mayMove: false, afterMs: 0 },
  { budget: 150_000, mayMove: true, afterMs: 0 },
  { budget: 2_000_000, mayMove: true, afterMs: LONGER_AFTER_MS },
];
/** What is promised still holds when the sheet is saved so long after. */
const WRITING_MINUTES = 15;

type Asked = Pick<Piece, 'recipe' | 'size' | 'earliest' | 'forms'>;

export interface Heard {
  readonly asked: Asked;
  /** The plan that stood. */
  readonly stood: Plan | undefined;
  readonly searched: readonly Searched[];
  /** Whether no finer answer follows. */
  readonly isLast: boolean;
}

export interface Asking {
  /** Whether enough is written to ask. */
  readonly canAsk: Accessor<boolean>;
  /** Only of what is written now: a promise for another size is none. */
  readonly heard: Accessor<Heard | null>;
}

export const createAsking = (shop: Accessor<Shop>, draft: Accessor<Piece>): Asking => {
  const session = useSession();
  // On workers of its own: a promise takes as long as a plan, and the desk is for short questions.
  const engine = startEngine();
  onCleanup(() => engine.close());
  const question = createMemo<Asked | null>(
    () => {
      const { recipe, size, earliest, forms } = draft();
      return size.lengthMm > 0 && size.widthMm > 0 ? { recipe, size, earliest, forms } : null;
    },
    null,
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const search = async (
    asked: Asked,
    standing: Plan | undefined,
    { budget, mayMove }: (typeof SEARCHES)[number],
  ): Promise<Searched> => {
    const wished = asked.earliest === undefined ? null : session.clock().parse(asked.earliest);
    const answer = await engine
      .ask('promise', {
        ...asked,
        earliest: session.clock().iso(Math.max(wished ?? 0, session.now() + WRITING_MINUTES)),
        shop: shop(),
        now: session.clock().iso(session.now()),
        seed: SEED,
        budget,
        standing,
        mayMove,
      })
      .catch((error: unknown) => ({
        ok: false as const,
        clash: [error instanceof Error ? error.message : String(error)],
      }));
    return { mayMove, answer };
  };
  const heard = createAnswer<Asked | null, Heard | null>(
    question,
    async (asked, early) => {
      if (!asked) return null;
      const stood = session.planned()?.plan;
      let known: Heard = { asked, stood, searched: [], isLast: false };
      for (const next of SEARCHES) {
        if (next.afterMs > 0) await new Promise((rested) => setTimeout(rested, next.afterMs));
        if (!early(known)) return known;
        const found = await search(asked, stood, next);
        const isLast = isSettled(found) || next === SEARCHES.at(-1);
        known = { ...known, searched: [...known.searched, found], isLast };
        if (isLast) return known;
      }
      return known;
    },
    null,
    AFTER_MS,
  );
  return {
    canAsk: () => question() !== null,
    heard: createMemo(() => {
      const known = heard();
      return known && known.asked === question() ? known : null;
    }),
  };
};
