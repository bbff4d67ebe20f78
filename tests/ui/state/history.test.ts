import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advance, beginHistory, stepBack, stepForward, type History } from '../../../src/ui/state/history.ts';

describe('undo and redo', () => {
  test('undo brings the shop back to what it was, redo to what it became', () => {
    const edited = advance(advance(beginHistory('a'), 'b', 'one'), 'c', 'two');
    const back = stepBack(edited);
    expect(back.present).toEqual({ value: 'b', says: 'one' });
    expect(stepForward(back).present).toEqual({ value: 'c', says: 'two' });
  });

  test('an edit after an undo forgets what was undone', () => {
    const branched = advance(stepBack(advance(beginHistory('a'), 'b', 'one')), 'x', 'other');
    expect(branched.future).toEqual([]);
    expect(stepBack(branched).present.value).toBe('a');
  });

  test('with nothing to undo or redo the history is the very same', () => {
    const fresh = beginHistory(1);
    expect(stepBack(fresh)).toBe(fresh);
    expect(stepForward(fresh)).toBe(fresh);
  });

  test('any run of edits, undos and redos agrees with a list and a finger on it', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('edit', 'undo', 'redo'), { maxLength: 60 }), (acts) => {
        let history: History<number> = beginHistory(0);
        let list = [0];
        let finger = 0;
        for (const [index, act] of acts.entries()) {
          if (act === 'edit') {
            history = advance(history, index + 1, '');
            list = [...list.slice(0, finger + 1), index + 1];
            finger += 1;
          } else if (act === 'undo') {
            history = stepBack(history);
            finger = Math.max(0, finger - 1);
          } else {
            history = stepForward(history);
            finger = Math.min(list.length - 1, finger + 1);
          }
          expect(history.present.value).toBe(list[finger]);
        }
      }),
      { seed: 20261125 },
    );
  });
});
