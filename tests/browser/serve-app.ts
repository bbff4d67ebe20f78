/** Builds the app once into a folder of its own and serves it for the browser tests, which ask for `appUrl`. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { requireChromium } from './browser.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, ending in a slash. */
    appUrl: string;
  }
}

export async function setup(project: TestProject): Promise<() => Promise<void>> {
  requireChromium();
  const outDir = await mkdtemp(join(tmpdir(), 'pourwright-app-'));
  await build({ mode: 'production', logLevel: 'warn', build: { outDir, emptyOutDir: true } });
  const server = await preview({
    logLevel: 'warn',
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0, open: false },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('The preview server has no port.');
  project.provide('appUrl', `http://127.0.0.1:${address.port}/`);
  return async () => {
    await server.close();
    await rm(outDir, { recursive: true, force: true });
  };
}
