/** Sheets, cards and files in a real browser: what is printed is looked at as Chromium prints it. */
import { readFile } from 'node:fs/promises';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFindings, PHONE, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const atPaper = async (options = {}): Promise<Page> => {
  const page = await open('/paper', options);
  await settled(page);
  await page.locator('.page').waitFor();
  return page;
};

/** Pages of a PDF, by the page objects in it. */
const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

describe('the run sheet on paper', () => {
  test('of any day of the plan is one page, its fullest day too', async () => {
    const page = await atPaper();
    const heading = page.locator('.page-head h2');
    const after = page.getByRole('button', { name: 'Day after' });
    const counts: Record<string, number> = {};
    for (let days = 0; days < 40; days++) {
      const day = await heading.innerText();
      counts[day] = pagesOf(await page.pdf({ format: 'A4' }));
      if (await after.isDisabled()) break;
      await after.click();
      await expect.poll(() => heading.innerText()).not.toBe(day);
    }
    expect(Object.keys(counts).length).toBeGreaterThan(8);
    expect(Object.entries(counts).filter(([, pages]) => pages !== 1)).toEqual([]);
  });

  test('is black on white without the screen around it, dark as the screen may be', async () => {
    const page = await atPaper({ colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const colours = await page.locator('.page').evaluate((sheet) => {
      const { color, backgroundColor } = getComputedStyle(sheet);
      return { color, backgroundColor };
    });
    expect(colours).toEqual({ color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)' });
    expect(await page.locator('.head').isVisible()).toBe(false);
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
  });
});

test('a form card tells what to leave alone and when it frees up', async () => {
  const page = await atPaper();
  await page.getByRole('button', { name: 'Form cards' }).click();
  const card = page.locator('.form-card').first();
  expect(await card.innerText()).toMatch(/DO NOT MOVE|KEEP FREE/);
  expect(await card.innerText()).toMatch(/frees up \w{3} \d+ \w{3} \d\d:\d\d/);
});

test('the calendar is saved as a file that another program reads', async () => {
  const page = await atPaper();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /^Calendar/ }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('larkmoor-boards-calendar.ics');
  const calendar = new ICAL.Component(ICAL.parse(await readFile(await download.path(), 'utf8')));
  expect(calendar.getAllSubcomponents('vevent').length).toBeGreaterThan(50);
});

test('stock and cost are told for every resin and piece', async () => {
  const page = await atPaper();
  await page.getByRole('button', { name: 'Resin and money' }).click();
  await page.getByRole('heading', { name: 'Tarn Slow Cast' }).waitFor();
  await page.getByRole('heading', { name: 'Cost of each piece' }).waitFor();
  expect(await axeFindings(page, '#main')).toEqual([]);
});

test('nothing is wrong with the sheet for axe, and a phone need not scroll sideways', async () => {
  const page = await atPaper({ viewport: PHONE });
  expect(await axeFindings(page, '#main')).toEqual([]);
  const overflow = await page.locator('.paper').evaluate((it) => it.scrollWidth - it.clientWidth);
  expect(overflow).toBeLessThanOrEqual(0);
});

test('the first caution is there until it is read, and stays away after that', async () => {
  const page = await atPaper();
  const caution = page.locator('.first-caution');
  await caution.waitFor();
  await page.getByRole('button', { name: 'I have read this' }).click();
  await expect.poll(() => caution.count()).toBe(0);
  await page.reload();
  await page.locator('.page').waitFor();
  expect(await caution.count()).toBe(0);
});
