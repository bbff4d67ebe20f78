/**
 * A project in the sense of the textbooks: activities of fixed length joined by constant lags, that use renewable resources, and one last
 * start to be early. Models of this form need no propagation to be scheduled: lists of arcs and profiles are enough.
 */
import { isConstant } from './maps.ts';
import { NEVER, type Model } from './model.ts';

/** Lists in one array: those of item i are `item[start[i]] .. item[start[i + 1] - 1]`. */
export interface Arcs {
  readonly start: Int32Array;
  readonly to: Int32Array;
  /** `s_to >= s_from + gap`. */
  readonly gap: Int32Array;
}

export interface Project {
  readonly n: number;
  /** How long each activity runs; 0 for events. */
  readonly length: Int32Array;
  readonly arcs: Arcs;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  readonly useStart: Int32Array;
  readonly useOf: Int32Array;
  readonly useAmount: Int32Array;
  /** For each resource `[time0, capacity0, time1, capacity1, ...]`. */
  readonly capacity: readonly Int32Array[];
  /** The start to be early: its lateness after `due` is the objective. */
  readonly end: number;
  readonly due: number;
}

/** The model as a project, or null when it is not of that form. */
export function asProject(model: Model): Project | null {
  const { starts, lags, resources, levels } = model;
  if (model.choices.length + model.openings.length + model.clauses.length + model.exclusions.length > 0)
    return null;
  if (levels.length !== 1 || levels[0].costs.length !== 1) return null;
  const [cost] = levels[0].costs;
  if (cost.kind !== 'late') return null;
  const n = starts.length;
  const from: number[] = [];
  const to: number[] = [];
  const gap: number[] = [];
  for (const lag of lags) {
    if (!isConstant(lag.map) || (lag.when !== undefined && lag.when.length > 0)) return null;
    const least = lag.kind === 'least';
    from.push(least ? lag.from : lag.to);
    to.push(least ? lag.to : lag.from);
    gap.push(least ? lag.map.gap : -lag.map.gap);
  }
  const length = new Int32Array(n);
  const uses: [number, number][][] = starts.map(() => []);
  for (const [r, { tasks }] of resources.entries())
    for (const task of tasks) {
      if (
        task.from !== task.to ||
        !isConstant(task.until) ||
        (task.when !== undefined && task.when.length > 0)
      )
        return null;
      const known = length[task.from];
      if (task.until.gap <= 0 || (known > 0 && known !== task.until.gap)) return null;
      length[task.from] = task.until.gap;
      if (task.amount > 0) uses[task.from].push([r, task.amount]);
    }
  const useStart = new Int32Array(n + 1);
  uses.forEach((list, i) => (useStart[i + 1] = useStart[i] + list.length));
  const flat = uses.flat();
  return {
    n,
    length,
    arcs: listArcs(n, from, to, gap),
    earliest: Int32Array.from(starts, (start) => start.earliest),
    latest: Int32Array.from(starts, (start) => start.latest),
    useStart,
    useOf: Int32Array.from(flat, ([r]) => r),
    useAmount: Int32Array.from(flat, ([, amount]) => amount),
    capacity: resources.map((resource) => resource.capacity),
    end: cost.start,
    due: cost.after,
  };
}

export function listArcs(
  n: number,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  gap: ArrayLike<number>,
): Arcs {
  const start = new Int32Array(n + 1);
  for (let k = 0; k < from.length; k++) start[from[k] + 1]++;
  for (let i = 0; i < n; i++) start[i + 1] += start[i];
  const fill = start.slice();
  const arcs = { start, to: new Int32Array(from.length), gap: new Int32Array(from.length) };
  for (let k = 0; k < from.length; k++) {
    const at = fill[from[k]]++;
    arcs.to[at] = to[k];
    arcs.gap[at] = gap[k];
  }
  return arcs;
}

/** Time runs backwards: an activity that ends at e begins at `-e`. */
export function mirroredArcs({ n, length, arcs }: Project): Arcs {
  const from = new Int32Array(arcs.to.length);
  const gap = new Int32Array(arcs.to.length);
  for (let i = 0; i < n; i++)
    for (let k = arcs.start[i]; k < arcs.start[i + 1]; k++) {
      from[k] = i;
      gap[k] = arcs.gap[k] + length[arcs.to[k]] - length[i];
    }
  return listArcs(n, arcs.to, from, gap);
}

/** The opposite arcs, for bounds from above: `-s_from >= -s_to + gap`. */
export function opposedArcs(n: number, arcs: Arcs): Arcs {
  const from = new Int32Array(arcs.to.length);
  for (let i = 0; i < n; i++) from.fill(i, arcs.start[i], arcs.start[i + 1]);
  return listArcs(n, arcs.to, from, arcs.gap);
}

/**
 * Raises `least` to the least values that keep all arcs: longest paths. What is at -NEVER stays there until a path reaches it.
 * @returns false when some value would pass `most`, as on a circle that gains.
 */
export function raiseAlong(arcs: Arcs, least: Int32Array, most: number): boolean {
  const n = least.length;
  const waiting = new Uint8Array(n);
  const queue: number[] = [];
  for (let i = 0; i < n; i++)
    if (least[i] > -NEVER) {
      queue.push(i);
      waiting[i] = 1;
    }
  for (let q = 0; q < queue.length; q++) {
    const i = queue[q];
    waiting[i] = 0;
    for (let k = arcs.start[i]; k < arcs.start[i + 1]; k++) {
      const j = arcs.to[k];
      const value = least[i] + arcs.gap[k];
      if (value <= least[j]) continue;
      if (value > most) return false;
      least[j] = value;
      if (waiting[j] === 1) continue;
      waiting[j] = 1;
      queue.push(j);
    }
  }
  return true;
}
