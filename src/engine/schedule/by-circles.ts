/**
 * A first schedule for projects whose greatest lags are so tight that lists lead to none. What hangs together in circles of lags is scheduled by itself first;
 * such a block then keeps its shape, and blocks, which no circle joins any more, always find a place one behind the other (Neumann, Zhan 1995; Franck,
 * Neumann, Schwindt 2001). A block without a schedule shows that there is none at all.
 */
import { Channel } from './channel.ts';
import { componentsOf } from './cycles.ts';
import { constantLag } from './maps.ts';
import { NEVER, type Assignment, type Lag, type Model, type Outcome } from './model.ts';
import { opposedArcs, type Project } from './project.ts';
import { someActivities } from './some-activities.ts';

/**
 * @param solveBlock a schedule of a block, as early as may be had for little; it may give up
 * @returns null when a block was given up, when there is but one, or when the blocks pass a latest time
 */
export function scheduleByCircles(
  project: Project,
  solveBlock: (block: Model) => Outcome,
): Assignment | 'infeasible' | null {
  const { n, arcs } = project;
  const component = componentsOf(arcs, opposedArcs(n, arcs));
  const blocks: number[][] = [];
  component.forEach((c, i) => (blocks[c] ??= []).push(i));
  if (blocks.filter((block) => block.length > 1).length < 2) return null;
  const offset = new Int32Array(n);
  for (const block of blocks) {
    if (block.length === 1) continue;
    const outcome = solveBlock(blockModel(project, block));
    if (outcome.status === 'infeasible') return 'infeasible';
    if (outcome.status === 'unknown') return null;
    const { starts } = outcome.best;
    block.forEach((i, k) => (offset[i] = starts[k] - starts[0]));
  }
  return placeBlocks(project, blocks, offset);
}

/** The activities of a block with an end of their own, the last start. */
function blockModel(project: Project, block: readonly number[]): Model {
  const { length, earliest, latest } = project;
  const { starts, lags, ...rest } = someActivities(project, block);
  const end = block.length;
  const least = Math.min(...block.map((i) => earliest[i]));
  const most = Math.max(...block.map((i) => latest[i] + length[i]));
  return {
    ...rest,
    starts: [...starts, { name: 'end', earliest: least, latest: Math.min(NEVER - 1, most) }],
    lags: [
      ...lags,
      ...block.map((i, from): Lag => ({ from, to: end, kind: 'least', map: constantLag(length[i]) })),
    ],
    levels: [{ name: 'end', costs: [{ kind: 'late', start: end, after: least, weight: 1 }] }],
  };
}

/** Each block as early as the ones before it allow; they come in an order in which no lag leads back. */
function placeBlocks(
  project: Project,
  blocks: readonly (readonly number[])[],
  offset: Int32Array,
): Assignment | null {
  const { n, arcs, length, earliest, latest, capacity, useStart, useOf, useAmount } = project;
  const channels = capacity.map((each) => new Channel(each));
  const least = earliest.slice();
  const starts = Array.from({ length: n }, () => 0);
  const until = Array.from(length, constantLag);
  const take = (i: number, base: number, sign: number): void => {
    for (let u = useStart[i]; u < useStart[i + 1]; u++)
      channels[useOf[u]].take(base + offset[i], base + offset[i] + length[i], sign * useAmount[u]);
  };
  /** How much later activity i would have to begin. */
  const delay = (i: number, base: number): number => {
    let most = 0;
    for (let u = useStart[i]; u < useStart[i + 1]; u++) {
      const at = base + offset[i];
      most = Math.max(most, channels[useOf[u]].nextFit(at, until[i], useAmount[u], true, latest[i]) - at);
    }
    return most;
  };
  /** Lays the block down at `base` if it fits there as a whole; else how much later to try, at least. */
  const layDown = (block: readonly number[], base: number): number => {
    for (const [k, i] of block.entries()) {
      const later = delay(i, base);
      if (later === 0) {
        take(i, base, 1);
        continue;
      }
      for (const laid of block.slice(0, k)) take(laid, base, -1);
      // What hinders may be the block itself, which moves along.
      return base + offset[i] + later > latest[i] ? 1 : later;
    }
    return 0;
  };
  for (const block of blocks) {
    let base = block.reduce((most, i) => Math.max(most, least[i] - offset[i]), -NEVER);
    const last = block.reduce((most, i) => Math.min(most, latest[i] - offset[i]), NEVER);
    for (let later = 1; later > 0; base += later) {
      if (base > last) return null;
      later = layDown(block, base);
    }
    for (const i of block) {
      const at = (starts[i] = base + offset[i]);
      for (let k = arcs.start[i]; k < arcs.start[i + 1]; k++)
        least[arcs.to[k]] = Math.max(least[arcs.to[k]], at + arcs.gap[k]);
    }
  }
  return { starts, choices: [] };
}
