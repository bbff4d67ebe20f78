/** Every screen against axe's rules (WCAG 2.2 AA and its best practices), light and dark, at the desk and on the phone. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { findOnEach } from './each-screen.ts';
import { shopText } from '../ui/small-shop.ts';
import { openBrowser } from './browser.ts';
import { axeFindings, DESK, openShop, PHONE, visit } from './visit.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

describe.each([
  ['at the desk, light', DESK, 'light'],
  ['at the desk, dark', DESK, 'dark'],
  ['on the phone, light', PHONE, 'light'],
  ['on the phone, dark', PHONE, 'dark'],
] as const)('%s', (_, viewport, colorScheme) => {
  test('no screen has a finding', async () => {
    const { page, context } = await visit(browser, inject('appUrl'), '/forms', { viewport, colorScheme });
    await openShop(page, shopText, 'Two Evenings');
    expect(await findOnEach(page, axeFindings)).toEqual([]);
    await context.close();
  });

  test('the menu, a refusal and a held step have none', async () => {
    const { page, context } = await visit(browser, inject('appUrl'), '/forms', { viewport, colorScheme });
    await openShop(page, shopText, 'Two Evenings');
    await page.getByRole('button', { name: 'Shop file and settings' }).click();
    await page.getByRole('menu').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('menu').waitFor({ state: 'detached' });
    const step = page.locator('.step-buttons button').and(page.getByLabel(/Mix layer 2, Wren/));
    await step.focus();
    await page.keyboard.press('Enter');
    await page.locator('.held-open').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    for (let day = 0; day < 3; day += 1) await page.keyboard.press('PageDown');
    await page.locator('.held-shut').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.waitForTimeout(300);
    // A modal dialog is all there is while it is open; the page behind it is inert.
    expect(await axeFindings(page, '[role=dialog]')).toEqual([]);
    await context.close();
  });
});
