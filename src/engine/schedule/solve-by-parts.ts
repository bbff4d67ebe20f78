/**
 * The solver's two sides together: a plan is built and bettered part by part, which is quick and takes big steps; then the exact search
 * takes it as its hint, betters it further and closes the bounds. Each has a share of the budget; a share too small for the exact search goes to the parts.
 */
import type { ByParts } from './best-by-parts.ts';
import { compare } from './compare-levels.ts';
import { PartSearch, type Beside } from './improve-by-parts.ts';
import { hintsOf, type LevelOutcome, type Model, type Outcome, type SolveOptions } from './model.ts';
import { PartBounds } from './part-bounds.ts';
import { partsOf } from './parts.ts';

/** The share of the budget for the search by parts, while it finds something; and when the last level alone is open, where that finds most. */
const SHARE = 0.5;
const SHARE_OF_LAST = 0.9;
/** The share of the work that goes into bounds, as far as they can be raised. */
const BOUNDING = 1 / 3;
/** A model of one part is searched by parts only when it is small. */
const LARGEST_ALONE = 100;

/**
 * @param exact the exact search; it is given what is left of the budget, and the plan found so far as hint
 */
export function solveByParts(
  model: Model,
  options: SolveOptions,
  exact: (model: Model, options: SolveOptions) => Outcome,
): Outcome {
  const parts = partsOf(model);
  const isWorthIt = parts.length > 1 || (model.openings.length > 0 && model.starts.length <= LARGEST_ALONE);
  if (!isWorthIt) return exact(model, options);
  const search = new PartSearch(model, options.seed, parts);
  const bounds = new PartBounds(model, parts, search.alone);
  const levelsOf = ({ values }: ByParts): LevelOutcome[] => {
    const least = bounds.of(values);
    return model.levels.map(({ name }, k) => ({
      name,
      value: values[k],
      bound: least[k],
      proven: least[k] >= values[k],
    }));
  };
  const report = (found: ByParts): void => {
    if (search.isHeldBack(found)) return;
    options.progress?.({ work: search.work, best: found.assignment, levels: levelsOf(found) });
  };
  const stop = options.stop ?? (() => false);
  let told: ByParts | null = null;
  const tell = (found: ByParts): void => report((told = found));
  if (!search.construct(hintsOf(options), tell)) return exact(model, options);
  if (told !== search.found) report(search.found!);
  const { budget } = options;
  // Reading the model alone takes the exact search about a quarter of so many steps: with fewer it finds nothing.
  const leastExact = model.starts.length ** 2;
  const partsUntil = (share: number): number => (budget * (1 - share) < leastExact ? budget : budget * share);
  const beside: Beside = {
    stop,
    boundsOf: (values) => bounds.of(values),
    better: report,
    rest: (best) => {
      const before = bounds.work;
      bounds.raise(best.assignment, best.values, before + search.work * BOUNDING, stop);
      report(best);
      return bounds.work - before;
    },
  };
  search.improve(partsUntil(SHARE), beside, partsUntil(SHARE_OF_LAST));

  const found = search.found!;
  const levels = levelsOf(found);
  const alone: Outcome = {
    status: levels.every(({ proven }) => proven) ? 'optimal' : 'feasible',
    best: found.assignment,
    levels,
    work: search.work,
  };
  const left = budget - search.work;
  if (alone.status === 'optimal' || left < leastExact || stop()) return alone;
  const outcome = exact(model, {
    ...options,
    budget: left,
    hint: found.assignment,
    others: [],
    progress:
      options.progress &&
      ((progress) => {
        const values = progress.levels.map(({ value }) => value);
        if (progress.best !== null && compare(values, found.values) <= 0)
          options.progress?.({
            ...progress,
            work: progress.work + search.work,
            levels: tighter(progress.levels, bounds.of(values)),
          });
      }),
  });
  if (outcome.status === 'infeasible') return outcome;
  const work = search.work + outcome.work;
  if (outcome.status === 'unknown') return { ...alone, work };
  const values = outcome.levels.map(({ value }) => value);
  if (compare(values, found.values) > 0) return { ...alone, work };
  const closed = tighter(outcome.levels, bounds.of(values));
  return {
    ...outcome,
    status: closed.every(({ proven }) => proven) ? 'optimal' : 'feasible',
    levels: closed,
    work,
  };
}

/** With bounds from elsewhere. */
const tighter = (levels: readonly LevelOutcome[], bounds: readonly number[]): LevelOutcome[] =>
  levels.map((level, k) => ({
    ...level,
    bound: Math.max(level.bound, Math.min(bounds[k], level.value)),
    proven: level.proven || bounds[k] >= level.value,
  }));
