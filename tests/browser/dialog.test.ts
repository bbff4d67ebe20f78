/** What lies over the screen, and where the keys work once it has gone. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { openFile, openShop, onePageATest } from './visit.ts';

const open = onePageATest();

const start = async (path: string): Promise<Page> => {
  const page = await open(path);
  await openShop(page, shopText, 'Two Evenings');
  return page;
};
const holdsFocus = (page: Page, name: string | RegExp): Promise<void> =>
  expect
    .poll(() =>
      page
        .getByRole('button', { name })
        .first()
        .evaluate((it) => it === document.activeElement),
    )
    .toBe(true);

describe('once a dialog has gone', () => {
  test('the focus is back on the button that opened it', async () => {
    const page = await start('/shop');
    const change = page.getByRole('button', { name: /^Change / }).first();
    const name = (await change.getAttribute('aria-label')) ?? (await change.innerText());
    await change.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await holdsFocus(page, name);
  });

  test('the focus is on the screen where nothing had opened it by hand', async () => {
    const page = await start('/today');
    await openFile(page, '{}');
    await page.getByRole('button', { name: 'Back to the shop' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('main');
  });

  test('the keys undo what was chosen in it, and do it again', async () => {
    const page = await start('/forms');
    const step = page.locator('.step-buttons button').and(page.getByLabel(/Mix layer 2, Wren/));
    await step.focus();
    await page.keyboard.press('Enter');
    await page.locator('.held-open').waitFor();
    for (let day = 0; day < 3; day += 1) await page.keyboard.press('PageDown');
    await page.locator('.held-shut').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('button').first().click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    const undo = page.locator('.head-acts').getByRole('button', { name: /^Undo: put / });
    await undo.waitFor();
    await page.keyboard.press('Control+z');
    await undo.waitFor({ state: 'detached' });
    await page.keyboard.press('Control+Shift+z');
    await undo.waitFor();
  });
});

test('keys do not undo behind an open dialog', async () => {
  const page = await start('/today');
  await page
    .locator('.entry', { hasText: 'Prepare wood and form' })
    .first()
    .getByRole('button', { name: /^Begin/ })
    .click();
  const undo = page.locator('.head-acts').getByRole('button', { name: /^Undo: begin/, includeHidden: true });
  await undo.waitFor();
  await openFile(page, '{}');
  await page.getByRole('button', { name: 'Back to the shop' }).focus();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  expect(await undo.count()).toBe(1);
});
