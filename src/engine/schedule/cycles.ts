/** What hangs together in circles: the strongly connected components of a graph (Kosaraju; Sharir 1981). */
import type { Arcs } from './project.ts';

/**
 * @param arcs of nodes 0..n-1
 * @param opposed the same arcs from their ends
 * @returns for each node the number of its component; components are numbered in an order in which no arc leads back
 */
export function componentsOf(arcs: Arcs, opposed: Arcs): Int32Array {
  const n = arcs.start.length - 1;
  const finished: number[] = [];
  const next = arcs.start.slice(0, n);
  const seen = new Uint8Array(n);
  for (let root = 0; root < n; root++) {
    if (seen[root] === 1) continue;
    const path = [root];
    seen[root] = 1;
    while (path.length > 0) {
      const i = path[path.length - 1];
      if (next[i] === arcs.start[i + 1]) {
        finished.push(i);
        path.pop();
        continue;
      }
      const j = arcs.to[next[i]++];
      if (seen[j] === 1) continue;
      seen[j] = 1;
      path.push(j);
    }
  }
  const component = new Int32Array(n).fill(-1);
  let count = 0;
  for (const root of finished.reverse()) {
    if (component[root] >= 0) continue;
    const open = [root];
    component[root] = count;
    for (let i = open.pop(); i !== undefined; i = open.pop())
      for (let k = opposed.start[i]; k < opposed.start[i + 1]; k++) {
        const j = opposed.to[k];
        if (component[j] >= 0) continue;
        component[j] = count;
        open.push(j);
      }
    count++;
  }
  return component;
}
