/** The worker itself: nothing but a wire to the answers. */
import { makeAnswers } from './answers.ts';
import type { Request } from './protocol.ts';

const answer = makeAnswers((reply) => self.postMessage(reply, []));

self.addEventListener('message', ({ data }: MessageEvent<Request>) => answer(data));
