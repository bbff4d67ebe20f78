/**
 * An independent judge of explanations and learned clauses on tiny models: each must follow from the rules alone. It lists every assignment that keeps
 * the rules (by `verify`), and for each asks whether the solver's own variables could complete it against the claim.
 */
import type { Kernel } from '../../../src/engine/schedule/kernel.ts';
import { verify, type Assignment, type Cost, type Model } from '../../../src/engine/schedule/index.ts';
import type { Watcher } from '../../../src/engine/schedule/search.ts';

interface Atom {
  readonly view: number;
  readonly value: number;
}

/** Every assignment that keeps the rules; only for tiny models. */
export function allSolutions(model: Model): Assignment[] {
  const found: Assignment[] = [];
  if (model.starts.some((start) => start.earliest > start.latest)) return found;
  const starts = model.starts.map((start) => start.earliest);
  for (;;) {
    for (let mask = 0; mask < 1 << model.choices.length; mask++) {
      const choices = model.choices.map((_, k) => ((mask >> k) & 1) === 1);
      if (verify(model, { starts, choices }).length === 0) found.push({ starts: [...starts], choices });
    }
    let k = 0;
    while (k < starts.length && starts[k] === model.starts[k].latest) starts[k] = model.starts[k++].earliest;
    if (k === starts.length) return found;
    starts[k]++;
  }
}

/** Counts what it has judged; throws on the first claim that does not follow. */
export class Judge implements Watcher {
  explanations = 0;
  clauses = 0;
  private kernel: Kernel | null = null;
  private readonly solutions: readonly Assignment[];

  constructor(private readonly model: Model) {
    this.solutions = allSolutions(model);
  }

  compiled(kernel: Kernel): void {
    this.kernel = kernel;
  }

  explained(
    view: number,
    value: number,
    because: { views: Int32Array; values: Int32Array; size: number },
  ): void {
    this.explanations++;
    this.refute(
      [...atomsOf(because), { view: view ^ 1, value: 1 - value }],
      `explanation of ${view} >= ${value}`,
    );
  }

  learned(clause: { views: Int32Array; values: Int32Array; size: number }): void {
    this.clauses++;
    this.refute(
      atomsOf(clause).map(({ view, value }) => ({ view: view ^ 1, value: 1 - value })),
      'learned clause',
    );
  }

  private refute(claim: readonly Atom[], what: string): void {
    for (const solution of this.solutions)
      if (this.completes(solution, claim))
        throw new Error(`${what}: ${JSON.stringify(claim)} holds for ${JSON.stringify(solution)}`);
  }

  /** Can the solver's own variables take values that fit the solution and all atoms? */
  private completes(solution: Assignment, claim: readonly Atom[]): boolean {
    const kernel = this.kernel!;
    const given = new Map<number, number>();
    solution.starts.forEach((at, s) => given.set(s, at));
    solution.choices.forEach((choice, c) => given.set(kernel.startCount + c, choice ? 1 : 0));
    const least = (x: number): number =>
      Math.max(...claim.filter((atom) => atom.view === 2 * x).map((atom) => atom.value), -Infinity);
    const most = (x: number): number =>
      Math.min(...claim.filter((atom) => atom.view === 2 * x + 1).map((atom) => -atom.value), Infinity);
    for (const [x, value] of given) if (value < least(x) || value > most(x)) return false;
    const settle = (x: number, from: number, to: number): boolean => {
      const value = Math.max(from, least(x));
      given.set(x, value);
      return value <= Math.min(to, most(x));
    };
    const used = new Map<Cost, Set<number>>();
    for (const cost of kernel.markers.keys())
      if (cost.kind === 'buckets') used.set(cost, bucketsUsed(cost, solution));
    for (const [cost, marker] of kernel.markers)
      for (let k = 0; k < marker.length; k++)
        if (marker[k] >= 0 && !settle(marker[k], used.get(cost)!.has(k) ? 1 : 0, 1)) return false;
    const truth = ([view, value]: readonly [number, number]): boolean =>
      ((view & 1) === 0 ? given.get(view >> 1)! : -given.get(view >> 1)!) >= value;
    for (let k = 0; k < kernel.orders.count; k++) {
      const x = kernel.firstOrder + k;
      const fits = [0, 1].some((value) => {
        if (value < least(x) || value > most(x)) return false;
        given.set(x, value);
        return kernel.orders.lags.every((lag) => {
          const isDecided = lag.order >> 1 === x && truth([lag.order, 1 - (lag.order & 1)]);
          if (!isDecided || !kernel.conditions.atoms(lag.condition).every(truth)) return true;
          return solution.starts[lag.to] >= lag.map.at(solution.starts[lag.from]);
        });
      });
      if (!fits) return false;
    }
    return this.model.levels.every((level, k) =>
      settle(
        kernel.totals[k],
        level.costs.reduce((sum, cost) => sum + this.costOf(cost, solution, given), 0),
        Infinity,
      ),
    );
  }

  private costOf(cost: Cost, { starts, choices }: Assignment, given: ReadonlyMap<number, number>): number {
    if (cost.kind === 'late') return cost.weight * Math.max(0, starts[cost.start] - cost.after);
    if (cost.kind === 'early') return cost.weight * Math.max(0, cost.before - starts[cost.start]);
    if (cost.kind === 'choice') return choices[cost.when >> 1] === ((cost.when & 1) === 0) ? cost.weight : 0;
    const marker = this.kernel!.markers.get(cost)!;
    return cost.weight * marker.reduce((sum, x) => sum + (x >= 0 ? given.get(x)! : 0), 0);
  }
}

function atomsOf(list: { views: Int32Array; values: Int32Array; size: number }): Atom[] {
  return Array.from({ length: list.size }, (_, k) => ({ view: list.views[k], value: list.values[k] }));
}

function bucketsUsed(cost: Cost & { kind: 'buckets' }, { starts, choices }: Assignment): Set<number> {
  const used = new Set<number>();
  cost.starts.forEach((start, i) => {
    const when = cost.when?.[i] ?? [];
    if (!when.every((literal) => choices[literal >> 1] === ((literal & 1) === 0))) return;
    for (let k = 0; k + 1 < cost.edges.length; k++)
      if (cost.edges[k] <= starts[start] && starts[start] < cost.edges[k + 1]) used.add(k);
  });
  return used;
}
