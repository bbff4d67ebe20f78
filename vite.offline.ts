/** Writes the service worker of a build: its code with the list of every file that the app consists of. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { transformWithOxc, type Plugin } from 'vite';

const SOURCE = fileURLToPath(new URL('./src/ui/offline/service-worker.ts', import.meta.url));

export interface BuiltFile {
  /** From the folder of the app. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** The page is asked for by its folder. */
const addressOf = (path: string): string => (path === 'index.html' ? './' : path);
const hashOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('base64');

/** The service worker that keeps exactly these files. */
export async function serviceWorkerText(files: readonly BuiltFile[]): Promise<string> {
  const listed = files
    .map(({ path, content }) => ({ path: addressOf(path), integrity: `sha256-${hashOf(content)}` }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
  const build = { version: hashOf(JSON.stringify(listed)), files: listed };
  const { code } = await transformWithOxc(readFileSync(SOURCE, 'utf8'), SOURCE);
  return `const BUILD = ${JSON.stringify(build)};\n${code}`;
}

/** Files that are copied as they are: manifest and icons. */
const copied = (folder: string): BuiltFile[] =>
  readdirSync(folder).map((path) => ({ path, content: readFileSync(join(folder, path)) }));

export function offline(): Plugin {
  let publicDir = '';
  return {
    name: 'pourwright-offline',
    apply: 'build',
    enforce: 'post',
    configResolved(config) {
      publicDir = config.publicDir;
    },
    generateBundle: {
      order: 'post',
      async handler(_, bundle) {
        const files = Object.values(bundle).map((file) => ({
          path: file.fileName,
          content: file.type === 'chunk' ? file.code : file.source,
        }));
        this.emitFile({
          type: 'asset',
          fileName: 'service-worker.js',
          source: await serviceWorkerText([...files, ...copied(publicDir)]),
        });
      },
    },
  };
}
