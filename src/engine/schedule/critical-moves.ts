/**
 * Steps of a tabu search on the critical path of a machine problem. Only a change on the longest path can shorten it: within a block of nodes that
 * follow each other on one machine, a node goes behind the block's last or in front of its first, or these two go inside; and a node with
 * more than one mode goes to another machine. A move is judged by the longest path through what it touches, from heads and tails as they are. The
 * best is made, even when it makes things worse; what it undid may not come back for a while.
 *
 * Literature: Nowicki, Smutnicki 1996; Dell'Amico, Trubian 1993 (tabu orders); Balas, Vazacopoulos 1998 (when a move closes no circle; judging it);
 * Zhang, Li, Guan, Rao 2007 (these moves); Mastrolilli, Gambardella 2000 (other machines).
 */
import type { Chance } from './chance.ts';
import { larger } from './larger.ts';
import type { MachineSequences } from './machine-sequences.ts';

/** How many steps an undone order stays forbidden: at least this, and up to as much again by chance. */
const LEAST_TENURE = 6;
const NONE = -0x3fffffff;
const WORST = 0x3fffffff;

export class CriticalMoves {
  /** Counted steps of looking. */
  work = 0;
  private steps = 0;
  private readonly tenure: number;
  /** The step until which u may not come before v again, at `rank[u] * nodes + rank[v]`. */
  private readonly tabuOrder: Int32Array;
  private readonly tabuMode: Int32Array;
  /** Numbers in which nodes of one machine are close, so that what is looked up together lies together. */
  private readonly rank: Int32Array;
  private readonly path: Int32Array;
  private pathSize = 0;
  private readonly scratch: Int32Array;
  /** A forbidden move is made all the same when it seems to reach less than this. */
  private goal = 0;
  /** The best move found in this step, and one of those that are forbidden. */
  private readonly best = { length: WORST, ties: 0, node: -1, mode: -1, behind: -1 };
  private readonly forbidden = { ties: 0, node: -1, mode: -1, behind: -1 };

  constructor(
    private readonly graph: MachineSequences,
    private readonly chance: Chance,
  ) {
    const { nodes, machines, machineOf, modeStart } = graph.problem;
    this.rank = new Int32Array(nodes);
    const machineOfNode = (u: number): number => machineOf[modeStart[u]];
    [...this.rank.keys()]
      .sort((u, v) => machineOfNode(u) - machineOfNode(v))
      .forEach((u, k) => (this.rank[u] = k));
    this.path = new Int32Array(nodes);
    this.scratch = new Int32Array(nodes);
    this.tabuOrder = new Int32Array(nodes * nodes);
    this.tabuMode = new Int32Array(machineOf.length);
    let placed = 0;
    for (let u = 0; u < nodes; u++) if (machineOf[modeStart[u]] >= 0) placed++;
    this.tenure = LEAST_TENURE + Math.floor(placed / (machines * machines));
  }

  /** Nothing is forbidden any more. */
  forget(): void {
    this.tabuOrder.fill(0);
    this.tabuMode.fill(0);
    this.steps = 0;
  }

  /** One step. False when no move can shorten the critical path: the schedule is as short as can be. */
  step(goal: number): boolean {
    const { best, forbidden } = this;
    this.goal = goal;
    best.length = WORST;
    best.node = -1;
    forbidden.ties = 0;
    forbidden.node = -1;
    this.findPath();
    this.tryAll();
    const { node, mode, behind } = best.node >= 0 ? best : forbidden;
    if (node < 0) return false;
    this.steps++;
    this.make(node, mode, behind);
    return true;
  }

  /** One critical path, by chance, from its beginning to the end. */
  private findPath(): void {
    const { graph, path, chance } = this;
    const { head, before, length } = graph;
    const { intoFrom, intoGap, intoStart } = graph.arcs;
    const { end } = graph.problem;
    let count = 0;
    for (let x = end; x >= 0;) {
      path[count++] = x;
      const b = before[x];
      let found = b >= 0 && head[b] + length[b] === head[x] ? b : -1;
      let ties = found >= 0 ? 1 : 0;
      for (let i = intoStart[x], last = intoStart[x + 1]; i < last; i++) {
        const u = intoFrom[i];
        if (u !== found && head[u] + intoGap[i] === head[x] && chance.below(++ties) === 0) found = u;
      }
      x = found;
    }
    path.subarray(0, count).reverse();
    this.pathSize = count;
  }

  /** Looks at every move of every block of the path. */
  private tryAll(): void {
    const { path, pathSize } = this;
    const { machine, before, head, lagTail, length, problem } = this.graph;
    const { modeStart } = problem;
    for (let k = 0, next = 0; k < pathSize; k = next) {
      next = k + 1;
      const first = path[k];
      if (machine[first] < 0) continue;
      while (
        next < pathSize &&
        machine[path[next]] === machine[first] &&
        before[path[next]] === path[next - 1]
      )
        next++;
      const last = path[next - 1];
      // Where nothing but the block lies before its first or behind its last, another in their place shortens nothing.
      const isLed = k > 0 || head[first] > 0;
      const isFollowed = next < pathSize - 1 || lagTail[last] > length[last];
      if (isFollowed) {
        for (let i = k; i < next - 1; i++) this.tryRight(path[i], last);
        for (let i = k + 1; i < next - 1; i++) this.tryLeft(path[i], last);
      }
      if (isLed) {
        // A block of two has but one move.
        const isSeen = next === k + 2 && isFollowed;
        for (let i = isSeen ? next : k + 1; i < next; i++) this.tryLeft(first, path[i]);
        for (let i = k + 1; i < next - 1; i++) this.tryRight(first, path[i]);
      }
      for (let i = k; i < next; i++)
        if (modeStart[path[i] + 1] - modeStart[path[i]] > 1) this.tryModes(path[i]);
    }
  }

  /** Node u, now before v on the same machine, right behind v. */
  private tryRight(u: number, v: number): void {
    const { graph, scratch } = this;
    const { before, after, head, lagHead, tail, lagTail, length } = graph;
    const most = this.best.length;
    this.work++;
    const a = before[u];
    const b = after[v];
    const next = after[u];
    let end = a >= 0 ? head[a] + length[a] : NONE;
    let t = b >= 0 ? larger(lagTail[u], tail[b] + length[u]) : lagTail[u];
    // What lies between follows without a wait, now and then.
    const least = larger(lagHead[next], end) + head[v] + length[v] - head[next] + t;
    if (least > most || graph.mayLead(u, v)) return;
    let count = 0;
    for (let x = next; ; x = after[x]) {
      const h = larger(lagHead[x], end);
      scratch[count++] = h;
      end = h + length[x];
      if (x === v) break;
    }
    let est = larger(lagHead[u], end) + t;
    for (let x = v; x !== u && est <= most; x = before[x]) {
      t = larger(lagTail[x], t + length[x]);
      const through = scratch[--count] + t;
      if (through > est) est = through;
    }
    if (est > most) return;
    let isTabu = false;
    for (let x = v; x !== u && !isTabu; x = before[x]) isTabu = this.isTabu(x, u);
    this.offer(est, isTabu, u, graph.mode[u], v);
  }

  /** Node v, now behind u on the same machine, right before u. */
  private tryLeft(u: number, v: number): void {
    const { graph, scratch } = this;
    const { before, after, head, lagHead, tail, lagTail, length } = graph;
    const most = this.best.length;
    this.work++;
    const a = before[u];
    const b = after[v];
    const next = before[v];
    let t = b >= 0 ? tail[b] : NONE;
    const h = a >= 0 ? larger(lagHead[v], head[a] + length[a]) : lagHead[v];
    const least = larger(lagTail[next], t + length[next]) + head[next] - head[u] + h + length[v];
    if (least > most || graph.mayFollow(v, u)) return;
    let count = 0;
    for (let x = next; ; x = before[x]) {
      t = larger(lagTail[x], t + length[x]);
      scratch[count++] = t;
      if (x === u) break;
    }
    let est = h + larger(lagTail[v], t + length[v]);
    let end = h + length[v];
    for (let x = u; x !== v && est <= most; x = after[x]) {
      const hx = larger(lagHead[x], end);
      const through = hx + scratch[--count];
      if (through > est) est = through;
      end = hx + length[x];
    }
    if (est > most) return;
    let isTabu = false;
    for (let x = u; x !== v && !isTabu; x = after[x]) isTabu = this.isTabu(v, x);
    this.offer(est, isTabu, v, graph.mode[v], a);
  }

  /** May u not come before v again yet? */
  private isTabu(u: number, v: number): boolean {
    return this.tabuOrder[this.rank[u] * this.graph.problem.nodes + this.rank[v]] > this.steps;
  }

  /** Node u on each other machine, at the best place there. */
  private tryModes(u: number): void {
    const { graph } = this;
    const { head, lagHead, tail, length, after, first, machine } = graph;
    const { out, outTo, outStart } = graph.arcs;
    const { modeStart, machineOf, lengthOf, gapBase, gap } = graph.problem;
    const ready = lagHead[u];
    for (let m = modeStart[u]; m < modeStart[u + 1]; m++) {
      const k = machineOf[m];
      if (k === machine[u]) continue;
      let rest = 0;
      for (let i = outStart[u], end = outStart[u + 1]; i < end; i++)
        rest = Math.max(rest, tail[outTo[i]] + gap[gapBase[out[i]] + m]);
      let best = WORST;
      let place = -1;
      for (let behind = -1, next = first[k]; ; behind = next, next = after[next]) {
        if (behind >= 0 && graph.mayLead(u, behind)) break;
        this.work++;
        const begin = behind >= 0 ? Math.max(ready, head[behind] + length[behind]) : ready;
        if (begin + rest >= best) break;
        const through = begin + (next >= 0 ? Math.max(rest, lengthOf[m] + tail[next]) : rest);
        if (through < best && (next < 0 || !graph.mayFollow(u, next))) {
          best = through;
          place = behind;
        }
        if (next < 0) break;
      }
      if (best < WORST) this.offer(best, this.tabuMode[m] > this.steps, u, m, place);
    }
  }

  private offer(length: number, isForbidden: boolean, node: number, mode: number, behind: number): void {
    const { best, forbidden, chance } = this;
    if (isForbidden && length >= this.goal) {
      if (chance.below(++forbidden.ties) > 0) return;
      forbidden.node = node;
      forbidden.mode = mode;
      forbidden.behind = behind;
      return;
    }
    if (length > best.length) return;
    if (length < best.length) best.ties = 0;
    if (chance.below(++best.ties) > 0) return;
    best.length = length;
    best.node = node;
    best.mode = mode;
    best.behind = behind;
  }

  /** Makes a move and forbids what it undoes. */
  private make(u: number, mode: number, behind: number): void {
    const { graph, chance, tabuOrder, tabuMode, tenure, rank } = this;
    const { nodes } = graph.problem;
    const { head, before, after } = graph;
    const until = this.steps + tenure + chance.below(tenure + 1);
    if (mode !== graph.mode[u]) tabuMode[graph.mode[u]] = until;
    else if (behind >= 0 && head[behind] >= head[u])
      for (let x = u; x !== behind;) tabuOrder[rank[u] * nodes + rank[(x = after[x])]] = until;
    else for (let x = before[u]; x !== behind; x = before[x]) tabuOrder[rank[x] * nodes + rank[u]] = until;
    graph.move(u, mode, behind);
    this.work += nodes >> 3;
  }
}
