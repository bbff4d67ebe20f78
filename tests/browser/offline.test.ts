/** The app kept on the device, in a real browser: opened with no network, and a new build after an old one. */
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { serviceWorkerText } from '../../vite.offline.ts';
import { openBrowser } from './browser.ts';
import { serve } from './serve-app.ts';
import { settled, visit, type Visit } from './visit.ts';

let folder: string;
let server: Awaited<ReturnType<typeof serve>>;
let at: Visit;
let end: () => Promise<void>;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'pourwright-offline-'));
  await cp(inject('appFolder'), folder, { recursive: true });
  await writeFile(join(folder, 'assets', 'first.js'), 'first');
  await writeWorker();
  server = await serve(folder);
  const browser = await openBrowser();
  end = () => browser.close();
  at = await visit(browser, server.url, '/today');
});
afterEach(async () => {
  await end();
  await server.close().catch(() => undefined);
  await rm(folder, { recursive: true, force: true });
});

const WORKER = 'service-worker.js';

/** As the build does, for the files that are in the folder now. */
const writeWorker = async (): Promise<void> => {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = entries
    .filter((entry) => entry.isFile() && entry.name !== WORKER)
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
  const files = paths.map(async (path) => ({ path, content: await readFile(join(folder, path)) }));
  await writeFile(join(folder, WORKER), await serviceWorkerText(await Promise.all(files)));
};

/** A build after the one that is served: another page, with a file less and a file more. */
const publish = async (name: string, old: string): Promise<void> => {
  const page = join(folder, 'index.html');
  const text = await readFile(page, 'utf8');
  await writeFile(page, text.replace('<html lang="en"', `<html lang="en" data-build="${name}"`));
  await rm(join(folder, 'assets', `${old}.js`));
  await writeFile(join(folder, 'assets', `${name}.js`), name);
  await writeWorker();
};

/** How many builds are kept, once none is on its way; 0 until then. */
const builds = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const { installing, waiting, active } = await navigator.serviceWorker.ready;
    return installing || waiting || active?.state !== 'activated' ? 0 : (await caches.keys()).length;
  });
const buildOf = (page: Page): Promise<string | undefined> =>
  page.evaluate(() => document.documentElement.dataset.build);
const fetched = (page: Page, name: string): Promise<string> =>
  page.evaluate(async (path) => (await fetch(path)).text(), `./assets/${name}.js`);
/** Waits until the browser has the app. */
const kept = async (page: Page): Promise<void> => {
  await settled(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
};

test('once it was open, the app opens and plans with no network', async () => {
  const { page, complaints } = at;
  await kept(page);
  await server.close();
  await page.reload();
  await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
  await settled(page);
  await page.locator('.way[href="#/week"]').click();
  await page.locator('main > .week').waitFor();
  expect(complaints).toEqual([]);
});

test('a new build is what the next page is opened with, and a page that is open keeps the files of its own', async () => {
  const { page } = at;
  await kept(page);
  await publish('second', 'first');
  await page.reload();
  expect(await buildOf(page)).toBeUndefined();
  await expect.poll(() => builds(page), { timeout: 20_000 }).toBe(2);
  expect(await fetched(page, 'first')).toBe('first');
  await page.reload();
  expect(await buildOf(page)).toBe('second');
  await publish('third', 'second');
  await page.reload();
  await expect.poll(() => fetched(page, 'first'), { timeout: 20_000 }).not.toBe('first');
  expect(await builds(page)).toBe(2);
  await page.reload();
  expect(await buildOf(page)).toBe('third');
});

test('files that do not belong together are not kept', async () => {
  const { page } = at;
  await kept(page);
  const worker = await readFile(join(folder, WORKER));
  await publish('second', 'first');
  // The page of the second build with a worker that lists a third one.
  await writeFile(join(folder, WORKER), `${worker.toString().replace(/"version":"./, '"version":"x')}`);
  const outcome = await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const { installing } = registration;
    if (!installing) return 'none came';
    await new Promise<void>((resolve) => {
      installing.addEventListener('statechange', () => resolve());
    });
    return installing.state;
  });
  expect(outcome).toBe('redundant');
  await page.reload();
  expect(await builds(page)).toBe(1);
  expect(await buildOf(page)).toBeUndefined();
});
