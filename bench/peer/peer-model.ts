/**
 * A model with constant lags and a makespan, in the peer's language, plainly: one start variable an activity, one linear inequality a lag, one
 * `cumulative` a resource, and the end is minimised.
 */
import { isConstant } from '../../src/engine/schedule/maps.ts';
import type { Model, MonotoneMap } from '../../src/engine/schedule/index.ts';

function gapOf(map: MonotoneMap): number {
  if (!isConstant(map)) throw new Error('peerText: only constant lags can be written');
  return map.gap;
}

/** @throws Error when the model has more than lags, plain resources and one makespan. */
export function peerText(model: Model): string {
  const { starts, lags, resources, levels } = model;
  const [cost] = levels[0].costs;
  const plain =
    model.choices.length + model.openings.length + model.exclusions.length === 0 &&
    levels.length === 1 &&
    cost.kind === 'late' &&
    resources.every((r) => r.capacity.length === 2 && r.tasks.every((task) => task.from === task.to));
  if (!plain || cost.kind !== 'late') throw new Error('peerText: the model is not a plain one');
  const list = (values: readonly (number | string)[]): string => `[${values.join(', ')}]`;
  return [
    'include "cumulative.mzn";',
    ...starts.map(({ earliest, latest }, s) => `var ${earliest}..${latest}: s${s};`),
    ...lags.map(
      ({ from, to, kind, map }) =>
        `constraint s${to} - s${from} ${kind === 'least' ? '>=' : '<='} ${gapOf(map)};`,
    ),
    ...resources
      .filter(({ tasks }) => tasks.length > 0)
      .map(
        ({ tasks, capacity }) =>
          `constraint cumulative(${list(tasks.map(({ from }) => `s${from}`))}, ` +
          `${list(tasks.map(({ until }) => gapOf(until)))}, ${list(tasks.map(({ amount }) => amount))}, ${capacity[1]});`,
      ),
    `array[1..${starts.length}] of var int: starts :: output = ${list(starts.map((_, s) => `s${s}`))};`,
    `solve minimize s${cost.start};`,
    '',
  ].join('\n');
}
