/**
 * Why a model has no solution: a small set of reasons that cannot hold together. Every part that has a reason is put under a choice of its own;
 * assuming all those choices fails, the failure names some of them, and each of these is then left out in turn to see whether
 * the rest still fails (deletion, as in Bakker et al. 1993; Liffiton and Sakallah 2008).
 */
import { Kernel } from './kernel.ts';
import { yes, no, type Literal, type Model, type ReasonIndex, type Task } from './model.ts';
import { Search } from './search.ts';

/** The model in which reason r binds only while choice `model.choices.length + r` is true. */
function underReasons(model: Model): Model {
  const first = model.choices.length;
  const under = (
    when: readonly Literal[] | undefined,
    reason: ReasonIndex | undefined,
  ): readonly Literal[] | undefined => (reason === undefined ? when : [...(when ?? []), yes(first + reason)]);
  const task = (each: Task): Task => ({ ...each, when: under(each.when, each.reason) });
  const earliest = Math.min(...model.starts.map((start) => start.earliest));
  const latest = Math.max(...model.starts.map((start) => Math.max(start.latest, start.earliest)));
  return {
    ...model,
    starts: model.starts.map((start) =>
      start.reason === undefined ? start : { ...start, earliest, latest },
    ),
    choices: [...model.choices, ...Array.from({ length: model.reasons }, (_, r) => `reason ${r}`)],
    lags: model.lags.map((lag) => ({ ...lag, when: under(lag.when, lag.reason) })),
    openings: [
      ...model.openings.map((opening) => ({ ...opening, when: under(opening.when, opening.reason) })),
      ...model.starts.flatMap((start, s) =>
        start.reason === undefined
          ? []
          : [
              {
                start: s,
                allowed: Int32Array.of(start.earliest, start.latest + 1),
                when: [yes(first + start.reason)],
              },
            ],
      ),
    ],
    clauses: model.clauses.map((clause) =>
      clause.reason === undefined ? clause : { literals: [...clause.literals, no(first + clause.reason)] },
    ),
    resources: model.resources.map((resource) => ({ ...resource, tasks: resource.tasks.map(task) })),
    exclusions: model.exclusions.map((exclusion) => ({
      ...exclusion,
      one: exclusion.one.map(task),
      other: exclusion.other.map(task),
    })),
    levels: [],
  };
}

/**
 * A set of reasons that cannot hold together: 1-minimal when `work` was enough, otherwise all that could not be shown to be
 * needless. Empty when the parts without a reason already contradict each other.
 */
export function findClash(
  model: Model,
  seed: number,
  work: number,
  stop: () => boolean,
): { clash: ReasonIndex[]; work: number } {
  const all = Array.from({ length: model.reasons }, (_, r) => r);
  if (model.reasons === 0) return { clash: [], work: 0 };
  const kernel = new Kernel(underReasons(model));
  const search = new Search(kernel, seed, stop);
  const { trail } = kernel;
  const first = model.choices.length;
  /** The reasons that failed among those assumed; null when they hold together, undefined when that stayed open. */
  const failing = (assumed: readonly ReasonIndex[], limit: number): ReasonIndex[] | null | undefined => {
    const hard = assumed.map((r) => kernel.atom(yes(first + r)));
    for (search.dive = true; ; search.dive = !search.dive) {
      const verdict = search.run(hard, [], { work: limit, conflicts: 1000 });
      if (verdict === 'contradiction') return [];
      if (verdict === 'solution') return null;
      if (verdict === 'refuted')
        return [...new Set(search.core(hard).map(([view]) => (view >> 1) - kernel.startCount - first))].sort(
          (a, b) => a - b,
        );
      if (verdict === 'stopped' || trail.work >= limit) return undefined;
    }
  };
  const start = failing(all, work);
  if (start === null) throw new Error('findClash: the model has a solution');
  let clash = start ?? all;
  if (start !== undefined) {
    const share = Math.max(5000, (work - trail.work) / (clash.length + 1));
    const needed = new Set<ReasonIndex>();
    for (;;) {
      const candidate = clash.find((r) => !needed.has(r));
      if (candidate === undefined || trail.work >= work) break;
      const smaller = failing(
        clash.filter((r) => r !== candidate),
        Math.min(work, trail.work + share),
      );
      if (smaller === null || smaller === undefined) needed.add(candidate);
      else clash = smaller;
    }
  }
  return { clash, work: trail.work };
}
