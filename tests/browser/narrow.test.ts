/** Every screen on narrow phones: nothing sticks out sideways, no words are cut from a button, no target is small. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { openBrowser } from './browser.ts';
import { findOnEach } from './each-screen.ts';
import { settled, visit } from './visit.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** What is meant to be pushed sideways by a finger. */
const SIDEWAYS = '.free-list';
/** Seen only when reached by keys, or read to one and not seen. */
const UNSEEN = '.skip, .unseen, .step-buttons, .fc-list-table thead, [aria-hidden=true]';
/** WCAG 2.2 has 24 pixels (2.5.8) and, better, 44 (2.5.5); these are hit with gloves on. */
const LEAST_TARGET = 44;

/** What is wrong with the page as it is at this width, one line each. */
const squeezed = (page: Page): Promise<readonly string[]> =>
  page.evaluate(
    ({ sideways, unseen, least }) => {
      const nameOf = (element: Element): string =>
        `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''} “${(element.textContent ?? '').trim().slice(0, 40)}”`;
      const found: string[] = [];
      const width = document.documentElement.clientWidth;
      if (document.documentElement.scrollWidth > width) found.push('the page is wider than the screen');
      // Only what is in the page scrolls: pushed by a finger the page itself would take its head and ways along.
      if (document.documentElement.scrollHeight > document.documentElement.clientHeight)
        found.push('the page is taller than the screen');
      for (const element of document.body.querySelectorAll<HTMLElement>('*')) {
        if (!element.checkVisibility() || element.closest(`svg, ${unseen}`)) continue;
        const { left, right, width: own, height } = element.getBoundingClientRect();
        if (own === 0 || height === 0) continue;
        const { overflowX } = getComputedStyle(element);
        const isPushed = element.closest(sideways) !== null;
        if (!isPushed && (right > width + 0.5 || left < -0.5)) found.push(`sticks out: ${nameOf(element)}`);
        const isScrolled = overflowX === 'auto' || overflowX === 'scroll';
        if (!isPushed && isScrolled && element.scrollWidth > element.clientWidth)
          found.push(`scrolls sideways: ${nameOf(element)}`);
        if (!element.matches('button, a.button, .way, select')) continue;
        if (element.scrollWidth > element.clientWidth + 1) found.push(`words cut: ${nameOf(element)}`);
        if (element.matches('.button, .way') && Math.min(own, height) < least)
          found.push(`small: ${nameOf(element)}, ${Math.round(own)} by ${Math.round(height)}`);
      }
      const title = document.querySelector('h1');
      if (!title || title.scrollWidth > title.clientWidth) found.push('the name of the shop is cut');
      return found;
    },
    { sideways: SIDEWAYS, unseen: UNSEEN, least: LEAST_TARGET },
  );

const open = async (width: number, path: string) => {
  const visited = await visit(browser, inject('appUrl'), path, {
    viewport: { width, height: 740 },
    hasTouch: true,
    isMobile: true,
  });
  await settled(visited.page);
  return visited;
};

describe.each([360, 390])('on a phone of %i pixels', (width) => {
  test('no screen is squeezed, nor the first start', async () => {
    const { page, context } = await open(width, '/forms');
    const found = [...(await findOnEach(page, squeezed))];
    await page.getByRole('button', { name: 'Begin' }).click();
    for (let number = 1; number <= 7; number += 1) {
      await page.waitForTimeout(200);
      for (const finding of await squeezed(page)) found.push(`first start, page ${number}: ${finding}`);
      if (number < 7) await page.getByRole('button', { name: 'Next' }).click();
    }
    expect(found).toEqual([]);
    await context.close();
  });

  test('what a screen can be turned to is not squeezed', async () => {
    const { page, context } = await open(width, '/paper');
    const found: string[] = [];
    const look = async (what: string): Promise<void> => {
      await page.waitForTimeout(350);
      for (const finding of await squeezed(page)) found.push(`${what}: ${finding}`);
    };
    for (const kind of ['Piece', 'Form cards', 'Resin and money']) {
      await page.getByRole('button', { name: kind, exact: true }).click();
      await look(kind);
    }
    await page.getByRole('link', { name: 'Week' }).click();
    for (const view of ['Day', '3 days', 'List']) {
      await page.getByRole('button', { name: view, exact: true }).click();
      await look(view);
    }
    await page.getByRole('link', { name: 'Shop', exact: true }).click();
    await page.getByRole('tab').first().waitFor();
    for (const tab of await page.getByRole('tab').all()) {
      await tab.click();
      const part = await tab.innerText();
      await look(part);
      const change = page.getByRole('button', { name: /^Change / }).first();
      if ((await change.count()) === 0) continue;
      await change.click();
      await page.getByRole('dialog').waitFor();
      await look(`a sheet of ${part}`);
      await page.getByRole('dialog').getByRole('button', { name: 'Back', exact: true }).click();
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    await page.getByRole('link', { name: 'Pieces' }).click();
    await page.getByRole('button', { name: 'Add a piece' }).click();
    await page.getByRole('dialog').waitFor();
    await look('a new piece');
    expect(found).toEqual([]);
    await context.close();
  });

  test('of a new piece the size and the buttons are in reach, however much is said of its date', async () => {
    const { page, context } = await open(width, '/pieces');
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.locator('.promise[aria-busy=false] .promise-when').waitFor();
    expect(await sheet.getByRole('button', { name: 'Promise it for' }).count()).toBe(2);
    for (const target of [sheet.getByLabel('Length'), sheet.getByRole('button', { name: 'Add the piece' })])
      expect(
        await target.evaluate((element) => {
          const { left, top, width: across, height } = element.getBoundingClientRect();
          return element.contains(document.elementFromPoint(left + across / 2, top + height / 2));
        }),
      ).toBe(true);
    await context.close();
  });

  test('the name of the shop is whole, however long, and nothing moves when the plan is settled', async () => {
    const { page, context } = await open(width, '/today');
    const bottom = async (): Promise<number | undefined> => {
      const box = await page.locator('.head').boundingBox();
      return box ? box.y + box.height : undefined;
    };
    await page.getByRole('button', { name: 'Shop file and settings' }).click();
    await page.getByRole('menuitem', { name: 'Six weeks' }).click();
    await page.locator('h1', { hasText: 'Three Weirs Workshop' }).waitFor();
    const during = [await page.locator('.head-standing').innerText(), await bottom()];
    expect(await squeezed(page)).toEqual([]);
    await settled(page);
    const after = [await page.locator('.head-standing').innerText(), await bottom()];
    expect(during[0]).not.toBe(after[0]);
    expect(during[1]).toBe(after[1]);
    await context.close();
  });
});
