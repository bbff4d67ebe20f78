/** The real engine behind the screen's door, in this process instead of in a worker: everything but the thread. */
import type { WorkerLike } from '../../src/ui/engine/index.ts';
import { makeAnswers } from '../../src/ui/engine/answers.ts';
import type { Reply, Request } from '../../src/ui/engine/protocol.ts';

export const inProcess = (): WorkerLike => {
  let listener: ((event: { readonly data: Reply }) => void) | null = null;
  let ended = false;
  const answer = makeAnswers((reply) => {
    // Through a structured clone, as between threads.
    const data = structuredClone(reply);
    setTimeout(() => !ended && listener?.({ data }), 0);
  });
  return {
    postMessage(message) {
      const request = structuredClone(message) as Request;
      setTimeout(() => !ended && answer(request), 0);
    },
    addEventListener(kind: 'message' | 'error', heard: (event: never) => void) {
      if (kind === 'message') listener = heard as (event: { readonly data: Reply }) => void;
    },
    terminate() {
      ended = true;
    },
  };
};
