import { describe, expect, it } from 'vitest';
import { visitEdges } from '../../../src/engine/routing/rules/objective.ts';

const hour = 60;
const day = 24 * hour;

describe('what counts as a visit', () => {
  it('is every evening of someone with another job', () => {
    const evenings = Int32Array.of(18 * hour, 21 * hour, day + 18 * hour, day + 21 * hour);
    expect(visitEdges(evenings)).toEqual([Int32Array.of(18 * hour, day + 18 * hour, day + 21 * hour)]);
  });

  it('is no working day: whoever is there all day is there anyway', () => {
    expect(visitEdges(Int32Array.of(8 * hour, 17 * hour, day + 8 * hour, day + 16 * hour))).toEqual([]);
  });

  it('is the short Saturday after the long week, and the next one by itself', () => {
    const open = [0, 1, 2].flatMap((d) => [d * day + 8 * hour, d * day + (d === 1 ? 18 : 12) * hour]);
    expect(visitEdges(Int32Array.from(open))).toEqual([
      Int32Array.of(8 * hour, 12 * hour),
      Int32Array.of(2 * day + 8 * hour, 2 * day + 12 * hour),
    ]);
  });
});
