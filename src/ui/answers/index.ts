/** Answers of the engine beside the screen: the last one stays until the next is there, and a late one is dropped. */
import { createEffect, createSignal, onCleanup, type Accessor } from 'solid-js';

/**
 * The latest answer to `question`, null before the first. A question of null asks nothing and keeps what is known.
 * `waitMs`: asks only when the question has rested so long. Never holds the screen back.
 */
export const createAnswer = <Q, A>(
  question: Accessor<Q | null>,
  ask: (question: Q) => Promise<A>,
  waitMs = 0,
): Accessor<A | null> => {
  const [answer, setAnswer] = createSignal<A | null>(null);
  createEffect(() => {
    const asked = question();
    if (asked === null) return;
    let wanted = true;
    const waiting = setTimeout(() => {
      ask(asked)
        .then((found) => wanted && setAnswer(() => found))
        // What is wrong with the engine is reported where it plans; a drawing then keeps what it has.
        .catch(() => undefined);
    }, waitMs);
    onCleanup(() => {
      wanted = false;
      clearTimeout(waiting);
    });
  });
  return answer;
};
