import { constantLag, type Lag, type Model } from '../../../src/engine/schedule/index.ts';
import { makespanModel } from '../../../src/engine/schedule/plain-model.ts';
import { randomFrom } from './tiny-models.ts';

/** Eight activities on two shared things, joined by least and greatest lags; the end of all is minimised. */
export function eightActivities(seed: number): Model {
  const random = randomFrom(seed);
  const n = 8;
  const length = Array.from({ length: n }, () => 1 + random(5));
  const lags: Lag[] = [];
  for (let i = 0; i < n; i++) {
    lags.push({ from: i, to: n, kind: 'least', map: constantLag(length[i]) });
    for (let j = i + 1; j < n; j++) {
      if (random(3) === 0) lags.push({ from: i, to: j, kind: 'least', map: constantLag(random(6)) });
      if (random(6) === 0) lags.push({ from: i, to: j, kind: 'most', map: constantLag(4 + random(8)) });
    }
  }
  return makespanModel(
    Array.from({ length: n + 1 }, (_, i) => ({ name: `${i}`, earliest: random(3), latest: 60 })),
    lags,
    [1, 3].map((capacity, r) => ({
      name: `${r}`,
      capacity: seed % 2 === 0 ? Int32Array.of(0, capacity) : Int32Array.of(0, capacity, 9, 1, 13, capacity),
      tasks: length.flatMap((gap, i) =>
        random(2) === 0 ? [] : [{ from: i, to: i, until: constantLag(gap), amount: 1 + random(capacity) }],
      ),
    })),
    n,
  );
}
