/** Pourwright's scheduler in a worker: a request comes in, schedules and a verdict go out. */
import { readJobShop, readSch, solve } from '../../src/engine/schedule/index.ts';
import type { Request, Word } from './runs.ts';

const say = (word: Word): void => postMessage(word);

addEventListener('message', ({ data }: MessageEvent<Request>) => {
  const begun = performance.now();
  const model = data.format === 'sch' ? readSch(data.text) : readJobShop(data.text);
  let value = Infinity;
  const outcome = solve(model, {
    seed: 1,
    budget: Number.MAX_SAFE_INTEGER,
    stop: () => performance.now() - begun >= data.limitMs,
    progress: ({ best, levels }) => {
      if (best === null || levels[0].value >= value) return;
      value = levels[0].value;
      say({ kind: 'found', starts: best.starts });
    },
  });
  if ('best' in outcome && outcome.levels[0].value < value)
    say({ kind: 'found', starts: outcome.best.starts });
  const proved = outcome.status === 'optimal' || outcome.status === 'infeasible';
  say({ kind: 'end', verdict: proved ? outcome.status : 'open' });
});
