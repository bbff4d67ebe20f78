/** Small random shops of jobs and machines. */
import { constantLag, readFlexibleJobShop, type Model } from '../../../src/engine/schedule/index.ts';
import { randomFrom } from './tiny-models.ts';

/** The text of a flexible job shop: for each job its steps, each as ways to do it, (machine from 1, length). */
export const flexible = (
  machines: number,
  jobs: readonly (readonly (readonly (readonly [number, number])[])[])[],
): string =>
  [
    `${jobs.length} ${machines} 1`,
    ...jobs.map((job) => [job.length, ...job.flatMap((ways) => [ways.length, ...ways.flat()])].join(' ')),
  ].join('\n');

/** Three or four jobs on three machines, some steps with a choice of machine, some jobs let in late, some waits longer or shorter than the work. */
export function randomShop(seed: number): Model {
  const random = randomFrom(seed);
  const jobs = Array.from({ length: 3 + random(2) }, () =>
    Array.from({ length: 2 + random(2) }, () => {
      const machines = [1, 2, 3].filter(() => random(2) === 0);
      return (machines.length === 0 ? [1 + random(3)] : machines).map((m) => [m, 1 + random(6)] as const);
    }),
  );
  const model = readFlexibleJobShop(flexible(3, jobs));
  return {
    ...model,
    starts: model.starts.map((start) => ({
      ...start,
      earliest: random(5) === 0 ? random(6) : 0,
      latest: 4 * start.latest + 10,
    })),
    lags: model.lags.map((lag) => {
      const change = random(4) === 0 ? random(5) - 1 : 0;
      return { ...lag, map: constantLag(Math.max(0, lag.map.at(0) + change)) };
    }),
  };
}
