import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { report } from '../../../docs/scheduler-example.ts';

const page = readFileSync(fileURLToPath(new URL('../../../docs/scheduler.md', import.meta.url)), 'utf8');

test("the scheduler's page shows what its example, which uses the package's own entry, says", () => {
  expect(page).toContain(report().join('\n'));
});

test("the scheduler's page names only files that are there", () => {
  const names = [...page.matchAll(/`([a-z-]+\.ts)`/g)].map(([, name]) => name);
  expect(names.length).toBeGreaterThan(15);
  const places = ['src/engine/schedule', 'tests/engine/schedule', 'docs'].map(
    (folder) => new URL(`../../../${folder}/`, import.meta.url),
  );
  const exists = (name: string): boolean =>
    places.some((place) => {
      try {
        return readFileSync(new URL(name, place)).length > 0;
      } catch {
        return false;
      }
    });
  expect(names.filter((name) => !exists(name))).toEqual([]);
});
