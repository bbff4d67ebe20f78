/**
 * A signal that holds the engine's latest answer to a question. Unlike a resource it never suspends: the screen around
 * it stays, and with it whatever a pointer holds.
 */
import { createEffect, createSignal, on, type Accessor } from 'solid-js';

/** `first` until the first answer; a failed question leaves the answer as it was. */
export const createAnswer = <Q, A>(
  question: Accessor<Q>,
  ask: (question: Q) => Promise<A>,
  first: A,
): Accessor<A> => {
  const [answer, setAnswer] = createSignal<A>(first);
  let turn = 0;
  createEffect(
    on(question, (asked) => {
      const mine = ++turn;
      ask(asked)
        .then((found) => {
          if (mine === turn) setAnswer(() => found);
        })
        .catch(() => undefined);
    }),
  );
  return answer;
};
