/**
 * A schedule of a machine problem as the disjunctive graph has it (Roy and Sussmann 1964): a mode for each node, a sequence for each machine, and
 * the longest paths to and from each node, kept up to date as nodes are moved. A topological order is repaired between the places that a move
 * touches, and paths are followed only from there.
 */
import { LagArcs } from './lag-arcs.ts';
import { larger } from './larger.ts';
import type { MachineProblem } from './machine-problem.ts';

/** What makes a schedule again: a mode for each node, and an order in which each machine's nodes and all lags go forward. */
export interface Sequenced {
  readonly makespan: number;
  /** The node before each on its machine: two schedules with the same modes and the same of these are the same. */
  readonly before: Int32Array;
  readonly mode: Int32Array;
  readonly order: Int32Array;
}

export class MachineSequences {
  readonly mode: Int32Array;
  /** The machine that a node is on, -1: none. */
  readonly machine: Int32Array;
  readonly length: Int32Array;
  /** The nodes before and after on the machine, -1: none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
  /** The first node on each machine, -1: none. */
  readonly first: Int32Array;
  /** The least time of each node, and what of it comes from lags alone. */
  readonly head: Int32Array;
  readonly lagHead: Int32Array;
  /** The longest path from the beginning of each node to the end, and what of it begins with a lag. */
  readonly tail: Int32Array;
  readonly lagTail: Int32Array;
  /** All that follows a node is at least so far behind it. */
  readonly leastGap: Int32Array;
  readonly order: Int32Array;
  private readonly place: Int32Array;
  private readonly mark: Uint8Array;
  private readonly kept: Int32Array;
  readonly arcs: LagArcs;

  constructor(readonly problem: MachineProblem) {
    const { nodes, machines, modeStart } = problem;
    this.mode = modeStart.slice(0, nodes);
    this.machine = new Int32Array(nodes);
    this.length = new Int32Array(nodes);
    this.before = new Int32Array(nodes).fill(-1);
    this.after = new Int32Array(nodes).fill(-1);
    this.first = new Int32Array(machines).fill(-1);
    this.head = new Int32Array(nodes);
    this.lagHead = new Int32Array(nodes);
    this.tail = new Int32Array(nodes);
    this.lagTail = new Int32Array(nodes);
    this.leastGap = new Int32Array(nodes);
    this.order = new Int32Array(nodes);
    this.place = new Int32Array(nodes);
    this.mark = new Uint8Array(nodes);
    this.kept = new Int32Array(nodes);
    this.arcs = new LagArcs(problem);
  }

  get makespan(): number {
    return this.head[this.problem.end];
  }

  save(): Sequenced {
    const { makespan, before, mode, order } = this;
    return { makespan, before: before.slice(), mode: mode.slice(), order: order.slice() };
  }

  restore({ mode, order }: Pick<Sequenced, 'mode' | 'order'>): void {
    const last = new Int32Array(this.problem.machines).fill(-1);
    this.first.fill(-1);
    this.before.fill(-1);
    this.after.fill(-1);
    this.order.set(order);
    for (let k = 0; k < order.length; k++) {
      const u = order[k];
      this.place[u] = k;
      this.setMode(u, mode[u]);
      const m = this.machine[u];
      if (m < 0) continue;
      if (last[m] < 0) this.first[m] = u;
      else this.link(last[m], u);
      last[m] = u;
    }
    this.followHeads(0);
    this.followTails(order.length - 1);
  }

  private setMode(u: number, mode: number): void {
    const { problem, arcs } = this;
    this.mode[u] = mode;
    this.machine[u] = problem.machineOf[mode];
    this.length[u] = problem.lengthOf[mode];
    const least = arcs.setMode(u, mode);
    this.leastGap[u] = this.machine[u] < 0 ? least : Math.min(least, this.length[u]);
  }

  private link(u: number, v: number): void {
    this.after[u] = v;
    this.before[v] = u;
  }

  /**
   * Puts node u in a mode, on that mode's machine right behind node `behind` (-1: before all others).
   * @throws Error when that would close a circle: `mayLead` and `mayFollow` tell beforehand
   */
  move(u: number, mode: number, behind: number): void {
    const { place } = this;
    const from = place[u];
    let low = from;
    let high = from;
    this.unlink(u);
    if (mode !== this.mode[u]) this.setMode(u, mode);
    const next = this.linkBehind(u, behind);
    if (behind >= 0 && place[behind] > from) {
      high = place[behind];
      this.shiftRight(from, high);
    } else if (next >= 0 && place[next] < from) {
      low = place[next];
      this.shiftLeft(low, from);
    }
    this.followHeads(low);
    this.followTails(high);
  }

  /** Could there be a path from u, by a lag first, to v? Told by heads and tails: a no is sure. */
  mayLead(u: number, v: number): boolean {
    const { head, tail, leastGap } = this;
    const { outTo, outStart } = this.arcs;
    for (let i = outStart[u], end = outStart[u + 1]; i < end; i++) {
      const x = outTo[i];
      if (x === v || (head[v] >= head[x] + leastGap[x] && tail[x] >= leastGap[x] + tail[v])) return true;
    }
    return false;
  }

  /** Could there be a path to u, by a lag at last, from v? A no is sure. */
  mayFollow(u: number, v: number): boolean {
    const { head, tail, leastGap } = this;
    const { intoFrom, intoStart } = this.arcs;
    const least = leastGap[v];
    for (let i = intoStart[u], end = intoStart[u + 1]; i < end; i++) {
      const x = intoFrom[i];
      if (x === v || (head[x] >= head[v] + least && tail[v] >= least + tail[x])) return true;
    }
    return false;
  }

  private unlink(u: number): void {
    const { before, after } = this;
    const [a, b] = [before[u], after[u]];
    if (a >= 0) after[a] = b;
    else this.first[this.machine[u]] = b;
    if (b >= 0) before[b] = a;
  }

  private linkBehind(u: number, behind: number): number {
    const { before, after, first } = this;
    const next = behind >= 0 ? after[behind] : first[this.machine[u]];
    before[u] = behind;
    after[u] = next;
    if (behind >= 0) after[behind] = u;
    else first[this.machine[u]] = u;
    if (next >= 0) before[next] = u;
    return next;
  }

  /** The node at `from`, and all up to `to` that must come after it, go behind the others. */
  private shiftRight(from: number, to: number): void {
    const { order, place, mark, kept, before } = this;
    const { intoFrom, intoStart } = this.arcs;
    mark[order[from]] = 1;
    kept[0] = order[from];
    let count = 1;
    let at = from;
    for (let k = from + 1; k <= to; k++) {
      const v = order[k];
      let follows = before[v] >= 0 && mark[before[v]] === 1;
      for (let i = intoStart[v], end = intoStart[v + 1]; i < end && !follows; i++)
        follows = mark[intoFrom[i]] === 1;
      if (follows) {
        mark[v] = 1;
        kept[count++] = v;
      } else {
        place[v] = at;
        order[at++] = v;
      }
    }
    if (place[kept[count - 1]] === to) throw new Error('MachineSequences: a move has closed a circle');
    for (let k = 0; k < count; k++) {
      const v = kept[k];
      mark[v] = 0;
      place[v] = at;
      order[at++] = v;
    }
  }

  /** The mirror image: the node at `to`, and all from `from` on that must come before it, go in front of the others. */
  private shiftLeft(from: number, to: number): void {
    const { order, place, mark, kept, after } = this;
    const { outTo, outStart } = this.arcs;
    mark[order[to]] = 1;
    kept[0] = order[to];
    let count = 1;
    let at = to;
    for (let k = to - 1; k >= from; k--) {
      const v = order[k];
      let leads = after[v] >= 0 && mark[after[v]] === 1;
      for (let i = outStart[v], end = outStart[v + 1]; i < end && !leads; i++) leads = mark[outTo[i]] === 1;
      if (leads) {
        mark[v] = 1;
        kept[count++] = v;
      } else {
        place[v] = at;
        order[at--] = v;
      }
    }
    if (place[kept[count - 1]] === from) throw new Error('MachineSequences: a move has closed a circle');
    for (let k = 0; k < count; k++) {
      const v = kept[k];
      mark[v] = 0;
      place[v] = at;
      order[at--] = v;
    }
  }

  /** Heads from a place of the order on. */
  private followHeads(from: number): void {
    const { order, head, lagHead, before, length } = this;
    const { onlyFrom, onlyIntoGap } = this.arcs;
    for (let k = from; k < order.length; k++) {
      // A loop without another inside runs faster.
      for (; k < order.length; k++) {
        const u = order[k];
        const only = onlyFrom[u];
        if (only < 0) break;
        const h = head[only] + onlyIntoGap[u];
        lagHead[u] = h;
        const b = before[u];
        head[u] = b >= 0 ? larger(h, head[b] + length[b]) : h;
      }
      if (k < order.length) this.followHead(order[k]);
    }
  }

  private followHead(u: number): void {
    const { head, lagHead, before, length } = this;
    const { intoStart, intoFrom, intoGap } = this.arcs;
    let h = this.problem.earliest[u];
    for (let i = intoStart[u], end = intoStart[u + 1]; i < end; i++)
      h = larger(h, head[intoFrom[i]] + intoGap[i]);
    lagHead[u] = h;
    const b = before[u];
    head[u] = b >= 0 ? larger(h, head[b] + length[b]) : h;
  }

  /** Tails from a place of the order back. */
  private followTails(from: number): void {
    const { order, tail, lagTail, after, length } = this;
    const { onlyTo, onlyOutGap } = this.arcs;
    for (let k = from; k >= 0; k--) {
      for (; k >= 0; k--) {
        const u = order[k];
        const only = onlyTo[u];
        if (only < 0) break;
        const t = tail[only] + onlyOutGap[u];
        lagTail[u] = t;
        const a = after[u];
        tail[u] = a >= 0 ? larger(t, tail[a] + length[u]) : t;
      }
      if (k >= 0) this.followTail(order[k]);
    }
  }

  private followTail(u: number): void {
    const { tail, lagTail, after, length } = this;
    const { outStart, outTo, outGap } = this.arcs;
    let t = 0;
    for (let i = outStart[u], end = outStart[u + 1]; i < end; i++) t = larger(t, tail[outTo[i]] + outGap[i]);
    lagTail[u] = t;
    const a = after[u];
    tail[u] = a >= 0 ? larger(t, tail[a] + length[u]) : t;
  }
}
