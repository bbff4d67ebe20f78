import { expect, test } from 'vitest';
import { Channel } from '../../../src/engine/schedule/channel.ts';
import { constantLag, nextOpen } from '../../../src/engine/schedule/index.ts';
import type { MonotoneMap } from '../../../src/engine/schedule/index.ts';
import { randomFrom } from './tiny-models.ts';

const SPAN = 40;

const pairs = (flat: Int32Array): number[][] =>
  Array.from({ length: flat.length / 2 }, (_, k) => [flat[2 * k], flat[2 * k + 1]]);

/** What is left, minute by minute. */
class Plain {
  readonly left: number[];
  constructor(capacity: readonly number[]) {
    this.left = Array.from({ length: SPAN }, (_, t) => {
      let there = capacity[1];
      for (let k = 0; k < capacity.length; k += 2) if (capacity[k] <= t) there = capacity[k + 1];
      return there;
    });
  }
  take(from: number, until: number, amount: number): void {
    for (let t = from; t < until; t++) this.left[t] -= amount;
  }
  fits(from: number, until: number, amount: number): boolean {
    for (let t = from; t < Math.min(until, SPAN); t++) if (this.left[t] < amount) return false;
    return true;
  }
}

test('what is left of a shared thing, and the next place for a task, agree with counting minute by minute', () => {
  for (let seed = 1; seed <= 300; seed++) {
    const random = randomFrom(seed);
    const capacity = [0, 1 + random(3), 10 + random(5), random(4)];
    const channel = new Channel(capacity);
    const plain = new Plain(capacity);
    const taken: [number, number, number][] = [];
    for (let k = 0; k < 12; k++) {
      if (taken.length > 0 && random(3) === 0) {
        const [[from, until, amount]] = taken.splice(random(taken.length), 1);
        channel.take(from, until, -amount);
        plain.take(from, until, -amount);
      } else {
        const from = random(20);
        const until = from + 1 + random(8);
        const amount = 1 + random(2);
        channel.take(from, until, amount);
        plain.take(from, until, amount);
        taken.push([from, until, amount]);
      }
      const steps = pairs(channel.steps());
      for (let t = 0; t < SPAN; t++)
        expect(steps.filter(([at]) => at <= t).at(-1)?.[1], `seed ${seed} at ${t}`).toBe(plain.left[t]);

      expect(channel.least(), `seed ${seed}`).toBe(Math.min(...plain.left));
      const [begin, stop] = [random(20), 20 + random(15)];
      const within = pairs(channel.steps(begin, stop));
      for (let t = begin; t < stop; t++)
        expect(within.filter(([at]) => at <= t).at(-1)?.[1], `seed ${seed} at ${t}`).toBe(plain.left[t]);
      expect(
        within.filter(([at]) => at <= begin),
        'the step that holds the beginning',
      ).toHaveLength(1);
      expect(
        within.filter(([at]) => at >= stop),
        'nothing from the end on',
      ).toEqual([]);

      const amount = 1 + random(2);
      const lengths: [MonotoneMap, boolean][] = [
        [constantLag(1 + random(5)), true],
        [constantLag(random(3)), false],
        [nextOpen(Int32Array.of(2, 6, 9, 12, 15, 21, 25, 60)), false],
      ];
      for (const [until, isNeverEmpty] of lengths) {
        const s = random(25);
        let first = s;
        while (first < SPAN && !plain.fits(first, until.at(first), amount)) first++;
        const found = channel.nextFit(s, until, amount, isNeverEmpty, SPAN);
        if (first < SPAN) expect(found, `seed ${seed} from ${s}`).toBe(first);
        else expect(found).toBeGreaterThanOrEqual(SPAN);
      }
      const until = random(30);
      const from = random(30);
      let first = from;
      while (first < until && !plain.fits(first, until, amount)) first++;
      expect(channel.nextBeginning(from, until, amount), `seed ${seed} until ${until}`).toBe(first);

      const length = constantLag(1 + random(5));
      let last = from;
      while (last >= 0 && !plain.fits(last, length.at(last), amount)) last--;
      const fitting = channel.lastFit(from, length, amount);
      if (last >= 0) expect(fitting, `seed ${seed} up to ${from}`).toBe(last);
      else expect(fitting).toBeLessThan(0);
      let end = from;
      while (end < SPAN && plain.left[end] >= amount) end++;
      const lastEnd = channel.lastEnd(from, amount);
      if (end === from) expect(lastEnd).toBeLessThanOrEqual(from);
      else if (end < SPAN) expect(lastEnd, `seed ${seed} held from ${from}`).toBe(end);
      else expect(lastEnd).toBeGreaterThanOrEqual(SPAN);
    }
  }
});
