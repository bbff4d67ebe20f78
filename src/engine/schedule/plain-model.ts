import type { Lag, Model, Resource, Start } from './model.ts';

/** A model of starts, lags and resources alone: no choices, openings, clauses, exclusions or levels. */
export const plainModel = (
  starts: readonly Start[],
  lags: readonly Lag[],
  resources: readonly Resource[],
): Model => ({
  starts,
  choices: [],
  lags,
  openings: [],
  clauses: [],
  resources,
  exclusions: [],
  levels: [],
  reasons: 0,
});

/** A plain model in which the start `end` is to come as early as it can. */
export const makespanModel = (
  starts: readonly Start[],
  lags: readonly Lag[],
  resources: readonly Resource[],
  end: number,
): Model => ({
  ...plainModel(starts, lags, resources),
  levels: [{ name: 'makespan', costs: [{ kind: 'late', start: end, after: 0, weight: 1 }] }],
});
