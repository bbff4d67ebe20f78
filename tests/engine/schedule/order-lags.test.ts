import { describe, expect, test } from 'vitest';
import { OrderLags } from '../../../src/engine/schedule/order-lags.ts';
import { Seldom } from '../../../src/engine/schedule/seldom.ts';
import { DECIDED, Trail } from '../../../src/engine/schedule/trail.ts';

/** Two activities of length 3 that never run at once: starts 0 and 1 in 0..20, and variable 2, true when 0 goes first. */
function pair() {
  const trail = new Trail(Int32Array.of(0, 0, 0), Int32Array.of(20, 20, 1));
  const lags = new OrderLags(trail, 4, 1);
  lags.add(0, 1, 3, 4);
  lags.add(1, 0, 3, 5);
  lags.seal();
  const least = (start: number): number => trail.bound[2 * start];
  const set = (view: number, value: number): boolean =>
    trail.set(view, value, DECIDED, 0) && lags.propagate(view);
  const backTo = (level: number): void => {
    trail.backTo(level);
    lags.backTo(trail.size);
  };
  const settle = (): void => {
    trail.forgetRoot();
    lags.settleRoot();
  };
  return { trail, lags, least, set, backTo, settle };
}

describe('an order of two activities', () => {
  test('binds while it is decided, and no longer', () => {
    const { trail, lags, least, set, backTo } = pair();
    trail.decide(4, 1);
    lags.propagate(4);
    expect(least(1)).toBe(3);
    set(0, 5);
    expect(least(1)).toBe(8);
    backTo(0);
    set(0, 5);
    expect(least(1)).toBe(0);
  });

  test('that is decided for good still binds after later decisions are taken back', () => {
    const { trail, lags, least, set, backTo, settle } = pair();
    set(4, 1);
    settle();
    trail.decide(0, 2);
    lags.propagate(0);
    expect(least(1)).toBe(5);
    backTo(0);
    expect(least(1)).toBe(3);
    set(0, 6);
    expect(least(1)).toBe(9);
  });

  test('is the other way round when one of the two no longer fits before the other', () => {
    const { trail, set } = pair();
    set(3, -4);
    set(0, 2);
    expect(trail.bound[5]).toBe(0);
  });
});

describe('a costly look', () => {
  const taken = (size: number, isGain: boolean): number => {
    const seldom = new Seldom(size);
    let count = 0;
    for (let k = 0; k < 2000; k++)
      if (seldom.isDue()) {
        count++;
        seldom.found(isGain);
      }
    return count;
  };

  test('is taken each time where there is little to look at, and where it always finds something', () => {
    expect(taken(12, false)).toBe(2000);
    expect(taken(30, true)).toBe(2000);
  });

  test('is taken rarely where it finds nothing', () => {
    expect(taken(30, false)).toBeLessThan(200);
    expect(taken(30, false)).toBeGreaterThan(5);
  });
});
