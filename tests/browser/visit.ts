/** A visit to the built app as a maker makes it: a page at a given size, a fixed clock, a shop file opened by its menu. */
import { createRequire } from 'node:module';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';
import { openBrowser } from './browser.ts';

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 390, height: 844 };
/** Wednesday, 14:30 in Berlin, 13:30 in Dublin. */
export const NOW = new Date('2026-11-25T13:30:00Z');

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page complained about; a test that ends with anything here has failed. */
  readonly complaints: readonly string[];
}

export const visit = async (
  browser: Browser,
  url: string,
  path: string,
  options: BrowserContextOptions = {},
): Promise<Visit> => {
  const context = await browser.newContext({
    viewport: DESK,
    locale: 'en-GB',
    timezoneId: 'UTC',
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  await page.clock.setFixedTime(NOW);
  await page.goto(`${url}#${path}`);
  return { page, context, complaints };
};

/**
 * A browser for all tests of a file, to be called at its top: what it gives opens the one page of a test. That page is
 * closed behind the test and must have complained of nothing.
 */
export const onePageATest = (): ((path: string, options?: BrowserContextOptions) => Promise<Page>) => {
  let browser: Browser;
  let current: Visit | null = null;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());
  afterEach(async () => {
    const complaints = current?.complaints ?? [];
    await current?.context.close();
    current = null;
    expect(complaints).toEqual([]);
  });
  return async (path, options) => {
    current = await visit(browser, inject('appUrl'), path, options);
    return current.page;
  };
};

/** Waits until the engine has done what it will do. */
export const settled = async (page: Page): Promise<void> => {
  await expect
    .poll(() => page.locator('.head-standing').innerText(), { timeout: 80_000, interval: 150 })
    .toMatch(/settled|no plan|out of date/);
};

/** Opens a shop file as a maker does. */
export const openFile = async (page: Page, text: string, name = 'test.shop.json'): Promise<void> => {
  await page
    .locator('input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
};

export const openShop = async (page: Page, text: string, shopName: string): Promise<void> => {
  await openFile(page, text);
  await page.locator('h1', { hasText: shopName }).waitFor();
  await settled(page);
};

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

/**
 * What axe finds wrong with the page as it is, or with one part of it, one line each; WCAG 2.2 AA and its best practices.
 */
export const axeFindings = async (page: Page, part?: string): Promise<readonly string[]> => {
  await page.addScriptTag({ path: axePath });
  const result = await page.evaluate(async (selector) => {
    const { axe } = window as unknown as { axe: { run(context?: string): Promise<AxeResult> } };
    return selector === undefined ? axe.run() : axe.run(selector);
  }, part);
  return result.violations.flatMap((violation) =>
    violation.nodes.map(
      (node) => `${violation.id}: ${violation.help}: ${node.html.slice(0, 160)} ${node.failureSummary ?? ''}`,
    ),
  );
};
