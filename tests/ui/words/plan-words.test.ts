import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Phase } from '../../../src/ui/state/index.ts';
import { planWords } from '../../../src/ui/words/index.ts';

const PHASES: readonly Phase[] = ['starting', 'planning', 'improving', 'settled', 'clash', 'failed'];

test('a plan that stands is never said to be missing, and one that is missing never to be out of date', () => {
  for (const phase of PHASES) {
    expect(planWords(phase, true)).not.toMatch(/no plan/i);
    expect(planWords(phase, false)).not.toMatch(/out of date|better/i);
  }
});

test('what a maker can tell apart is said in other words, and a settled plan always in the same', () => {
  const said = PHASES.map((phase) => planWords(phase, true));
  expect(new Set(said).size).toBe(PHASES.length);
  expect(planWords('settled', false)).toBe(planWords('settled', true));
});

test('no screen has words of its own for how planning stands', () => {
  const screens = fileURLToPath(new URL('../../../src/ui', import.meta.url));
  const said = PHASES.flatMap((phase) => [planWords(phase, true), planWords(phase, false)]);
  const stems = new Set(said.map((words) => words.replace('…', '')));
  const own = /(?:plan is (?:settled|being made|ready|made)|no plan to|proved best|['"`>]planning…)/i;
  const telling = readdirSync(screens, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith(join('words', 'plan-words.ts')))
    .filter((name) => {
      const text = readFileSync(join(screens, name), 'utf8').replace(/^\s*(?:\/\/|\/?\*).*$/gm, '');
      return own.test(text) || [...stems].some((words) => text.includes(words));
    });
  expect(telling).toEqual([]);
});
