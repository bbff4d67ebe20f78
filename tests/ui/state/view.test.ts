/** What a device keeps of how its screen looks. */
import { expect, test } from 'vitest';
import { keptView } from '../../../src/ui/state/view.ts';

test('what was kept is as it was left', () => {
  expect(keptView('{"theme":"dark","putAway":["a","b"]}')).toEqual({ theme: 'dark', putAway: ['a', 'b'] });
  expect(keptView('{"theme":"light"}')).toEqual({ theme: 'light', putAway: [] });
});

test('what cannot be read is as on a first visit, each part by itself', () => {
  const first = { theme: 'system', putAway: [] };
  for (const text of [null, '', 'light', '7', 'null', '[]', '{}', '{"theme":"pink","putAway":7}'])
    expect(keptView(text)).toEqual(first);
  expect(keptView('{"putAway":["a",7,null]}')).toEqual({ theme: 'system', putAway: ['a'] });
});
