/** One line to one worker: request ids out, replies matched back; a reply nobody waits for any more is dropped. */
import type { Ask, Asks, Planned, Reply, Request } from './protocol.ts';

/** The part of a Worker that a line uses. */
export interface WorkerLike {
  postMessage(message: unknown, transfer: Transferable[]): void;
  addEventListener(kind: 'message', listener: (event: { readonly data: Reply }) => void): void;
  addEventListener(kind: 'error', listener: (event: { readonly message: string }) => void): void;
  terminate(): void;
}

interface Waiting {
  readonly ask: Ask;
  readonly settle: (answer: unknown) => void;
  readonly fail: (error: Error) => void;
  readonly better?: (planned: Planned) => void;
}

export interface Line {
  /** Rejects with an Error whose message is fit to be shown. */
  ask<K extends Ask>(
    ask: K,
    question: Asks[K]['question'],
    better?: (planned: Planned) => void,
  ): Promise<Asks[K]['answer']>;
  /** Whether a question of this kind is still unanswered. */
  busy(ask: Ask): boolean;
  /** Ends the worker; what is still open never settles. */
  cut(): void;
}

export const makeLine = (worker: WorkerLike): Line => {
  const waiting = new Map<number, Waiting>();
  let nextId = 1;
  worker.addEventListener('message', ({ data }) => {
    const asked = waiting.get(data.id);
    if (!asked) return;
    if (data.kind === 'better') {
      asked.better?.(data.planned);
      return;
    }
    waiting.delete(data.id);
    if (data.kind === 'answer') asked.settle(data.answer);
    else asked.fail(new Error(data.text));
  });
  worker.addEventListener('error', (event) => {
    const error = new Error(event.message || 'the planning engine could not be loaded');
    for (const asked of waiting.values()) asked.fail(error);
    waiting.clear();
  });
  return {
    ask: <K extends Ask>(ask: K, question: Asks[K]['question'], better?: (planned: Planned) => void) =>
      new Promise<Asks[K]['answer']>((resolve, reject) => {
        const id = nextId++;
        // The protocol's map pairs each question with its answer; the worker's side is typed by the same map.
        waiting.set(id, {
          ask,
          settle: (answer) => resolve(answer as Asks[K]['answer']),
          fail: reject,
          better,
        });
        worker.postMessage({ id, ask, question } as Request, []);
      }),
    busy: (kind) => [...waiting.values()].some(({ ask }) => ask === kind),
    cut() {
      waiting.clear();
      worker.terminate();
    },
  };
};
