/** Projects of middle size: large enough to go wrong where tiny ones do not. */
import { constantLag, type Lag, type Model } from '../../../src/engine/schedule/index.ts';
import { makespanModel } from '../../../src/engine/schedule/plain-model.ts';
import { randomFrom } from './tiny-models.ts';

const ACTIVITIES = 40;

/**
 * Forty activities with minimum and maximum lags on three resources, one of them a machine, one with a gap in its capacity; the end of all is
 * minimised. Built around a hidden schedule that keeps the lags, so that most have a solution.
 */
export function fortyActivities(seed: number): Model {
  const random = randomFrom(seed);
  const durations = Array.from({ length: ACTIVITIES }, () => 1 + random(9));
  const hidden: number[] = [];
  durations.forEach((_, i) => hidden.push(i === 0 ? 0 : hidden[i - 1] + random(8)));
  const lags: Lag[] = [];
  for (let i = 0; i < ACTIVITIES; i++) {
    for (let k = 0; k < 2; k++) {
      const j = i + 1 + random(6);
      if (j >= ACTIVITIES) continue;
      const apart = hidden[j] - hidden[i];
      if (random(2) === 0)
        lags.push({
          from: i,
          to: j,
          kind: 'least',
          map: constantLag(Math.max(0, apart - random(9))),
        });
      if (random(5) === 0)
        lags.push({
          from: i,
          to: j,
          kind: 'most',
          map: constantLag(apart + durations[i] + 10 + random(20)),
        });
    }
    lags.push({
      from: i,
      to: ACTIVITIES,
      kind: 'least',
      map: constantLag(durations[i]),
    });
  }
  const latest = 600;
  const resources = [1, 4, 6].map((capacity, r) => ({
    name: `resource ${r}`,
    capacity: r === 1 ? Int32Array.of(0, capacity, 30, 1, 40, capacity) : Int32Array.of(0, capacity),
    tasks: durations.flatMap((duration, i) =>
      random(r === 0 ? 4 : 2) > 0
        ? []
        : [
            {
              from: i,
              to: i,
              until: constantLag(duration),
              amount: 1 + random(capacity),
            },
          ],
    ),
  }));
  return makespanModel(
    Array.from({ length: ACTIVITIES + 1 }, (_, i) => ({
      name: `${i}`,
      earliest: 0,
      latest,
    })),
    lags,
    resources,
    ACTIVITIES,
  );
}
