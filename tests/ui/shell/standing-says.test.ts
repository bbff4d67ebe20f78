import { expect, test } from 'vitest';
import { standingSays } from '../../../src/ui/shell/standing-says.ts';

const level = (name: 'early' | 'moved') => ({ name, value: 0, bound: 0, proven: true });

test('a plan is called proved best only when every level is proved, and of all plans only when none stood before', () => {
  const fresh = [level('early')];
  const again = [level('moved'), level('early')];
  expect(standingSays('settled', { status: 'feasible', levels: fresh })).toBe('plan is settled');
  expect(standingSays('settled', { status: 'optimal', levels: fresh })).toBe('plan is proved best');
  expect(standingSays('settled', { status: 'optimal', levels: again })).toBe('proved best, moving least');
  expect(standingSays('improving', { status: 'optimal', levels: fresh })).toBe('looking for a better plan…');
  expect(standingSays('settled', null)).toBe('plan is settled');
});
