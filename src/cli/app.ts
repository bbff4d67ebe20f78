/** The app in the browser: its place in this package, whether it has to be built, and the server that shows it. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PACKAGE_ROOT = fileURLToPath(new URL('../..', import.meta.url));

// Vite is loaded where it is used: the other commands start faster without it.

/** What the built app is made from. */
const SOURCES = [
  'src',
  'examples',
  'public',
  'index.html',
  'vite.config.ts',
  'vite.offline.ts',
  'package-lock.json',
];

/** Builds the app into `dist` unless what is there is newer than everything it is made from. */
export async function buildIfStale(): Promise<void> {
  const built = join(PACKAGE_ROOT, 'dist', 'index.html');
  const newest = Math.max(...SOURCES.map((source) => newestChange(join(PACKAGE_ROOT, source))));
  if (existsSync(built) && statSync(built).mtimeMs > newest) return;
  const { build } = await import('vite');
  await build({ root: PACKAGE_ROOT, logLevel: 'warn' });
}

function newestChange(path: string): number {
  if (!existsSync(path)) return 0;
  const own = statSync(path);
  if (!own.isDirectory()) return own.mtimeMs;
  // A folder's own time is the last coming or going of a file in it.
  return Math.max(own.mtimeMs, ...readdirSync(path).map((name) => newestChange(join(path, name))));
}

export interface Server {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves `dist`. When the port is taken the next free one is used. */
export async function serveApp(host: string, port: number): Promise<Server> {
  const { preview } = await import('vite');
  const server = await preview({
    root: PACKAGE_ROOT,
    logLevel: 'warn',
    preview: { host, port, strictPort: false, open: false },
  });
  const urls = server.resolvedUrls;
  const address = urls?.local[0] ?? urls?.network[0] ?? `http://${host}:${port}/`;
  return { address, close: () => server.close() };
}
