/** A model of many parts alike, for tests. */
import { constantLag, nextOpen, yes } from '../../../src/engine/schedule/index.ts';
import type { Cost, Lag, Model, Opening, Start, Task } from '../../../src/engine/schedule/index.ts';
import { randomFrom } from './tiny-models.ts';

/**
 * Jobs of five steps that take turns on one pair of hands, by day only; each holds one of some alike benches from its first step to its
 * last, waits between steps, must not wait too long once, and may be done in a long or a short way.
 * @param alike how many benches
 */
export function workshop(jobs: number, seed: number, alike = 2): Model {
  const random = randomFrom(seed);
  const horizon = jobs * 600 + 2000;
  const days: number[] = [];
  for (let day = 0; day * 144 < horizon; day++) days.push(day * 144 + 40, day * 144 + 100);
  const open = Int32Array.from(days);
  const starts: Start[] = [];
  const lags: Lag[] = [];
  const openings: Opening[] = [];
  const hands: Task[] = [];
  const benches: Task[] = [];
  const late: Cost[] = [];
  const long: Cost[] = [];
  for (let job = 0; job < jobs; job++) {
    const first = starts.length;
    for (let step = 0; step < 5; step++) {
      const s = starts.push({ name: `job ${job} step ${step}`, earliest: 0, latest: horizon }) - 1;
      const minutes = 3 + random(10);
      hands.push({ from: s, to: s, until: constantLag(minutes), amount: 1 });
      openings.push({
        start: s,
        allowed: Int32Array.from(days, (t, k) => (k % 2 === 0 ? t : t - minutes + 1)),
      });
      if (step === 0) continue;
      const wait = minutes + 10 + random(50);
      lags.push({ from: s - 1, to: s, kind: 'least', map: constantLag(wait) });
      if (step === 2) lags.push({ from: s - 1, to: s, kind: 'most', map: constantLag(wait + 60) });
    }
    lags.push({ from: first + 3, to: first + 4, kind: 'least', map: nextOpen(open) });
    lags.push({ from: first + 1, to: first + 3, kind: 'least', map: constantLag(300), when: [yes(job)] });
    benches.push({ from: first, to: first + 4, until: constantLag(5), amount: 1 });
    late.push({ kind: 'late', start: first + 4, after: 200 + random(jobs * 150), weight: 1 + random(3) });
    long.push({ kind: 'choice', when: yes(job) ^ 1, weight: 1 });
  }
  return {
    starts,
    choices: Array.from({ length: jobs }, (_, job) => `job ${job} the long way`),
    lags,
    openings,
    clauses: [],
    resources: [
      { name: 'hands', capacity: Int32Array.of(0, 1), tasks: hands },
      { name: 'benches', capacity: Int32Array.of(0, alike), tasks: benches },
    ],
    exclusions: [],
    levels: [
      { name: 'late', costs: late },
      { name: 'short ways', costs: long },
    ],
    reasons: 0,
  };
}
