/**
 * Large neighbourhoods: a window of time is freed, and outside it the best solution's orders and choices are kept, as decisions and not as times
 * (Laborie and Godard 2007; Cesta, Oddi, Smith 2002).
 */
import type { Kernel } from './kernel.ts';
import type { Assignment } from './model.ts';
import type { Atoms, Search } from './search.ts';

/** What hangs together: each choice with the starts that it bears on. */
export class Neighbours {
  readonly startsOfChoice: readonly (readonly number[])[];

  constructor(readonly kernel: Kernel) {
    const sets = Array.from({ length: kernel.choiceCount }, () => new Set<number>());
    const { model } = kernel;
    const note = (when: readonly number[] | undefined, ...starts: number[]): void => {
      for (const literal of when ?? []) for (const start of starts) sets[literal >> 1].add(start);
    };
    for (const lag of model.lags) note(lag.when, lag.from, lag.to);
    for (const opening of model.openings) note(opening.when, opening.start);
    const tasks = [
      ...model.resources.flatMap((resource) => resource.tasks),
      ...model.exclusions.flatMap((exclusion) => [...exclusion.one, ...exclusion.other]),
    ];
    for (const task of tasks) note(task.when, task.from, task.to);
    this.startsOfChoice = sets.map((set) => [...set]);
  }
}

/**
 * The orders and choices of `best` outside a random window. With `shift` > 0, instead of orders: what comes before the window is kept no later
 * than it was, and what comes after it must be earlier by `shift`, as in a schedule that is shorter by so much.
 */
export function chooseNeighbourhood(
  neighbours: Neighbours,
  search: Search,
  best: Assignment,
  shift: number,
): Atoms {
  const { kernel } = neighbours;
  const n = kernel.startCount;
  const order = Array.from({ length: n }, (_, s) => s).sort(
    (a, b) => best.starts[a] - best.starts[b] || a - b,
  );
  const size = Math.max(2, Math.floor(n * (0.1 + 0.3 * search.chance.next())));
  const at = Math.floor(search.chance.next() * Math.max(1, n - size));
  const free = new Uint8Array(n);
  for (let k = at; k < Math.min(n, at + size); k++) free[order[k]] = 1;
  const atoms: [number, number][] = [];
  neighbours.startsOfChoice.forEach((starts, c) => {
    if (starts.length === 0 || starts.some((s) => free[s] === 1)) return;
    const x = n + c;
    atoms.push(best.choices[c] ? [2 * x, 1] : [2 * x + 1, 0]);
  });
  if (shift > 0) {
    const last = best.starts[order[Math.min(n, at + size) - 1]];
    for (const s of order) {
      if (free[s] === 1) continue;
      const start = best.starts[s];
      atoms.push([2 * s + 1, (start >= last ? shift : 0) - start]);
    }
    return atoms;
  }
  kernel.orders.pairs.forEach(([a, b], k) => {
    if (free[a] === 1 || free[b] === 1) return;
    const x = kernel.firstOrder + k;
    if (search.hasPhase[x] === 0) return;
    atoms.push(search.phase[x] === 1 ? [2 * x, 1] : [2 * x + 1, 0]);
  });
  return atoms;
}
