/**
 * Windows of a machine schedule, each solved anew by the exact search: the nodes of a stretch of time are free, all others keep their modes and their
 * sequences. Longest paths from the beginning say from when a free node may be, and those to the end by when it must, so a window is a small
 * problem of its own; most are decided without a conflict. Several changes at once shorten a schedule that no single move does.
 *
 * Literature: Palpant, Artigues, Michelon 2004 (parts of a schedule solved exactly); Beck, Feng, Watson 2011 (tabu search and constraints together).
 */
import type { Chance } from './chance.ts';
import { Kernel } from './kernel.ts';
import type { MachineSequences } from './machine-sequences.ts';
import { constantLag } from './maps.ts';
import type { Lag, Model, Task } from './model.ts';
import { plainModel } from './plain-model.ts';
import { Search } from './search.ts';
import { stepsToBuild, stepsToChoose } from './window-work.ts';

/** How many nodes a window has at first and at least; at most so many, and this share of all. */
const FIRST_SIZE = 60;
const LEAST_SIZE = 20;
const MOST_SIZE = 250;
const MOST_SHARE = 3 / 4;
/** A window that is given up makes the next ones smaller, one without a solution larger. */
const SMALLER = 0.9;
const LARGER = 1.02;
/** Conflicts after which a window is given up. */
const CONFLICTS = 60;

export class MachineWindows {
  /** Work done so far, in steps of the exact search. */
  work = 0;
  private size = FIRST_SIZE;
  private readonly place: Int32Array;

  constructor(
    private readonly graph: MachineSequences,
    private readonly chance: Chance,
  ) {
    this.place = new Int32Array(graph.problem.nodes);
  }

  /** Shortens the graph's schedule where it can, window by window from its beginning to its end, until it is told to stop. */
  sweep(stop: () => boolean): void {
    const { graph } = this;
    const { nodes } = graph.problem;
    const most = Math.max(1, Math.min(MOST_SIZE, Math.floor(MOST_SHARE * nodes)));
    for (let at = 0; at < nodes && !stop();) {
      const { makespan } = graph;
      const size = Math.min(most, Math.floor(this.size));
      this.solve(Math.min(at, nodes - size), size, makespan - 1);
      if (graph.makespan < makespan) continue;
      if (at + size >= nodes) return;
      at += Math.max(1, size >> 1);
    }
  }

  /**
   * Looks for other sequences of `size` nodes, from the one on that is number `at` in time, with which no path through any of them is longer than `most`.
   * Where they are found, the graph has them; says whether.
   */
  solve(at: number, size: number, most: number): boolean {
    const { graph, place } = this;
    const order = this.inTime();
    order.forEach((u, k) => (place[u] = k));
    const free = order.subarray(at, at + size);
    this.work += stepsToChoose(order.length) + stepsToBuild(size);
    const kernel = new Kernel(this.modelOf(free, at, most));
    if (!kernel.sound) {
      this.size = Math.min(MOST_SIZE, this.size * LARGER);
      return false;
    }
    const search = new Search(kernel, 1 + this.chance.below(1 << 20), () => false);
    search.follow({ starts: Array.from(free, (u) => graph.head[u]), choices: [] });
    search.dive = false;
    search.decideStarts(kernel.decidesStarts);
    const verdict = search.run([], [], { work: Infinity, conflicts: CONFLICTS });
    this.work += kernel.trail.work;
    if (verdict !== 'solution') {
      this.size =
        verdict === 'limit'
          ? Math.max(LEAST_SIZE, this.size * SMALLER)
          : Math.min(MOST_SIZE, this.size * LARGER);
      return false;
    }
    const start = (u: number): number => kernel.trail.bound[2 * (place[u] - at)];
    // The sort keeps what begins at the same time in an order in which the lags go forward.
    free.set(free.slice().sort((u, v) => start(u) - start(v)));
    graph.restore({ mode: graph.mode, order });
    return true;
  }

  /** All nodes by the middle of their slack; lags and machines go forward. */
  private inTime(): Int32Array {
    const { head, tail, order } = this.graph;
    const middle = head.map((time, u) => time - tail[u]);
    return order.slice().sort((u, v) => middle[u] - middle[v]);
  }

  /** The free nodes, which are those from place `at` on, as a problem of their own. */
  private modelOf(free: Int32Array, at: number, most: number): Model {
    const { place } = this;
    const { head, tail, length, before, after, machine, arcs, problem } = this.graph;
    const behind = at + free.length;
    /** When the last of what comes before is over on each machine, and what the first of what comes behind leaves. */
    const ready = new Int32Array(problem.machines);
    const rest = new Int32Array(problem.machines);
    for (const u of free) {
      const [b, a] = [before[u], after[u]];
      if (b >= 0 && place[b] < at) ready[machine[u]] = head[b] + length[b];
      if (a >= 0 && place[a] >= behind) rest[machine[u]] = tail[a];
    }
    const lags: Lag[] = [];
    const tasks: Task[][] = Array.from({ length: problem.machines }, () => []);
    const starts = Array.from(free, (u, k) => {
      let earliest = problem.earliest[u];
      let way = 0;
      if (machine[u] >= 0) {
        earliest = Math.max(earliest, ready[machine[u]]);
        way = length[u] + rest[machine[u]];
        tasks[machine[u]].push({ from: k, to: k, until: constantLag(length[u]), amount: 1 });
      }
      for (let i = arcs.intoStart[u]; i < arcs.intoStart[u + 1]; i++) {
        const from = arcs.intoFrom[i];
        if (place[from] < at) earliest = Math.max(earliest, head[from] + arcs.intoGap[i]);
        else lags.push({ from: place[from] - at, to: k, kind: 'least', map: constantLag(arcs.intoGap[i]) });
      }
      for (let i = arcs.outStart[u]; i < arcs.outStart[u + 1]; i++) {
        const to = arcs.outTo[i];
        if (place[to] >= behind) way = Math.max(way, arcs.outGap[i] + tail[to]);
      }
      return { name: `${u}`, earliest, latest: most - way };
    });
    const resources = tasks
      .map((list, m) => ({ name: `${m}`, capacity: Int32Array.of(0, 1), tasks: list }))
      .filter((resource) => resource.tasks.length > 1);
    return plainModel(starts, lags, resources);
  }
}
