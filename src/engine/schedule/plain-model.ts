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
