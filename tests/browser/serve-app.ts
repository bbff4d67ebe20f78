/** Builds the app once into a folder of its own and serves it for the browser tests, which ask for `appUrl`. */
import { spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
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
  buildApp(outDir);
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

/** In a process of its own: inside the test runner Vite would build the app for tests and not for people. */
function buildApp(outDir: string): void {
  const vite = fileURLToPath(import.meta.resolve('vite/bin/vite.js'));
  const { NODE_ENV: _, VITEST: __, ...env } = process.env;
  const words = [vite, 'build', '--outDir', outDir, '--emptyOutDir', '--logLevel', 'warn'];
  const done = spawnSync(process.execPath, words, { env, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`The app cannot be built:\n${done.stdout}${done.stderr}`);
}
