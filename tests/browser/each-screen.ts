/** A walk over the screens; their addresses are read from the list the app itself is made from. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { inject } from 'vitest';

const source = readFileSync(new URL('../../src/ui/shell/screens.ts', import.meta.url), 'utf8');

export const SCREEN_PATHS: readonly string[] = [...source.matchAll(/path: '([^']+)'/g)].map(
  ([, path]) => path,
);

/** Opens each screen in turn, the first start last, and gathers what `look` finds there, a line each. */
export async function findOnEach(
  page: Page,
  look: (page: Page) => Promise<readonly string[]>,
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const path of [...SCREEN_PATHS, '/start']) {
    await page.goto(`${inject('appUrl')}#${path}`);
    await page.locator('main > *').first().waitFor();
    await page.waitForTimeout(400);
    for (const finding of await look(page)) found.push(`${path}: ${finding}`);
  }
  return found;
}
