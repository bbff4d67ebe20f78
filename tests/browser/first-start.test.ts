/** The first start in a real browser: what an example says of itself, and a shop of one's own, page by page. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFindings, PHONE, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const atStart = async (options = {}): Promise<Page> => {
  const page = await open('/forms', options);
  await page.getByRole('link', { name: 'Start your own' }).click();
  await page.getByRole('heading', { name: 'Start your own shop' }).waitFor();
  return page;
};
const next = (page: Page): Promise<void> => page.getByRole('button', { name: 'Next' }).click();

describe('a shop of one’s own', () => {
  test('is open after seven pages of defaults, in the zone of the device, with its first promise kept', async () => {
    const page = await atStart({ timezoneId: 'Europe/Lisbon' });
    await page.getByRole('button', { name: 'Begin' }).click();
    expect(await page.getByLabel('Time zone').inputValue()).toBe('Europe/Lisbon');
    await page.getByLabel('Name of the shop').fill('Puddle and Plank');
    for (const heading of [
      'How warm',
      'When are you',
      'What do you cast',
      'Copy the resin',
      'How is a board',
      'What is promised',
    ]) {
      await next(page);
      await page.getByRole('heading', { name: heading }).waitFor();
    }
    await page.getByRole('button', { name: 'Open my shop' }).click();
    await page.locator('h1', { hasText: 'Puddle and Plank' }).waitFor();
    await settled(page);
    expect(await page.locator('.head-standing').innerText()).not.toContain('example');
    await page.getByRole('link', { name: 'Pieces' }).click();
    await page.locator('.piece', { hasText: 'First board' }).getByText('to spare').waitFor();
    await page
      .getByRole('button', { name: /^Undo: start the shop/ })
      .first()
      .click();
    await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
  });

  test('a number that cannot be is said on its page, and the way on waits for it', async () => {
    const page = await atStart();
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByLabel('Time zone').fill('Lisbon');
    await next(page);
    await page.locator('.field-wrong', { hasText: 'Time zone' }).waitFor();
    await page.getByLabel('Time zone').fill('Europe/Lisbon');
    await expect.poll(() => page.locator('.field-wrong').count()).toBe(0);
    await next(page);
    await page.getByRole('heading', { name: 'How warm' }).waitFor();
    await page.getByLabel('Coldest, at night').fill('cold');
    await next(page);
    await page.locator('.field-wrong', { hasText: 'Coldest' }).waitFor();
    expect(await page.getByRole('heading', { name: 'How warm' }).count()).toBe(1);
  });

  test('US sizes are round in inches, and axe finds nothing on any page of a phone', async () => {
    const page = await atStart({ locale: 'en-US', viewport: PHONE, colorScheme: 'dark' });
    await page.waitForTimeout(300);
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Begin' }).click();
    for (let number = 1; number < 7; number += 1) {
      await page.waitForTimeout(400);
      expect([number, ...(await axeFindings(page))]).toEqual([number]);
      if (await page.getByLabel('Length inside').count()) {
        expect(await page.getByLabel('Length inside').inputValue()).toBe('20');
      }
      await next(page);
    }
    await page.getByRole('button', { name: 'No piece yet' }).click();
    await page.getByRole('button', { name: 'Open my shop' }).click();
    await page.locator('h1', { hasText: 'My shop' }).waitFor();
    await settled(page);
  });
});

describe('looking around first', () => {
  test('another example is opened from the start', async () => {
    const page = await atStart();
    await page.getByRole('button', { name: /^Evening board/ }).click();
    await page.locator('h1', { hasText: 'Corvin' }).waitFor();
    await settled(page);
    expect(await page.locator('.head-standing').innerText()).toContain('example');
    await page.getByRole('link', { name: 'Start your own' }).waitFor();
  });
});
