/**
 * Recognises machine problems: starts joined by constant least lags, tasks of known length that share nothing but machines (one task at a time),
 * perhaps a choice of machine a start, and the end of it all as the first objective. Job shops and flexible job shops are such; what this finds
 * is the graph that `critical-path-search.ts` works on.
 */
import { isConstant } from './maps.ts';
import type { Model, Task } from './model.ts';

/**
 * Nodes are the model's starts. A *mode* is a way to do a node: on a machine for a length, or on none (-1) at no length; those of node u are
 * numbered `modeStart[u]` to `modeStart[u + 1]`. An *arc* is a lag, whose gap may depend on the mode of its source.
 */
export interface MachineProblem {
  readonly nodes: number;
  readonly machines: number;
  /** The node whose time is to be least. */
  readonly end: number;
  readonly earliest: Int32Array;
  readonly modeStart: Int32Array;
  readonly machineOf: Int32Array;
  readonly lengthOf: Int32Array;
  /** The choice that selects a mode; -1: the only one. */
  readonly choiceOf: Int32Array;
  readonly choices: number;
  readonly arcFrom: Int32Array;
  readonly arcTo: Int32Array;
  /** The gap of arc a under mode m of its source: `gap[gapBase[a] + m]`. */
  readonly gapBase: Int32Array;
  readonly gap: Int32Array;
}

/** The search keeps a number for each pair of nodes. */
const MOST_NODES = 3000;

interface Mode {
  readonly machine: number;
  readonly length: number;
  readonly choice: number;
}

/** The machine problem that a model is, or null. Times that tasks may not pass are not looked at: `verify` what comes out of it. */
export function machineProblem(model: Model): MachineProblem | null {
  const [cost, ...more] = model.levels[0]?.costs ?? [];
  if (cost?.kind !== 'late' || more.length > 0) return null;
  if (model.openings.length > 0 || model.exclusions.length > 0) return null;
  const modes = modesOf(model);
  if (modes === null || !areAlternatives(model, modes)) return null;
  const nodes = model.starts.length;
  if (nodes > MOST_NODES) return null;
  const modeStart = new Int32Array(nodes + 1);
  modes.forEach((list, u) => (modeStart[u + 1] = modeStart[u] + list.length));
  const flat = modes.flat();

  const arcs = new Map<number, { readonly from: number; readonly to: number; readonly gap: number[] }>();
  for (const { from, to, kind, map, when } of model.lags) {
    if (
      kind !== 'least' ||
      !isConstant(map) ||
      map.gap < 0 ||
      from === to ||
      (when !== undefined && when.length > 1)
    )
      return null;
    const only =
      when === undefined || when.length === 0
        ? -1
        : modes[from].findIndex(({ choice }) => 2 * choice === when[0]);
    if (only < 0 && when !== undefined && when.length > 0) return null;
    const key = from * nodes + to;
    let arc = arcs.get(key);
    if (arc === undefined) arcs.set(key, (arc = { from, to, gap: modes[from].map(() => -1) }));
    const { gap } = arc;
    gap.forEach((old, m) => (gap[m] = only < 0 || only === m ? Math.max(old, map.gap) : old));
  }
  const list = [...arcs.values()];
  // A lag that is there in some modes only.
  if (list.some(({ gap }) => gap.some((value) => value < 0))) return null;
  if (!leadsToEnd(nodes, list, cost.start)) return null;
  const gapBase = new Int32Array(list.length);
  let at = 0;
  list.forEach(({ from, gap }, a) => {
    gapBase[a] = at - modeStart[from];
    at += gap.length;
  });
  return {
    nodes,
    machines: model.resources.length,
    end: cost.start,
    earliest: Int32Array.from(model.starts, ({ earliest }) => earliest),
    modeStart,
    machineOf: Int32Array.from(flat, ({ machine }) => machine),
    lengthOf: Int32Array.from(flat, ({ length }) => length),
    choiceOf: Int32Array.from(flat, ({ choice }) => choice),
    choices: model.choices.length,
    arcFrom: Int32Array.from(list, ({ from }) => from),
    arcTo: Int32Array.from(list, ({ to }) => to),
    gapBase,
    gap: Int32Array.from(list.flatMap(({ gap }) => gap)),
  };
}

/** Each node's modes; null when some task is not one on a machine. */
function modesOf(model: Model): Mode[][] | null {
  const modes: Mode[][] = model.starts.map(() => []);
  for (const [machine, { capacity, tasks }] of model.resources.entries()) {
    if (capacity.length !== 2) return null;
    const amounts = tasks.map(({ amount }) => amount);
    if (amounts.some((amount) => 2 * amount <= capacity[1] || amount > capacity[1])) return null;
    for (const task of tasks) {
      const choice = choiceOf(task);
      if (choice === null || task.from !== task.to || !isConstant(task.until) || task.until.gap <= 0)
        return null;
      modes[task.from].push({ machine, length: task.until.gap, choice });
    }
  }
  for (const list of modes) {
    if (list.length === 0) list.push({ machine: -1, length: 0, choice: -1 });
    if (list.length > 1 && list.some(({ choice }) => choice < 0)) return null;
  }
  return modes;
}

/** The choice under which a task is there; -1: always. */
function choiceOf({ when }: Task): number | null {
  if (when === undefined || when.length === 0) return -1;
  return when.length === 1 && when[0] % 2 === 0 ? when[0] >> 1 : null;
}

/** Do the clauses say of every node that one of its modes holds, and nothing but that and that only one does? */
function areAlternatives(model: Model, modes: readonly (readonly Mode[])[]): boolean {
  const nodeOf = new Int32Array(model.choices.length).fill(-1);
  for (const [u, list] of modes.entries())
    for (const { choice } of list) {
      if (choice < 0) continue;
      if (nodeOf[choice] >= 0) return false;
      nodeOf[choice] = u;
    }
  if (nodeOf.includes(-1)) return false;
  const isCovered = modes.map(([{ choice }]) => choice < 0);
  for (const { literals } of model.clauses) {
    if (literals.length === 0) return false;
    const u = nodeOf[literals[0] >> 1];
    if (literals.some((literal) => nodeOf[literal >> 1] !== u)) return false;
    const chosen = new Set(literals.filter((literal) => literal % 2 === 0));
    const isOneOf = chosen.size === literals.length && chosen.size === modes[u].length;
    const isNotBoth = chosen.size === 0 && new Set(literals).size === 2;
    if (!isOneOf && !isNotBoth) return false;
    if (isOneOf) isCovered[u] = true;
  }
  return isCovered.every(Boolean);
}

/** Does every node come before the end, by lags that do not go round in a circle? */
function leadsToEnd(
  nodes: number,
  arcs: readonly { readonly from: number; readonly to: number }[],
  end: number,
): boolean {
  const into: number[][] = Array.from({ length: nodes }, () => []);
  const open = new Int32Array(nodes);
  for (const { from, to } of arcs) {
    into[to].push(from);
    open[from]++;
  }
  if (open[end] > 0) return false;
  const reached = [end];
  for (let k = 0; k < reached.length; k++)
    for (const from of into[reached[k]]) if (--open[from] === 0) reached.push(from);
  return reached.length === nodes;
}
