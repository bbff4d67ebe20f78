/** The Shop screen in a real browser: read in words, changed on its sheets, faults at their fields, undone, saved. */
import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { axeFindings, openShop, PHONE, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const atShop = async (part: string, options = {}): Promise<Page> => {
  const page = await open('/shop', options);
  await openShop(page, shopText, 'Two Evenings');
  await page.getByRole('tab', { name: part }).click();
  return page;
};
const sheetOf = async (page: Page, name: string): Promise<Locator> => {
  await page.getByRole('button', { name: `Change ${name}`, exact: true }).click();
  return page.getByRole('dialog', { name });
};
const save = async (sheet: Locator): Promise<void> => {
  await sheet.getByRole('button', { name: 'Save', exact: true }).click();
  await sheet.waitFor({ state: 'detached' });
};

describe('people and hours', () => {
  test('hours are turned on keys and read back in words, and the plan follows them', async () => {
    const page = await atShop('People');
    const ada = page.locator('.thing', { hasText: 'Ada' });
    expect(await ada.innerText()).toContain('every day, 08:00 to 20:00');
    const sheet = await sheetOf(page, 'Ada');
    const line = sheet.getByRole('group', { name: 'Is there, line 1' });
    for (const day of ['Sat', 'Sun']) await line.getByRole('button', { name: day, exact: true }).click();
    await line.getByLabel('From').fill('18:30');
    await line.getByLabel('To', { exact: true }).fill('00:00');
    expect(await line.locator('.line-words').innerText()).toBe('Monday to Friday, 18:30 to midnight');
    await line.getByLabel('Every so many weeks').fill('2');
    expect(await line.locator('.line-words').innerText()).toContain('of every second week, counted from');
    await line.getByLabel('Every so many weeks').fill('1');
    await save(sheet);
    expect(await ada.innerText()).toContain('Monday to Friday, 18:30 to midnight');
    await settled(page);
    await page.getByRole('link', { name: 'Pieces' }).click();
    await expect
      .poll(() => page.locator('.piece').first().innerText())
      .toMatch(/Next: .* (today|tomorrow) (18:3|18:4|19|2)/);
    await page.getByRole('button', { name: 'Undo: change the person “Ada”' }).first().click();
    await page.getByRole('link', { name: 'Shop', exact: true }).click();
    expect(await page.locator('.thing', { hasText: 'Ada' }).innerText()).toContain(
      'every day, 08:00 to 20:00',
    );
  });

  test('no day chosen is said at the line and not saved', async () => {
    const page = await atShop('People');
    const sheet = await sheetOf(page, 'Ada');
    const line = sheet.getByRole('group', { name: 'Is there, line 1' });
    for (const day of ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'])
      await line.getByRole('button', { name: day, exact: true }).click();
    expect(await line.locator('.line-words').innerText()).toContain('No day');
    await sheet.getByRole('button', { name: 'Save', exact: true }).click();
    await line.locator('.field-fault').filter({ hasText: /\S/ }).first().waitFor();
    await sheet.getByRole('button', { name: 'Back', exact: true }).click();
    await sheet.getByRole('button', { name: 'Throw it away' }).click();
  });
});

describe('rooms and resins', () => {
  test('a colder room is drawn at once, and says which resins stand still in it', async () => {
    const page = await atShop('Rooms');
    const sheet = await sheetOf(page, 'Cellar');
    await sheet.getByLabel('Coldest', { exact: true }).fill('4');
    await sheet.getByText(/stand still and must not be poured/).waitFor();
    expect(await sheet.locator('.drawing figcaption').innerText()).toContain('4 °C at 05:00');
    await save(sheet);
    await settled(page);
    await page.getByRole('button', { name: 'Undo: change the room “Cellar”' }).first().click();
    await page.locator('.thing', { hasText: '19 °C at 05:00' }).waitFor();
  });

  test('a resin’s curve follows the warmth: at its reference it has the sheet’s own times', async () => {
    const page = await atShop('Resins');
    const slow = page.locator('.thing', { hasText: 'Invented slow' });
    await slow.getByRole('slider').fill('23');
    // 240 and 720 minutes on the sheet, at 23 degC.
    await expect
      .poll(() => slow.locator('figcaption').innerText())
      .toContain('opens after 4 h, closes after 12 h');
    await slow.getByRole('slider').fill('15');
    // ASTM C1074's equation with 53 kJ/mol: a speed of 0.550137, so 436 and 1309 minutes.
    await expect
      .poll(() => slow.locator('figcaption').innerText())
      .toContain('opens after 7 h 16 min, closes after 21 h 49 min');
  });

  test('a window that closes before it opens is refused at its field', async () => {
    const page = await atShop('Resins');
    const sheet = await sheetOf(page, 'Invented slow');
    await sheet.getByLabel('Window closes (too hard)').fill('3 h');
    await sheet.getByRole('button', { name: 'Save', exact: true }).click();
    const field = sheet.locator('.field-wrong', { hasText: 'Window closes' });
    await field.waitFor();
    expect(await field.innerText()).toContain('240');
    await sheet.getByLabel('Window closes (too hard)').fill('12 h');
    await expect.poll(() => sheet.locator('.field-wrong').count()).toBe(0);
    await save(sheet);
  });
});

describe('forms, recipes and the rest', () => {
  test('a form is added, and one that a piece needs cannot be removed without saying why', async () => {
    const page = await atShop('Forms');
    await page.getByRole('button', { name: 'Add a form' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new form' });
    await sheet.getByLabel('Name', { exact: true }).fill('Plank form');
    await sheet.getByLabel('Length', { exact: true }).fill('1200');
    expect(await axeFindings(page, '[role=dialog]')).toEqual([]);
    await sheet.getByRole('button', { name: 'Add the form' }).click();
    await sheet.waitFor({ state: 'detached' });
    expect(await page.locator('.thing', { hasText: 'Plank form' }).innerText()).toContain(
      '1200 × 300 mm inside',
    );
    await page.getByRole('tab', { name: 'Resins' }).click();
    const resin = await sheetOf(page, 'Invented flood');
    await resin.getByRole('button', { name: 'Remove' }).click();
    await resin.locator('.foot-faults li').first().waitFor();
    expect(await resin.locator('.foot-faults').innerText()).toMatch(/recipe “Board”/);
  });

  test('a recipe’s stack grows as it is written', async () => {
    const page = await atShop('Recipes');
    const sheet = await sheetOf(page, 'Board');
    const slabs = sheet.locator('.stack-list li');
    expect(await slabs.allInnerTexts()).toHaveLength(4);
    await sheet.getByRole('button', { name: 'Add a layer on top' }).click();
    expect(await slabs.allInnerTexts()).toHaveLength(5);
    await save(sheet);
    await page.getByRole('button', { name: 'Undo: change the recipe “Board”' }).first().waitFor();
  });

  test('the shop file goes out and comes back in, here as well', async () => {
    const page = await atShop('The shop');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the shop file' }).click(),
    ]);
    const saved = await readFile(await download.path(), 'utf8');
    expect(JSON.parse(saved)).toMatchObject({ name: 'Two Evenings', zone: 'Europe/Berlin' });
    await page.getByLabel('Shop file to open').setInputFiles({
      name: 'renamed.shop.json',
      mimeType: 'application/json',
      buffer: Buffer.from(saved.replace('Two Evenings', 'Three Evenings')),
    });
    await page.locator('h1', { hasText: 'Three Evenings' }).waitFor();
    await page.getByLabel('Shop file to open').setInputFiles({
      name: 'half.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"format":"pourwright.shop","version":1}'),
    });
    await page.getByText('half.json was not opened').waitFor();
    expect(await page.locator('h1').innerText()).toBe('Three Evenings');
  });
});

describe.each([
  ['at the desk, dark', {}, 'dark'],
  ['on the phone, light', { viewport: PHONE }, 'light'],
] as const)('%s', (_, options, colorScheme) => {
  test('axe finds nothing on any part and on any sheet', async () => {
    const page = await atShop('People', { ...options, colorScheme });
    for (const [part, entry] of [
      ['People', 'Ada'],
      ['Rooms', 'Cellar'],
      ['Benches', 'Bench'],
      ['Resins', 'Invented slow'],
      ['Recipes', 'Board'],
    ]) {
      await page.getByRole('tab', { name: part }).click();
      await page.waitForTimeout(300);
      expect([part, ...(await axeFindings(page))]).toEqual([part]);
      const sheet = await sheetOf(page, entry);
      await page.waitForTimeout(300);
      expect([entry, ...(await axeFindings(page, '[role=dialog]'))]).toEqual([entry]);
      await sheet.getByRole('button', { name: 'Back', exact: true }).click();
      await sheet.waitFor({ state: 'detached' });
    }
  });
});
