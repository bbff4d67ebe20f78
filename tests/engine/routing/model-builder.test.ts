import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../../src/engine/routing/model-builder.ts';
import { solve } from '../../../src/engine/schedule/index.ts';
import type { Literal } from '../../../src/engine/schedule/model.ts';

/** `count` options, of which one must be taken, with some literals held true. */
function status(count: number, held: (options: readonly Literal[]) => readonly Literal[]): string {
  const builder = new ModelBuilder();
  const reason = builder.reason('hands', 'board', 'pour', 'someone who can pour');
  builder.start('pour', 0, 10, reason);
  const options = builder.oneOf(
    Array.from({ length: count }, (_, k) => `crew ${k}`),
    reason,
  );
  for (const literal of held(options.map(([option]) => option))) builder.clause([literal], reason);
  return solve(builder.build([]), { seed: 1, budget: 1e6 }).status;
}

describe('of the crews that can do a step', () => {
  it.each([2, 9, 10, 11, 16, 17, 40, 130])('one of %i is taken, and any of them can be', (count) => {
    expect(status(count, (options) => options.map((option) => option ^ 1))).toBe('infeasible');
    for (let k = 0; k < count; k += Math.ceil(count / 7))
      expect(status(count, (options) => [options[k]])).toBe('optimal');
  });

  it.each([2, 9, 10, 11, 16, 17, 40, 130])('no two of %i are taken', (count) => {
    const step = Math.max(1, Math.floor(count / 9));
    for (let a = 0; a < count; a += step)
      for (let b = a + 1; b < count; b += step)
        expect(status(count, (options) => [options[a], options[b]])).toBe('infeasible');
  });

  it('the clauses that say so grow with the crews, not with their pairs', () => {
    const builder = new ModelBuilder();
    const reason = builder.reason('hands', 'board', 'pour', 'someone who can pour');
    builder.oneOf(
      Array.from({ length: 276 }, (_, k) => `crew ${k}`),
      reason,
    );
    expect(builder.build([]).clauses.length).toBeLessThan(4 * 276);
  });
});
