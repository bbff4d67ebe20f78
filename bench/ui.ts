/**
 * `npm run bench:ui [-- --json]`: how the built app feels in Chromium with the six-week example, as measured.
 *
 * The app is built, served and driven by a real mouse. Each figure is taken in the page itself: from the event's own time
 * stamp to the task after the frame that shows its effect. A frame's own time begins with the frame. Start is measured
 * with a fresh profile each time.
 *
 * A pointer move waits for the next frame, and Chromium without a display may keep a rhythm of 60 a second whatever it is
 * told. The mouse is moved again as soon as a frame is shown, so the wait is all of it: an empty page tells how much.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium, type Browser, type Page } from 'playwright-core';
import { build } from 'vite';
import { requireChromium } from '../tests/browser/browser.ts';
import { serve } from '../tests/browser/serve-app.ts';

interface Figure {
  readonly measure: string;
  readonly unit: 'ms' | 'kB' | 'steps';
  readonly median: number;
  readonly p95: number;
  readonly worst: number;
  readonly runs: number;
  /** What it is meant to stay under; null: told for its own sake. */
  readonly under: number | null;
}

const NOW = new Date('2026-11-25T07:00:00Z');
const DESK = { width: 1440, height: 900 };
const STARTS = 5;
const DROPS = 20;

const figure = (
  measure: string,
  unit: Figure['unit'],
  values: readonly number[],
  under: number | null,
): Figure => {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number =>
    sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
  const round = (value: number): number => Math.round(value * 10) / 10;
  return {
    measure,
    unit,
    median: round(at(0.5)),
    p95: round(at(0.95)),
    worst: round(at(1)),
    runs: sorted.length,
    under,
  };
};

/** What the page keeps while it is watched. */
interface Watch {
  /** From the moment a frame begins to the task after it. */
  readonly frames: number[];
  /** From a pointer move to the task after the frame that follows it. */
  readonly moves: number[];
  /** The same without the wait of the move for its frame: from when the page hears of it. */
  readonly followed: number[];
  /** Page time at which the first step could be reached. */
  interactive: number;
  /** Page time of the last press that was let go, and of the first note of a new plan after it. */
  dropped: number;
  replanned: number;
  /** Page time at which a step was taken up, and at which its legal places were painted. */
  taken: number;
  placed: number;
}

declare global {
  interface Window {
    watch: Watch;
  }
}

/** Runs in the page before the app. */
const startWatching = (): void => {
  const watch: Watch = {
    frames: [],
    moves: [],
    followed: [],
    interactive: 0,
    dropped: 0,
    replanned: 0,
    taken: 0,
    placed: 0,
  };
  window.watch = watch;
  const afterFrame = (then: (now: number) => void): void => {
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.addEventListener('message', () => then(performance.now()), { once: true });
      channel.port1.start();
      channel.port2.postMessage(null);
    });
  };
  const eachFrame = (): void => {
    const begun = performance.now();
    const channel = new MessageChannel();
    channel.port1.addEventListener('message', () => watch.frames.push(performance.now() - begun), {
      once: true,
    });
    channel.port1.start();
    channel.port2.postMessage(null);
    requestAnimationFrame(eachFrame);
  };
  requestAnimationFrame(eachFrame);
  addEventListener(
    'pointermove',
    (event) => {
      const heard = performance.now();
      afterFrame((now) => {
        watch.moves.push(now - event.timeStamp);
        watch.followed.push(now - heard);
      });
    },
    true,
  );
  addEventListener(
    'pointerup',
    (event) => {
      watch.dropped = event.timeStamp;
      watch.replanned = 0;
    },
    true,
  );
  new MutationObserver(() => {
    if (watch.interactive === 0 && document.querySelector('.step-buttons button')) {
      afterFrame((now) => (watch.interactive ||= now));
    }
    if (watch.replanned === 0 && watch.dropped > 0 && document.querySelector('.toast')) {
      watch.replanned = -1;
      afterFrame((now) => (watch.replanned = now));
    }
    const isHeld = document.querySelector('.held-note') !== null;
    if (!isHeld) watch.taken = watch.placed = 0;
    else if (watch.taken === 0) watch.taken = performance.now();
    if (isHeld && watch.placed === 0 && document.querySelector('.held-open, .held-shut')) {
      watch.placed = -1;
      afterFrame((now) => (watch.placed = now));
    }
  }).observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ['class'] });
};

const newPage = async (browser: Browser): Promise<Page> => {
  const context = await browser.newContext({ viewport: DESK, reducedMotion: 'reduce' });
  const page = await context.newPage();
  // The compiler that runs this file names functions by a call that the page does not know.
  await page.addInitScript('globalThis.__name = (named) => named;');
  // The date of the example, with the real pace of time.
  await page.addInitScript((now) => {
    const real = Date.now.bind(Date);
    const shift = now - real();
    Date.now = () => real() + shift;
  }, NOW.getTime());
  await page.addInitScript(startWatching);
  page.on('pageerror', (error) => process.stderr.write(`${error.message}\n`));
  return page;
};

const settled = async (page: Page): Promise<void> => {
  await page.waitForFunction(
    () => /settled/.test(document.querySelector('.head-standing')?.textContent ?? ''),
    undefined,
    { timeout: 120_000, polling: 200 },
  );
};

const measureStart = async (browser: Browser, url: string): Promise<readonly Figure[]> => {
  const interactive: number[] = [];
  const painted: number[] = [];
  let scripts = 0;
  for (let run = 0; run < STARTS; run += 1) {
    const page = await newPage(browser);
    const loaded = new Map<string, Promise<Buffer>>();
    page.on('response', (response) => {
      // The workers' scripts load beside the picture; the page's own are what it waits for.
      if (response.request().resourceType() === 'script' && !response.url().includes('worker')) {
        loaded.set(response.url(), response.body());
      }
    });
    await page.goto(`${url}#/forms`);
    await page.waitForFunction(() => window.watch.interactive > 0, undefined, { timeout: 120_000 });
    interactive.push(await page.evaluate(() => window.watch.interactive));
    painted.push(
      await page.evaluate(
        () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
      ),
    );
    const bodies = await Promise.all([...loaded].map(([, body]) => body));
    scripts = bodies.reduce((sum, body) => sum + gzipSync(body).length, 0) / 1000;
    await page.context().close();
  }
  return [
    figure('start to the first picture', 'ms', painted, null),
    figure('start to the example shop, planned and ready to be used', 'ms', interactive, 1000),
    figure('script for the first screen, gzipped', 'kB', [scripts], 200),
  ];
};

/** A page with nothing on it: what of a pointer move's time is the browser's own. */
const measureEmpty = async (browser: Browser): Promise<readonly Figure[]> => {
  const page = await newPage(browser);
  await page.goto('about:blank');
  await page.mouse.move(100, 300);
  await page.evaluate(() => (window.watch.moves.length = window.watch.followed.length = 0));
  await page.mouse.move(700, 300, { steps: 120 });
  const { moves, followed } = await page.evaluate(() => window.watch);
  await page.context().close();
  return [
    figure('pointer move on an empty page, for comparison', 'ms', moves, null),
    figure('the same there without the wait for the frame', 'ms', followed, null),
  ];
};

const openSixWeeks = async (page: Page, url: string): Promise<void> => {
  await page.goto(`${url}#/forms`);
  await page.locator('.step-buttons button').first().waitFor({ state: 'attached', timeout: 120_000 });
  await page.getByRole('button', { name: 'Shop file and settings' }).click();
  await page.getByRole('menuitem', { name: 'Six weeks' }).click();
  await page.waitForFunction(() => document.querySelectorAll('.lane-names li').length > 12, undefined, {
    timeout: 120_000,
  });
  await settled(page);
};

const measurePan = async (page: Page): Promise<readonly Figure[]> => {
  await page.getByRole('button', { name: '6 weeks', exact: true }).click();
  await page.waitForTimeout(300);
  const steps = await page.locator('.step-buttons button').count();
  const board = await page.locator('.scroller').boundingBox();
  if (!board) throw new Error('the picture has no place on the page');
  // Between two lanes, where there is nothing to take up.
  const y = board.y + 14;
  await page.mouse.move(board.x + 900, y);
  await page.mouse.down();
  await page.evaluate(() => (window.watch.frames.length = 0));
  for (let sweep = 0; sweep < 6; sweep += 1) {
    await page.mouse.move(board.x + (sweep % 2 === 0 ? 300 : 1000), y, { steps: 60 });
  }
  const frames = await page.evaluate(() => window.watch.frames);
  await page.mouse.up();
  return [
    figure('steps in the picture while it is panned', 'steps', [steps], null),
    figure('frame while panning six weeks', 'ms', frames, 16),
  ];
};

const measureDrag = async (page: Page): Promise<readonly Figure[]> => {
  await page.getByRole('button', { name: 'Now', exact: true }).click();
  await page.getByRole('button', { name: '3 days', exact: true }).click();
  await page.waitForTimeout(300);
  const placed: number[] = [];
  const moves: number[] = [];
  const followed: number[] = [];
  const replanned: number[] = [];
  for (let drop = 0; drop < DROPS; drop += 1) {
    // Each time another step: one that is tied to its place has nowhere to be dropped.
    const spot = await page.evaluate((turn) => {
      const canvas = document.querySelector('canvas.lanes')?.getBoundingClientRect();
      if (!canvas) return null;
      const inSight = [...document.querySelectorAll<HTMLElement>('.step-buttons button')]
        .map((button) => button.getBoundingClientRect())
        .filter(
          (box) =>
            box.left > canvas.left + 100 &&
            box.left < canvas.right - 400 &&
            box.top > canvas.top &&
            box.bottom < canvas.bottom,
        );
      const box = inSight[turn % Math.max(1, inSight.length)];
      return box ? { x: box.left + 4, y: box.top + 13 } : null;
    }, drop * 7);
    if (!spot) throw new Error('no step of the next three days is in sight');
    await page.mouse.move(spot.x, spot.y);
    await page.mouse.down();
    await page.mouse.move(spot.x + 8, spot.y, { steps: 2 });
    await page.waitForFunction(() => window.watch.placed > 0, undefined, { timeout: 60_000 });
    placed.push(await page.evaluate(() => window.watch.placed - window.watch.taken));
    await page.evaluate(() => (window.watch.moves.length = window.watch.followed.length = 0));
    await page.mouse.move(spot.x + 160, spot.y, { steps: 30 });
    moves.push(...(await page.evaluate(() => window.watch.moves)));
    followed.push(...(await page.evaluate(() => window.watch.followed)));
    for (let x = spot.x + 160; x > spot.x + 4; x -= 6) {
      if ((await page.locator('.held-open').count()) > 0) break;
      await page.mouse.move(x, spot.y);
      await page.waitForTimeout(40);
    }
    if ((await page.locator('.held-open').count()) === 0) {
      await page.keyboard.press('Escape');
      await page.mouse.up();
      continue;
    }
    await page.mouse.up();
    const isPlanned = await page
      .waitForFunction(() => window.watch.replanned > 0, undefined, { timeout: 15_000 })
      .then(() => true)
      .catch(() => false);
    // Let go where it was taken up, nothing is planned again.
    if (!isPlanned) continue;
    replanned.push(await page.evaluate(() => window.watch.replanned - window.watch.dropped));
    await settled(page);
    await page.locator('.toast').getByRole('button', { name: 'Close this note' }).click();
    await page
      .getByRole('button', { name: /^Undo:/ })
      .first()
      .click();
    await settled(page);
    await page
      .locator('.toast')
      .getByRole('button', { name: 'Close this note' })
      .click({ timeout: 5000 })
      .catch(() => undefined);
  }
  return [
    figure('step taken up to its legal places painted', 'ms', placed, null),
    figure('pointer move to painted legal places', 'ms', moves, 16),
    figure('the same without the wait for the frame', 'ms', followed, null),
    figure('drop to the first picture planned again', 'ms', replanned, 150),
  ];
};

const print = (figures: readonly Figure[]): void => {
  const pad = Math.max(...figures.map((one) => one.measure.length));
  for (const one of figures) {
    const kept =
      one.under === null ? '' : one.p95 < one.under ? `under ${one.under}` : `NOT under ${one.under}`;
    const spread =
      one.runs > 1
        ? `median ${one.median}, p95 ${one.p95}, worst ${one.worst} (${one.runs})`
        : String(one.median);
    process.stdout.write(`${one.measure.padEnd(pad)}  ${one.unit.padEnd(5)}  ${spread}  ${kept}\n`);
  }
};

const main = async (): Promise<void> => {
  const outDir = await mkdtemp(join(tmpdir(), 'pourwright-bench-'));
  await build({ mode: 'production', logLevel: 'error', build: { outDir, emptyOutDir: true } });
  const server = await serve(outDir);
  const browser = await chromium.launch({
    executablePath: requireChromium(),
    args: [
      '--no-sandbox',
      '--disable-background-networking',
      '--disable-frame-rate-limit',
      '--disable-gpu-vsync',
    ],
  });
  try {
    const start = await measureStart(browser, server.url);
    const page = await newPage(browser);
    await openSixWeeks(page, server.url);
    const pan = await measurePan(page);
    const drag = await measureDrag(page);
    const figures = [...start, ...pan, ...drag, ...(await measureEmpty(browser))];
    if (process.argv.includes('--json'))
      for (const one of figures) process.stdout.write(`${JSON.stringify(one)}\n`);
    else print(figures);
  } finally {
    await browser.close();
    await server.close();
    await rm(outDir, { recursive: true, force: true });
  }
};

await main();
