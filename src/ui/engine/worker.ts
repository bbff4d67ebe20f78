/** The worker itself: nothing but a wire to the answers. */
import { makeAnswers } from './answers.ts';
import type { Request } from './protocol.ts';

// The calendar's writer draws a random name for every event before it takes ours. Browsers keep `randomUUID` from pages
// that come over plain http from another machine; any text will do there, since it is never written.
if (!('randomUUID' in crypto)) Object.assign(crypto, { randomUUID: () => 'unused' });

const answer = makeAnswers((reply) => self.postMessage(reply, []));

self.addEventListener('message', ({ data }: MessageEvent<Request>) => answer(data));
