/** The Pieces screen in a real browser: what is promised, a piece added with its promise in sight, and what helps. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { axeFindings, openFile, openShop, PHONE, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const atPieces = async (text = shopText, options = {}): Promise<Page> => {
  const page = await open('/pieces', options);
  await openShop(page, text, 'Two Evenings');
  return page;
};
const card = (page: Page, name: string) =>
  page.locator('.piece').filter({ has: page.locator('h3', { hasText: name }) });

/** The same shop, Wren promised for a day on which it cannot be ready. */
const lateText = (): string => {
  const file = JSON.parse(shopText) as { pieces: { due: string }[] };
  file.pieces[0].due = '2026-11-27T12:00';
  return JSON.stringify(file);
};

test('a piece without a size is asked for it, and its moments and recipe are shown whole', async () => {
  const page = await atPieces(shopText, { locale: 'en-US' });
  await page.getByRole('button', { name: 'Add a piece' }).click();
  const sheet = page.getByRole('dialog');
  await sheet.getByLabel('Length').fill('');
  await sheet.getByText('Once its size is known').waitFor();
  // An American browser writes 12/09/2026, 05:00 PM: wider than one column.
  const [name, due] = await Promise.all(
    ['Name', 'Promised for'].map(async (label) => (await sheet.getByLabel(label).boundingBox())?.width ?? 0),
  );
  expect(due).toBeGreaterThan(1.5 * name);
});

describe('what is promised', () => {
  test('nothing is said to hold while no plan can exist; the note says what clashes', async () => {
    const file = JSON.parse(shopText) as { pieces: Record<string, unknown>[] };
    file.pieces[0].pins = [{ step: 'prepare', at: '2027-01-12T03:00' }];
    const page = await open('/pieces');
    await openFile(page, JSON.stringify(file));
    await page.getByText('No plan can exist: these cannot all hold').waitFor();
    expect(await page.locator('.part-head').innerText()).toContain('There is no plan');
    expect(await page.locator('.part-head').innerText()).not.toContain('holds');
  });

  test('every piece says its promise, when it is ready, how it stands and what comes next', async () => {
    const page = await atPieces();
    const wren = await card(page, 'Wren').innerText();
    expect(wren).toContain('promised for');
    expect(wren).toMatch(/ready .*\d\d:\d\d/);
    expect(wren).toContain('to spare');
    expect(wren).toContain('Not begun. Next: Prepare wood and form');
  });

  test('a late one stands first; the engine says what would help, and doing it is undone by one touch', async () => {
    const page = await atPieces(lateText());
    expect(await page.locator('.piece h3').first().innerText()).toBe('Wren');
    await card(page, 'Wren').getByText('late').waitFor();
    await card(page, 'Wren').getByRole('button', { name: 'What would help?' }).click();
    const help = page.getByRole('region', { name: 'What would help Wren' });
    await help.getByText(/bring|brings/).waitFor({ timeout: 80_000 });
    await help.getByRole('button', { name: 'Do this' }).last().click();
    await settled(page);
    await expect.poll(() => card(page, 'Wren').getByText('to spare').count()).toBe(1);
    await page.getByRole('button', { name: /^Undo: promise “Wren”/ }).click();
    await card(page, 'Wren')
      .getByText(/ late$/)
      .waitFor();
  });
});

describe('a new piece', () => {
  test('sees its promise before it is saved, takes it, and the plan keeps it', async () => {
    const page = await atPieces();
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new piece' });
    const promise = sheet.locator('.promise');
    await promise.getByText(/^Could be ready/).waitFor({ timeout: 60_000 });
    expect(await promise.innerText()).toContain('no other promise is missed for it');
    expect(await promise.innerText()).toContain('with nothing else moved');
    // In a shop so small it is proved, however short the first look was.
    await promise
      .getByText(/^It cannot be promised for earlier|It cannot be ready before that/)
      .waitFor({ timeout: 60_000 });
    // A promise is for one size: another one has its own.
    await sheet.getByLabel('Length', { exact: true }).fill('410');
    await promise.getByText(/^Asking the plan/).waitFor();
    await promise.getByText(/^Could be ready/).waitFor({ timeout: 60_000 });
    await promise
      .getByRole('button', { name: /^Promise it for/ })
      .first()
      .click();
    await sheet.getByLabel('Name', { exact: true }).fill('Finch');
    expect(await axeFindings(page, '[role=dialog]')).toEqual([]);
    await sheet.getByRole('button', { name: 'Add the piece' }).click();
    await sheet.waitFor({ state: 'detached' });
    await settled(page);
    await expect.poll(() => card(page, 'Finch').getByText('to spare').count(), { timeout: 60_000 }).toBe(1);
  });

  test('is given a date that holds while none was typed, and one that was typed stays', async () => {
    const page = await atPieces();
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new piece' });
    const due = sheet.getByLabel('Promised for');
    const inTwoWeeks = await due.inputValue();
    await sheet.getByLabel('Not begun before').fill('2027-01-05T09:00');
    await expect.poll(() => due.inputValue(), { timeout: 60_000 }).not.toBe(inTwoWeeks);
    expect((await due.inputValue()) > '2027-01-05T09:00').toBe(true);
    await sheet.locator('.promise').getByText('before it is due').waitFor();
    await due.fill('2026-12-01T12:00');
    await sheet.getByLabel('Length', { exact: true }).fill('410');
    await sheet.locator('.promise').getByText('after it is due').waitFor({ timeout: 60_000 });
    expect(await due.inputValue()).toBe('2026-12-01T12:00');
  });

  test('whose date was only proposed is left without a question', async () => {
    const file = JSON.parse(shopText) as { closures: unknown[] };
    file.closures = [{ from: '2026-11-26T00:00', to: '2026-12-14T00:00' }];
    const page = await atPieces(JSON.stringify(file));
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new piece' });
    const inTwoWeeks = await sheet.getByLabel('Promised for').inputValue();
    await expect
      .poll(() => sheet.getByLabel('Promised for').inputValue(), { timeout: 60_000 })
      .not.toBe(inTwoWeeks);
    await sheet.getByRole('button', { name: 'Back' }).click();
    await sheet.waitFor({ state: 'detached' });
  });

  test('is still there when the page is loaded again in the same moment', async () => {
    const page = await atPieces();
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new piece' });
    await sheet.getByLabel('Name').fill('Heron');
    await sheet.getByRole('button', { name: 'Add the piece' }).click();
    await card(page, 'Heron').waitFor();
    await page.reload();
    await card(page, 'Heron').waitFor();
  });

  test('without a name or with a size no form takes it is not saved, and says so where it is typed', async () => {
    const page = await atPieces();
    await page.getByRole('button', { name: 'Add a piece' }).click();
    const sheet = page.getByRole('dialog', { name: 'A new piece' });
    await sheet.getByLabel('Length', { exact: true }).fill('long');
    await sheet.getByRole('button', { name: 'Add the piece' }).click();
    await sheet.getByText('must not be empty').waitFor();
    expect(await sheet.getByLabel('Length', { exact: true }).getAttribute('aria-invalid')).toBe('true');
    // Mended, it is seen at once.
    await sheet.getByLabel('Length', { exact: true }).fill('450');
    await expect
      .poll(() => sheet.getByLabel('Length', { exact: true }).getAttribute('aria-invalid'))
      .toBe('false');
    await page.keyboard.press('Escape');
    await sheet.getByRole('button', { name: 'Throw it away' }).click();
    await sheet.waitFor({ state: 'detached' });
    expect(await page.locator('.piece').count()).toBe(2);
  });
});

describe('a piece', () => {
  test('is pinned as a whole and let go again', async () => {
    const page = await atPieces();
    await page.getByRole('button', { name: 'Pin all of it: Robin' }).click();
    await card(page, 'Robin')
      .getByText(/steps are pinned/)
      .waitFor();
    await settled(page);
    await page.getByRole('button', { name: 'Unpin: Robin' }).click();
    await expect
      .poll(() =>
        card(page, 'Robin')
          .getByText(/steps are pinned/)
          .count(),
      )
      .toBe(0);
  });

  test('that is removed comes back by undo, on a phone as well', async () => {
    const page = await atPieces(shopText, { viewport: PHONE });
    await page.getByRole('button', { name: 'Change Robin' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Remove' }).click();
    await expect.poll(() => page.locator('.piece').count()).toBe(1);
    await page.getByRole('button', { name: /^Undo: remove the piece “Robin”/ }).click();
    await expect.poll(() => page.locator('.piece').count()).toBe(2);
    expect(await axeFindings(page)).toEqual([]);
  });
});
