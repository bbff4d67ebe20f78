import { expect, test } from 'vitest';
import { componentsOf } from '../../../src/engine/schedule/cycles.ts';
import { listArcs, opposedArcs } from '../../../src/engine/schedule/project.ts';
import { randomFrom } from './tiny-models.ts';

test('what can be reached both ways is in one component, and no arc leads back to an earlier one', () => {
  const random = randomFrom(5);
  for (let round = 0; round < 200; round++) {
    const n = 1 + random(9);
    const count = random(2 * n + 1);
    const from = Array.from({ length: count }, () => random(n));
    const to = Array.from({ length: count }, () => random(n));
    const arcs = listArcs(n, from, to, from);
    const component = componentsOf(arcs, opposedArcs(n, arcs));
    const reaches = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => i === j));
    for (let k = 0; k < n; k++)
      for (let e = 0; e < count; e++)
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) reaches[i][j] ||= reaches[i][from[e]] && reaches[to[e]][j];
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) expect(component[i] === component[j]).toBe(reaches[i][j] && reaches[j][i]);
    for (let e = 0; e < count; e++) expect(component[from[e]]).toBeLessThanOrEqual(component[to[e]]);
  }
});
