/**
 * A signal that holds the engine's latest answer to a question. Unlike a resource it never suspends: the screen around
 * it stays, and with it whatever a pointer holds.
 */
import { createEffect, createSignal, on, onCleanup, type Accessor } from 'solid-js';

/**
 * `first` until the first answer; a failed question leaves the answer as it was. With `waitMs` it asks only once the
 * question has rested so long. `early` shows an answer that a finer one will follow, and tells whether that one is
 * still wanted.
 */
export const createAnswer = <Q, A>(
  question: Accessor<Q>,
  ask: (question: Q, early: (answer: A) => boolean) => Promise<A>,
  first: A,
  waitMs = 0,
): Accessor<A> => {
  const [answer, setAnswer] = createSignal<A>(first);
  let turn = 0;
  onCleanup(() => (turn = -1));
  createEffect(
    on(question, (asked) => {
      const mine = ++turn;
      const go = (): void => {
        const take = (found: A): boolean => {
          if (mine !== turn) return false;
          setAnswer(() => found);
          return true;
        };
        if (mine !== turn) return;
        ask(asked, take)
          .then(take)
          .catch(() => undefined);
      };
      if (waitMs === 0) go();
      else setTimeout(go, waitMs);
    }),
  );
  return answer;
};
