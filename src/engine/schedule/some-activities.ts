/** Some activities of a project as a model of their own. */
import { constantLag } from './maps.ts';
import type { Lag, Model, Task } from './model.ts';
import { plainModel } from './plain-model.ts';
import type { Project } from './project.ts';

/** The activities in the order given, each in its own span of time, with the lags among them and what they use of the whole capacities; no level. */
export function someActivities(project: Project, chosen: readonly number[]): Model {
  const { arcs, length, earliest, latest, capacity, useStart, useOf, useAmount } = project;
  const place = new Map(chosen.map((i, k) => [i, k]));
  const lags: Lag[] = [];
  const tasks = capacity.map((): Task[] => []);
  chosen.forEach((i, from) => {
    for (let k = arcs.start[i]; k < arcs.start[i + 1]; k++) {
      const to = place.get(arcs.to[k]);
      if (to !== undefined) lags.push({ from, to, kind: 'least', map: constantLag(arcs.gap[k]) });
    }
    for (let u = useStart[i]; u < useStart[i + 1]; u++)
      tasks[useOf[u]].push({ from, to: from, until: constantLag(length[i]), amount: useAmount[u] });
  });
  return plainModel(
    chosen.map((i) => ({ name: `${i}`, earliest: earliest[i], latest: latest[i] })),
    lags,
    capacity.map((each, r) => ({ name: `${r}`, capacity: each, tasks: tasks[r] })),
  );
}
