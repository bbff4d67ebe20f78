/** What becomes of the bold ways out: none is offered before the engine has looked whether a plan can exist after it. */
import { createEffect, createMemo, createSignal, on, type Accessor } from 'solid-js';
import type { Session, Trial } from '../state/index.ts';
import type { WayOut } from './ways-out.ts';

/** A way with what is known of it; null: it is being looked into. */
export interface Tried {
  readonly way: WayOut;
  readonly trial: Trial | null;
}

const UNTRIED: Trial = { kind: 'unknown' };

/**
 * @param piece the piece that is held
 * @param ways its ways out; looked into anew where other ones come
 */
export const createTrials = (
  session: Pick<Session, 'tryOut'>,
  piece: Accessor<string | null>,
  ways: Accessor<readonly WayOut[]>,
): Accessor<readonly Tried[]> => {
  const [trials, setTrials] = createSignal<ReadonlyMap<string, Trial>>(new Map());
  const bold = (): readonly WayOut[] => ways().filter(({ isBold }) => isBold);
  // A finer reason against the same place brings the same ways again.
  const names = createMemo(() => bold().map(nameOf).join('\n'));
  let turn = 0;
  createEffect(
    on(names, () => {
      const mine = ++turn;
      setTrials(new Map());
      const held = piece();
      if (held === null) return;
      for (const way of bold()) {
        void session.tryOut(way.edit, held).then((trial) => {
          if (mine === turn) setTrials((known) => new Map(known).set(nameOf(way), trial));
        });
      }
    }),
  );
  return () =>
    ways().map((way) => ({ way, trial: way.isBold ? (trials().get(nameOf(way)) ?? null) : UNTRIED }));
};

const nameOf = ({ kind, edit }: WayOut): string => `${kind}: ${edit.says}`;

/** The edit of a way that was tried: the plan that was found is not looked for again. */
export const editOf = ({ way, trial }: Tried): WayOut['edit'] =>
  trial?.kind === 'plan' ? { ...way.edit, known: trial.plan } : way.edit;

/** What is said under a way's name. */
export const saysOf = ({ way, trial }: Tried): string =>
  trial === null ? 'Looking whether a plan can exist with it…' : way.says;
