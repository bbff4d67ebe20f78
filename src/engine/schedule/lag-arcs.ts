/**
 * The lags of a machine problem as arcs listed by their source and by their target, with their gaps in the present modes. Most nodes have a
 * single arc in and a single arc out, which are kept apart: following paths is the innermost loop of the search.
 */
import { listsBy } from './lists-by.ts';
import type { MachineProblem } from './machine-problem.ts';

/** Behind a node that nothing follows. */
const FAR = 0x3fffffff;

export class LagArcs {
  /** Arcs by source: where each node's list begins; the arc, its target, its gap. */
  readonly outStart: Int32Array;
  readonly out: Int32Array;
  readonly outTo: Int32Array;
  readonly outGap: Int32Array;
  /** Likewise by target. */
  readonly intoStart: Int32Array;
  readonly into: Int32Array;
  readonly intoFrom: Int32Array;
  readonly intoGap: Int32Array;
  /**
   * The source of the only arc into a node, where that alone says from when the node may be, -1: there are none or many, or it has an earliest time of
   * its own; and that arc's gap.
   */
  readonly onlyFrom: Int32Array;
  readonly onlyIntoGap: Int32Array;
  /** Likewise the target of the only arc out of it. */
  readonly onlyTo: Int32Array;
  readonly onlyOutGap: Int32Array;
  /** Where an arc listed by its source is listed by its target. */
  private readonly twin: Int32Array;

  constructor(private readonly problem: MachineProblem) {
    const { nodes, arcFrom, arcTo } = problem;
    [this.out, this.outStart] = listsBy(arcFrom, nodes);
    [this.into, this.intoStart] = listsBy(arcTo, nodes);
    this.outTo = this.out.map((arc) => arcTo[arc]);
    this.intoFrom = this.into.map((arc) => arcFrom[arc]);
    this.outGap = new Int32Array(arcFrom.length);
    this.intoGap = new Int32Array(arcFrom.length);
    this.onlyFrom = onlyOnes(this.intoStart, this.intoFrom).map((from, u) =>
      from >= 0 && problem.earliest[u] > problem.earliest[from] ? -1 : from,
    );
    this.onlyIntoGap = new Int32Array(nodes);
    this.onlyTo = onlyOnes(this.outStart, this.outTo);
    this.onlyOutGap = new Int32Array(nodes);
    const listed = new Int32Array(arcFrom.length);
    this.into.forEach((arc, i) => (listed[arc] = i));
    this.twin = this.out.map((arc) => listed[arc]);
  }

  /** The gaps behind a node are those of a mode of it; returns the least. */
  setMode(u: number, mode: number): number {
    const { problem, out, outStart, outTo, twin } = this;
    let least = FAR;
    for (let k = outStart[u], end = outStart[u + 1]; k < end; k++) {
      const gap = problem.gap[problem.gapBase[out[k]] + mode];
      this.outGap[k] = this.onlyOutGap[u] = gap;
      this.intoGap[twin[k]] = this.onlyIntoGap[outTo[k]] = gap;
      if (gap < least) least = gap;
    }
    return least;
  }
}

const onlyOnes = (start: Int32Array, list: Int32Array): Int32Array =>
  start.slice(1).map((end, u) => (end === start[u] + 1 ? list[start[u]] : -1));
