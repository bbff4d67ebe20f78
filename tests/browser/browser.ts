/**
 * A Chromium for the browser tests: the one named in `CHROMIUM`, one on the `PATH`, or Debian's package, installed
 * on the spot where that is allowed.
 */
import { spawnSync } from 'node:child_process';
import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium, type Browser } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** Chromium as root in a container, and without its background traffic. */
const FLAGS = [
  '--no-sandbox',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const ADVICE = [
  'The browser tests need a Chromium. Either',
  '  install one:   apt-get install chromium     (as root, on Debian)',
  '  or name one:   CHROMIUM=/path/to/chromium npm test',
].join('\n');

/** Starts a browser without a window; the caller closes it. Throws with advice when there is none to start. */
export async function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: requireChromium(), args: FLAGS });
}

/** The path of a Chromium, installing Debian's package when none is found. Throws with advice when that fails too. */
export function requireChromium(): string {
  const found = findChromium(process.env);
  if (found !== undefined) return found;
  const trouble = installChromium();
  const installed = findChromium(process.env);
  if (installed !== undefined) return installed;
  throw new Error(`${trouble}\n${ADVICE}`);
}

/**
 * `env.CHROMIUM` if set (an error when it names nothing that runs), else the first known name on `env.PATH`, else
 * undefined.
 */
export function findChromium(env: Readonly<Record<string, string | undefined>>): string | undefined {
  if (env.CHROMIUM !== undefined && env.CHROMIUM !== '') {
    if (runs(env.CHROMIUM)) return env.CHROMIUM;
    throw new Error(`CHROMIUM names "${env.CHROMIUM}", which is not a program that can be run.\n${ADVICE}`);
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find(runs);
}

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** Installs Debian's package as root or by a password-free sudo; says what went wrong, for use if it did not help. */
function installChromium(): string {
  if (spawnSync('apt-get', ['--version']).status !== 0)
    return 'No Chromium found, and no apt-get to install one.';
  const isRoot = process.getuid?.() === 0;
  if (!isRoot && spawnSync('sudo', ['-n', 'true']).status !== 0) {
    return 'No Chromium found; installing one needs root or a sudo that asks no password.';
  }
  process.stderr.write('No Chromium found; installing the Debian package (once).\n');
  for (const step of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    const words = [
      ...(isRoot ? [] : ['sudo', '-n']),
      'env',
      'DEBIAN_FRONTEND=noninteractive',
      'apt-get',
      '-q',
      ...step,
    ];
    const done = spawnSync(words[0], words.slice(1), { encoding: 'utf8' });
    if (done.status !== 0) return `"${words.join(' ')}" failed:\n${done.stderr}`;
  }
  return 'Installed the Debian package, and still no Chromium on the PATH.';
}
