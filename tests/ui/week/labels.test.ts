/** Where the words of visits stand that follow each other faster than words can. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeLabels, wideBlocks, type Block } from '../../../src/ui/week/labels.ts';

const SEED = { seed: 20261125 };
const TYPE = { lineHeight: 18, around: 3, least: 21 };
const DAY = 2000;

const alone = (top: number, bottom: number, left = 0, right = 140): Block => ({
  top,
  bottom,
  left,
  right,
  isAlone: true,
});
const days = fc.array(
  fc
    .record({
      top: fc.integer({ min: 0, max: 900 }),
      length: fc.integer({ min: 1, max: 200 }),
      isRight: fc.boolean(),
      isAlone: fc.boolean(),
      lines: fc.integer({ min: 1, max: 5 }),
    })
    .map(({ top, length, isRight, isAlone, lines }) => ({
      block: { ...alone(top, top + length, isRight ? 70 : 0, isRight ? 140 : 70), isAlone },
      lines,
    })),
  { maxLength: 25 },
);
const place = (day: readonly { readonly block: Block; readonly lines: number }[], height = DAY) => {
  const labels = placeLabels(
    day.map(({ block }) => block),
    day.map(({ lines }) => lines),
    TYPE,
    height,
  );
  return day.map(({ block, lines }, at) => ({ block, wanted: lines, label: labels[at] }));
};

describe('a visit by itself', () => {
  test('has its words where its time is, and fills it when it is long', () => {
    expect(placeLabels([alone(100, 400)], [3], TYPE, DAY)).toEqual([{ top: 100, height: 300, lines: 3 }]);
  });

  test('shorter than its words gets two lines at most beyond its end', () => {
    expect(placeLabels([alone(100, 105)], [4], TYPE, DAY)).toEqual([{ top: 100, height: 39, lines: 2 }]);
  });

  test('in the last minutes of the day has its words above the end of the day', () => {
    expect(placeLabels([alone(1995, 2000)], [1], TYPE, DAY)).toEqual([{ top: 1979, height: 21, lines: 1 }]);
  });
});

describe('visits that follow each other closely', () => {
  test('give way downwards, by no more than the words before them need', () => {
    // 13:08, 13:21, 13:34, 13:44 and then 15:00, at 80 pixels an hour.
    const blocks = [alone(11, 26), alone(28, 43), alone(45, 52), alone(59, 66), alone(160, 170)];
    expect(placeLabels(blocks, [3, 3, 3, 3, 1], TYPE, DAY).map(({ top, lines }) => [top, lines])).toEqual([
      [11, 1],
      [32, 1],
      [53, 1],
      [74, 2],
      [160, 1],
    ]);
  });

  test('never cover each other’s words, keep their order, and each can be read', () => {
    fc.assert(
      fc.property(days, (day) => {
        const placed = place(day);
        for (const { label, wanted } of placed) {
          expect(label.height).toBeGreaterThanOrEqual(TYPE.least);
          expect(label.height).toBeGreaterThanOrEqual(label.lines * TYPE.lineHeight + TYPE.around);
          expect(label.lines).toBeGreaterThanOrEqual(1);
          expect(label.lines).toBeLessThanOrEqual(wanted);
        }
        for (const [at, a] of placed.entries())
          for (const b of placed.slice(at + 1)) {
            if (a.block.left !== b.block.left) continue;
            const [first, second] = a.block.top <= b.block.top ? [a, b] : [b, a];
            expect(first.label.top + first.label.height).toBeLessThanOrEqual(second.label.top);
          }
      }),
      SEED,
    );
  });

  test('stand at their time, or right below words that are in the way', () => {
    fc.assert(
      fc.property(days, (day) => {
        const placed = place(day, 1e6);
        for (const { block, label } of placed) {
          const isBelow = placed.some(
            (other) => other.block.left === block.left && other.label.top + other.label.height === label.top,
          );
          expect(label.top === block.top || (label.top > block.top && isBelow)).toBe(true);
        }
      }),
      SEED,
    );
  });
});

describe('visits at the same time', () => {
  const sizes = { short: 42, narrow: 110 };

  test('stand below each other when all are short or their parts are narrow, else beside each other', () => {
    const short = [alone(0, 20, 0, 200), alone(10, 30, 200, 400)];
    const narrow = [alone(100, 300, 0, 70), alone(150, 160, 70, 140)];
    const roomy = [alone(400, 700, 0, 200), alone(450, 600, 200, 400)];
    const single = [alone(800, 810, 0, 70)];
    const wide = wideBlocks([...roomy, ...short, ...single, ...narrow], sizes);
    expect(wide).toEqual(new Set([...short, ...narrow]));
  });

  test('that only touch are not at the same time', () => {
    expect(wideBlocks([alone(0, 20), alone(20, 40)], sizes).size).toBe(0);
  });
});
