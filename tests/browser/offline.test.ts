/** The app kept on the device, in a real browser: opened with no network, and a new build after an old one. */
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { serviceWorkerText } from '../../vite.offline.ts';
import { shopText } from '../ui/small-shop.ts';
import { openBrowser } from './browser.ts';
import { serve } from './serve-app.ts';
import { axeFindings, openShop, settled, visit, type Visit } from './visit.ts';

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

/** All but the worker itself, from the folder. */
const filesIn = async (at: string): Promise<readonly string[]> => {
  const entries = await readdir(at, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && entry.name !== WORKER)
    .map((entry) => join(entry.parentPath, entry.name).slice(at.length + 1));
};

/** As the build does, for the files that are in the folder now. */
const writeWorker = async (): Promise<void> => {
  const files = (await filesIn(folder)).map(async (path) => ({
    path,
    content: await readFile(join(folder, path)),
  }));
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
/** Looked up beside the worker: a browser puts off looking for a new build while the worker is asked for files. */
const isKept = (page: Page, name: string): Promise<boolean> =>
  page.evaluate(async (path) => (await caches.match(path)) !== undefined, `./assets/${name}.js`);
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
  await expect.poll(() => isKept(page, 'first'), { timeout: 20_000 }).toBe(false);
  expect(await fetched(page, 'first')).not.toBe('first');
  expect(await builds(page)).toBe(2);
  await page.reload();
  expect(await buildOf(page)).toBe('third');
});

test('a page of an older build says that a newer one is ready and takes it by a tap, with all that was done', async () => {
  const { page } = at;
  await openShop(page, shopText, 'Two Evenings');
  await kept(page);
  const note = page.locator('.newer-note');
  expect(await note.count()).toBe(0);
  await publish('second', 'first');
  await page.reload();
  await page
    .locator('.entry', { hasText: 'Prepare wood and form' })
    .first()
    .getByRole('button', { name: /^Begin/ })
    .click();
  await page.locator('.entry-running').waitFor();
  await note.waitFor({ timeout: 20_000 });
  expect(await buildOf(page)).toBeUndefined();
  expect(await axeFindings(page, '.notices')).toEqual([]);
  // What is written at the first start is in no shop yet.
  await page.evaluate(() => (window.location.hash = '#/start'));
  await note.waitFor({ state: 'detached' });
  await page.evaluate(() => (window.location.hash = '#/today'));
  await note.getByRole('button', { name: 'Use it now' }).click();
  await expect.poll(() => buildOf(page).catch(() => undefined), { timeout: 20_000 }).toBe('second');
  await page.locator('.entry-running').waitFor();
  await page.getByRole('button', { name: /^Undo: begin/ }).waitFor();
  expect(await note.count()).toBe(0);
});

test('the build lists every one of its files to be kept', async () => {
  const built = await filesIn(inject('appFolder'));
  const worker = await readFile(join(inject('appFolder'), WORKER), 'utf8');
  const listed = JSON.parse(/^const BUILD = (.*);$/m.exec(worker)?.[1] ?? '') as {
    readonly files: readonly { readonly path: string }[];
  };
  const paths = listed.files.map(({ path }) => (path === './' ? 'index.html' : path));
  expect([...paths].sort()).toEqual([...built].sort());
  expect(paths).toContain('pourwright.webmanifest');
});

test('the browser finds nothing against keeping it on a home screen, with no network as with one', async () => {
  const { page, context } = at;
  await kept(page);
  await server.close();
  await page.reload();
  await settled(page);
  const browserItself = await context.newCDPSession(page);
  const { url, errors, manifest } = await browserItself.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(url).toBe(`${server.url}pourwright.webmanifest`);
  expect(manifest).toMatchObject({ name: 'Pourwright', display: 'kStandalone', startUrl: server.url });
  const { installabilityErrors } = await browserItself.send('Page.getInstallabilityErrors');
  // A window that leaves no traces keeps nothing on a home screen, whatever the app.
  expect(installabilityErrors.map(({ errorId }) => errorId)).toEqual(['in-incognito']);
  const drawn = await page.evaluate(async () => {
    const { icons } = (await (await fetch('./pourwright.webmanifest')).json()) as {
      icons: { src: string; sizes: string }[];
    };
    return Promise.all(
      icons.map(async ({ src, sizes }) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        return [sizes, sizes === 'any' ? 'any' : `${image.naturalWidth}x${image.naturalHeight}`];
      }),
    );
  });
  for (const [stated, found] of drawn) expect(found).toBe(stated);
  expect(drawn.length).toBeGreaterThan(2);
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
