/** Builds the app once into a folder of its own and serves it for the browser tests, which ask for `appUrl`. */
import { spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { requireChromium } from './browser.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const VITE = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, ending in a slash. */
    appUrl: string;
    /** The folder it was built into. */
    appFolder: string;
  }
}

/** Without a browser or without an app only the browser tests fail, each of them; the other tests still run. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const outDir = await mkdtemp(join(tmpdir(), 'pourwright-app-'));
  const removeApp = () => rm(outDir, { recursive: true, force: true });
  try {
    requireChromium();
    buildApp(outDir);
    const server = await serve(outDir);
    project.provide('appUrl', server.url);
    project.provide('appFolder', outDir);
    return async () => {
      await server.close();
      await removeApp();
    };
  } catch (fault) {
    process.stderr.write(
      `The browser tests cannot run: ${fault instanceof Error ? fault.message : String(fault)}\n`,
    );
    project.provide('appUrl', '');
    project.provide('appFolder', '');
    return removeApp;
  }
}

/** Serves a folder at a port of its own. */
export async function serve(outDir: string): Promise<{ readonly url: string; close(): Promise<void> }> {
  const server = await preview({
    logLevel: 'warn',
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0, open: false },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the preview server has no port');
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}

/** In a process of its own: inside the test runner Vite would build the app for tests and not for people. */
function buildApp(outDir: string): void {
  const { NODE_ENV: _, VITEST: __, ...env } = process.env;
  const words = [VITE, 'build', '--outDir', outDir, '--emptyOutDir', '--logLevel', 'warn'];
  const done = spawnSync(process.execPath, words, { cwd: ROOT, env, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`the app cannot be built:\n${done.stdout}${done.stderr}`);
}
