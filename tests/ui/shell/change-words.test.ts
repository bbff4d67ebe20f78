import { describe, expect, test } from 'vitest';
import { makeZoneClock } from '../../../src/ui/clock/index.ts';
import { movedWords, sortedByReach } from '../../../src/ui/shell/change-words.ts';
import type { Moved } from '../../../src/ui/state/index.ts';

// Dublin keeps summer time: its midnight is 23:00 in UTC.
const clock = makeZoneClock('Europe/Dublin');
const at = (time: string): number => Date.parse(`2026-07-${time}Z`) / 60_000;
const moved = (from: string, to: string): Moved => ({ piece: 'a', step: from, from: at(from), to: at(to) });
const told = (...moves: readonly Moved[]): string => movedWords(sortedByReach(moves, clock));

const anotherDay = moved('06T10:00', '07T10:00');
const anHour = moved('06T11:00', '06T12:00');
const minutes = moved('06T12:00', '06T12:05');

describe('what a change moved', () => {
  test('is told by the steps that moved far, and minutes only as such', () => {
    expect(told(anotherDay, anHour, minutes, minutes)).toBe(
      '2 steps moved, one of them to another day. Some others by minutes only.',
    );
    expect(sortedByReach([minutes, anotherDay, anHour], clock).far).toEqual([anotherDay, anHour]);
  });

  test('is no number at all where it is minutes', () => {
    expect(told(minutes, minutes, minutes)).toBe('Nothing else moved, but for some minutes.');
    expect(told()).toBe('Nothing else moved.');
  });

  test('counts a quarter of an hour as minutes, and a minute more as moved, earlier or later', () => {
    expect(told(moved('06T12:00', '06T12:15'), moved('06T12:15', '06T12:00'))).toMatch(/^Nothing else/);
    expect(told(moved('06T12:00', '06T12:16'))).toBe('One step moved, within its day.');
    expect(told(moved('06T12:16', '06T12:00'))).toBe('One step moved, within its day.');
  });

  test("is to another day over the shop's own midnight, by however little", () => {
    expect(told(moved('06T22:57', '06T23:02'))).toBe('One step moved to another day.');
    expect(told(moved('06T23:57', '07T00:02'))).toBe('Nothing else moved, but for some minutes.');
  });

  test.each([
    [[anHour, anHour], '2 steps moved, each within its day.'],
    [[anotherDay, anotherDay], '2 steps moved to another day.'],
    [[anotherDay, anotherDay, anHour], '3 steps moved, 2 of them to another day.'],
  ])('is said in one sentence', (moves, words) => {
    expect(told(...moves)).toBe(words);
  });
});
