/** The addresses of the screens, read from the list the app itself is made from. */
import { readFileSync } from 'node:fs';

const source = readFileSync(new URL('../../src/ui/shell/screens.ts', import.meta.url), 'utf8');

export const SCREEN_PATHS: readonly string[] = [...source.matchAll(/path: '([^']+)'/g)].map(
  ([, path]) => path,
);
