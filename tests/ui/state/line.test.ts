import { describe, expect, test } from 'vitest';
import type { Shop } from '../../../src/engine/index.ts';
import { stepBack } from '../../../src/ui/state/history.ts';
import { beginLine, lengthen, lineText, nameOf, readLine } from '../../../src/ui/state/line.ts';
import { KEPT_STATES } from '../../../src/ui/storage/index.ts';

const shopOf = (name: string): Shop => ({ name }) as Shop;
const now = shopOf('now');
const lineOf = (edits: number) => {
  let line = beginLine(shopOf('first'));
  for (let k = 1; k <= edits; k++) line = lengthen(line, shopOf(`${k}`), `edit ${k}`);
  return line;
};

describe('the line of states that a device keeps', () => {
  test('tells each change before and after the present one, in words and in its place', () => {
    const line = stepBack(lineOf(3));
    const read = readLine(lineText(line), now);
    expect(read.past.map(nameOf)).toEqual(line.past.map(nameOf));
    expect(read.present).toEqual({ value: { position: 2, shop: now }, says: 'edit 2' });
    expect(read.future.map(nameOf)).toEqual([{ position: 3, says: 'edit 3' }]);
  });

  test('tells of no more states than there is room for, and so no two share a place', () => {
    let line = lineOf(150);
    for (let k = 0; k < 20; k++) line = stepBack(line);
    const read = readLine(lineText(line), now);
    const positions = [...read.past, read.present, ...read.future].map((entry) => entry.value.position);
    expect(positions).toHaveLength(KEPT_STATES);
    expect(new Set(positions.map((position) => position % KEPT_STATES)).size).toBe(KEPT_STATES);
    expect(read.present.value.position).toBe(130);
    expect(read.future).toHaveLength(20);
    for (let k = 0; k < 100; k++) line = stepBack(line);
    expect(readLine(lineText(line), now).future).toHaveLength(KEPT_STATES - 1);
  });

  test.each([
    null,
    '',
    '{"half": ',
    'null',
    '[]',
    '{"position":1,"past":["a"],"says":"b"}',
    '{"position":1.5,"past":["a"],"says":"b","future":[]}',
    '{"position":1,"past":[7],"says":"b","future":[]}',
    '{"position":0,"past":["a"],"says":"b","future":[]}',
  ])('begins anew where %j was kept', (text) => {
    expect(readLine(text, now)).toEqual(beginLine(now));
  });
});
