/**
 * Orders: two tasks that cannot run at once on a resource get a variable, true when the first ends before the second begins. Orders that the
 * lags already decide are found by a closure (longest paths over the least gains of the lags) and need no variable.
 */
import { Spans, type Clique } from './cliques.ts';
import { closure, Gains, NO_PATH } from './closure.ts';
import type { Conditions } from './conditions.ts';
import { isConstant } from './maps.ts';
import type { Model, MonotoneMap, Task, Time } from './model.ts';

export interface OrderTask {
  readonly task: Task;
  readonly condition: number;
}

/** `to >= map(from)` between variables, while both tasks run. */
export interface OrderLag {
  readonly from: number;
  readonly to: number;
  readonly map: MonotoneMap;
  readonly condition: number;
  /** The view that has the greater of its two values while the lag binds; -1 where the order is decided. */
  readonly order: number;
}

export interface Orders {
  readonly count: number;
  /** Once every order and choice is decided, no two tasks of a resource can be in each other's way. */
  readonly isComplete: boolean;
  /** The resources whose tasks are all there and all ordered in pairs: the orders then say all that the time-table would. */
  readonly settled: readonly boolean[];
  readonly lags: readonly OrderLag[];
  /** For each order: the tasks' first starts. */
  readonly pairs: readonly (readonly [number, number])[];
  /** For each resource and each of its tasks: the least time it surely takes once it runs; 0 where that is not known. */
  readonly lengths: readonly Int32Array[];
  readonly cliques: readonly Clique[];
}

/** More pairs than this are left to the time-table. */
const MOST_PAIRS = 60_000;
/** Above this many starts the cubic closure does not pay. */
const MOST_CLOSED = 700;

export function deriveOrders(
  model: Model,
  resources: readonly (readonly OrderTask[])[],
  conditions: Conditions,
  least: readonly number[],
  greatest: readonly number[],
  firstVariable: number,
): Orders {
  const gains = new Gains(least, greatest);
  const n = model.starts.length;
  const closed = n <= MOST_CLOSED;
  const path = closed ? closure(model, gains, n) : null;
  const distance = (from: number, to: number): Time =>
    from === to ? 0 : path === null ? NO_PATH : path[from * n + to];
  const lags: OrderLag[] = [];
  const lengths: Int32Array[] = [];
  /** Of each pair that is ordered whatever is chosen, how long after either the other begins: on another resource it may take longer. */
  const ordered = new Map<number, readonly [Time, Time]>();
  const pairs: [number, number][] = [];
  let isComplete = true;
  const settled: boolean[] = [];
  const spans = new Spans(n, closed);
  /** Can task a end before task b begins, as far as lags and windows tell? */
  const possible = (a: Task, gain: Time, b: Task): boolean => {
    const back = distance(b.from, a.to);
    return (back === NO_PATH || back + gain <= 0) && least[a.to] + gain <= greatest[b.from];
  };
  resources.forEach((tasks, r) => {
    const capacity = model.resources[r].capacity;
    let isSettled = true;
    let most = 0;
    for (let k = 1; k < capacity.length; k += 2) most = Math.max(most, capacity[k]);
    if (capacity.length > 2 && tasks.length > 0) isSettled = false;
    const gain = tasks.map(({ task }) => gains.of(task.until));
    const solid = tasks.map(({ task }, k) => {
      const inside = distance(task.from, task.to);
      return inside !== NO_PATH && gain[k] > NO_PATH && inside + gain[k] > 0;
    });
    const plain = tasks.map(({ task }) => isPlain(task));
    const length = new Int32Array(tasks.length);
    tasks.forEach(({ task }, k) => (length[k] = solid[k] ? distance(task.from, task.to) + gain[k] : 0));
    lengths.push(length);
    for (let i = 0; i < tasks.length; i++) {
      if (!solid[i] || tasks[i].task.amount > most) isSettled = false;
      if (!solid[i]) continue;
      const a = tasks[i].task;
      if (tasks[i].condition === 0 && plain[i]) spans.add(a.from, gain[i]);
      for (let j = i + 1; j < tasks.length; j++) {
        const b = tasks[j].task;
        if (!solid[j] || a.amount + b.amount <= most) {
          isSettled = false;
          continue;
        }
        const both = bothConditions(conditions, tasks[i].condition, tasks[j].condition);
        if (isContradiction(both)) continue;
        if (a.from === b.from && a.to === b.to) {
          isSettled = false;
          continue;
        }
        const arePlain = plain[i] && plain[j];
        if (arePlain && both.length === 0) {
          spans.keepApart(a.from, b.from, most === 1);
          const key = a.from * n + b.from;
          const known = ordered.get(key);
          if (known !== undefined && known[0] >= gain[i] && known[1] >= gain[j]) continue;
          ordered.set(key, [gain[i], gain[j]]);
        }
        const first = possible(a, gain[i], b);
        const second = possible(b, gain[j], a);
        if (first && second) {
          if (pairs.length >= MOST_PAIRS) {
            isSettled = false;
            continue;
          }
          const order = 2 * (firstVariable + pairs.push([a.from, b.from]) - 1);
          const condition = conditions.add(both);
          lags.push({ from: a.to, to: b.from, map: a.until, condition, order });
          lags.push({ from: b.to, to: a.from, map: b.until, condition, order: order + 1 });
        } else {
          const condition = conditions.add(both);
          // What the lags say already needs no saying; a contradiction must stay.
          const known = arePlain && first !== second;
          if (!second && !(known && distance(a.to, b.from) >= gain[i]))
            lags.push({ from: a.to, to: b.from, map: a.until, condition, order: -1 });
          if (!first && !(known && distance(b.to, a.from) >= gain[j]))
            lags.push({ from: b.to, to: a.from, map: b.until, condition, order: -1 });
        }
      }
    }
    isComplete &&= isSettled;
    settled.push(isSettled && tasks.every(({ condition }) => condition === 0));
  });
  return {
    count: pairs.length,
    isComplete,
    settled,
    lags,
    pairs,
    lengths,
    cliques: spans.cliques(distance),
  };
}

/** Does the task run from one start for a fixed time? */
export const isPlain = (task: Task): boolean => task.from === task.to && isConstant(task.until);

const NONE: readonly [number, number][] = [];

const isContradiction = (atoms: readonly (readonly [number, number])[]): boolean =>
  atoms.length > 1 && atoms.some(([w, v]) => atoms.some(([x, y]) => x === (w ^ 1) && y === 1 - v));

const bothConditions = (conditions: Conditions, a: number, b: number): readonly [number, number][] =>
  a === 0 && b === 0 ? NONE : [...conditions.atoms(a), ...conditions.atoms(b)];
