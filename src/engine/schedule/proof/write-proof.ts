/**
 * Writes down why an answer of the exact search holds: the orders it branches on, every conclusion from energy that it used, every clause that it
 * learned, the best schedule, and the bounds of the objective under which nothing is left. `checkProof` reads it back.
 */
import { Energy } from '../energy.ts';
import { OneAtATime } from '../one-at-a-time.ts';
import type { Kernel } from '../kernel.ts';
import { requireSound } from '../model-faults.ts';
import type { MonotoneMap, Model, Outcome, SolveOptions, Task } from '../model.ts';
import type { Watcher } from '../search.ts';
import { solveWatched } from '../solve.ts';
import type { Because } from '../trail.ts';
import { HEADING, writeAtom } from './lines.ts';

export interface Proved {
  readonly outcome: Outcome;
  /** The proof, a step a line; what it shows is for `checkProof` to say. */
  readonly lines: readonly string[];
}

/**
 * `solve` by the exact search alone, with a proof of whatever it has shown when it ends.
 * @throws RangeError as `solve` does
 */
export function solveWithProof(model: Model, options: SolveOptions): Proved {
  requireSound(model, options);
  const writer = new Writer(model);
  const outcome = solveWatched(model, options, writer);
  if (outcome.status === 'infeasible') writer.lines.push('empty');
  else if (outcome.status !== 'unknown') {
    const { best, levels } = outcome;
    writer.lines.push(`best ${best.starts.join(' ')} | ${best.choices.map(Number).join(' ')}`.trim());
    levels.forEach(({ bound }, k) => {
      const assumed = levels.slice(0, k).map(({ value }, j) => writeAtom(`t${j}`, false, value));
      writer.lines.push(['empty', ...assumed, writeAtom(`t${k}`, false, bound - 1)].join(' '));
    });
  }
  return { outcome, lines: writer.lines };
}

class Writer implements Watcher {
  readonly lines: string[] = [HEADING];
  private names: string[] = [];
  private readonly told = new Set<string>();

  constructor(private readonly model: Model) {}

  compiled(kernel: Kernel): void {
    this.names = namesOf(this.model, kernel);
    this.lines.push(...orderLines(this.model, kernel));
    for (const { starts, lengths } of kernel.orders.cliques)
      this.lines.push(`clique ${starts.map((start, k) => `${start} ${lengths[k]}`).join(' ')}`);
    const { trail } = kernel;
    const { explainers } = trail;
    explainers.forEach((explainer, k) => {
      if (!(explainer instanceof Energy || explainer instanceof OneAtATime)) return;
      explainers[k] = {
        explain: (view, value, before, ref, because) => {
          const from = because.size;
          explainer.explain(view, value, before, ref, because);
          const [a, b] = explainer.windowOf(ref);
          const rest = Array.from({ length: because.size - from }, (_, i) => from + i);
          const clause = rest.map((i) => this.atom(because.views[i] ^ 1, 1 - because.values[i]));
          // One more than a variable can be is the same as anything beyond.
          const most = -trail.boundBefore(view ^ 1, before);
          clause.push(this.atom(view, Math.min(value, most + 1)));
          this.tell(`window ${a} ${b} ${clause.join(' ')}`);
        },
      };
    });
  }

  /** The rules of the other kinds are propagated by the checker itself. */
  explained(): void {}

  learned(clause: Because): void {
    this.lines.push(
      [
        'clause',
        ...Array.from({ length: clause.size }, (_, i) => this.atom(clause.views[i], clause.values[i])),
      ].join(' '),
    );
  }

  private tell(line: string): void {
    if (this.told.has(line)) return;
    this.told.add(line);
    this.lines.push(line);
  }

  private atom(view: number, value: number): string {
    return view % 2 === 0
      ? writeAtom(this.names[view >> 1], true, value)
      : writeAtom(this.names[view >> 1], false, -value);
  }
}

/** The proof's name of each of the search's variables. */
function namesOf(model: Model, kernel: Kernel): string[] {
  const names = [
    ...model.starts.map((_, s) => `s${s}`),
    ...model.choices.map((_, c) => `c${c}`),
    ...model.levels.map((_, k) => `t${k}`),
  ];
  model.levels.forEach((level, k) =>
    level.costs.forEach((cost, c) =>
      kernel.markers.get(cost)?.forEach((marker, b) => {
        if (marker >= 0) names[marker] = `m${k}.${c}.${b}`;
      }),
    ),
  );
  for (let k = 0; k < kernel.orders.count; k++) names[kernel.firstOrder + k] = `o${k}`;
  if (names.length !== kernel.variableCount || !names.every((name) => name !== undefined))
    throw new Error('solveWithProof: the search has variables that a proof has no names for');
  return names;
}

/** A line for each order that the search branches on, or that the lags decide. */
function orderLines(model: Model, kernel: Kernel): string[] {
  const places = new Map<
    string,
    { readonly resource: number; readonly one: number; readonly other: number }[]
  >();
  const ids = new Map<MonotoneMap, number>();
  const idOf = (map: MonotoneMap): number => {
    let id = ids.get(map);
    if (id === undefined) ids.set(map, (id = ids.size));
    return id;
  };
  const conditions = (...tasks: readonly Task[]): string =>
    [...new Set(tasks.flatMap(({ when }) => (when ?? []).map((literal) => kernel.atom(literal).join(' '))))]
      .sort()
      .join(' & ');
  const key = (from: number, map: MonotoneMap, to: number, when: string): string =>
    `${from} ${idOf(map)} ${to} ${when}`;
  model.resources.forEach(({ tasks, capacity }, resource) => {
    const most = capacity.reduce((top, amount, k) => (k % 2 === 1 ? Math.max(top, amount) : top), 0);
    // The search leaves out tasks of amount 0; of the others it orders those that surely run a while.
    const lengths = kernel.orders.lengths[resource] ?? [];
    const solid = new Set(tasks.filter(({ amount }) => amount > 0).filter((_, k) => lengths[k] > 0));
    tasks.forEach((a, one) =>
      tasks.forEach((b, other) => {
        if (one === other || a.amount + b.amount <= most || !solid.has(a) || !solid.has(b)) return;
        const at = key(a.to, a.until, b.from, conditions(a, b));
        const list = places.get(at);
        if (list === undefined) places.set(at, [{ resource, one, other }]);
        else list.push({ resource, one, other });
      }),
    );
  });
  const lines: string[] = [];
  const isNamed = new Set<number>();
  const pairKeys = new Map<number, readonly [string, string]>();
  const decided: string[] = [];
  for (const lag of kernel.orders.lags) {
    const when = kernel.conditions
      .atoms(lag.condition)
      .map((atom) => atom.join(' '))
      .sort()
      .join(' & ');
    const at = key(lag.from, lag.map, lag.to, when);
    if (lag.order < 0) decided.push(at);
    else {
      const variable = lag.order >> 1;
      const [first, second] = pairKeys.get(variable) ?? ['', ''];
      pairKeys.set(variable, lag.order % 2 === 0 ? [at, second] : [first, at]);
    }
  }
  for (const [variable, [forward, back]] of pairKeys) {
    const backs = places.get(back) ?? [];
    const found = (places.get(forward) ?? []).find(({ resource, one, other }) =>
      backs.some((place) => place.resource === resource && place.one === other && place.other === one),
    );
    if (found === undefined || isNamed.has(variable))
      throw new Error('solveWithProof: an order that belongs to no two tasks');
    isNamed.add(variable);
    lines.push(`order o${variable - kernel.firstOrder} ${found.resource} ${found.one} ${found.other}`);
  }
  for (const at of decided) {
    const found = places.get(at)?.[0];
    if (found === undefined) throw new Error('solveWithProof: an order that belongs to no two tasks');
    lines.push(`after ${found.resource} ${found.one} ${found.other}`);
  }
  return lines;
}
