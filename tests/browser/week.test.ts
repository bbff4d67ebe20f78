/** The Week screen in a real browser: the calendar, what lies behind it, and a step carried on it. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { axeFindings, openShop, PHONE, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const atWeek = async (options = {}): Promise<Page> => {
  const page = await open('/week', options);
  await openShop(page, shopText, 'Two Evenings');
  await page.locator('.week-board.fc').waitFor();
  return page;
};
const work = (page: Page, what: string, whose: string) =>
  page.locator('.week-visit').filter({ hasText: what }).filter({ hasText: whose });

/** The two pieces are alike: either may go first. The one that does has room behind its demold. */
const firstDemold = (page: Page) => page.locator('.week-visit').filter({ hasText: 'Demold' }).first();

/** Carries what lies at the locator by so many pixels and keeps it in the hand. */
const carry = async (
  page: Page,
  what: ReturnType<typeof work>,
  by: { readonly right?: number; readonly down?: number },
): Promise<void> => {
  const { right = 0, down = 0 } = by;
  await what.scrollIntoViewIfNeeded();
  const box = await what.boundingBox();
  if (!box) throw new Error('it is not on the calendar');
  const [x, y] = [box.x + 12, box.y + 8];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + Math.sign(right) * 8, y + Math.sign(down) * 8, { steps: 4 });
  await page.mouse.move(x + right, y + down, { steps: 12 });
};

describe('the calendar', () => {
  test('shows a mix with its pour as one, closed hours and windows behind it', async () => {
    const page = await atWeek();
    await work(page, 'Mix and pour layer 1', 'Wren').waitFor();
    expect(await page.locator('.week-window').count()).toBeGreaterThan(0);
    expect(await page.locator('.week-window').first().getAttribute('title')).toMatch(/^Window of .* to /);
    await page.getByRole('button', { name: 'List' }).click();
    await page.locator('.fc-list-event').first().waitFor();
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    await page.locator('.fc-timeGridDay-view').waitFor();
    await page.getByRole('button', { name: 'Later' }).click();
    expect(await page.locator('.week-title').innerText()).toContain('26 November');
  });

  test('what is touched is told in words, pinned and let go', async () => {
    const page = await atWeek();
    await work(page, 'Prepare wood and form', 'Robin').first().click();
    const card = page.getByRole('complementary', { name: 'The touched work' });
    expect(await card.innerText()).toContain('Prepare wood and form, Robin');
    await card.getByRole('button', { name: 'Pin it here' }).click();
    await settled(page);
    await card.getByRole('button', { name: 'Unpin' }).waitFor();
    expect(await work(page, 'Prepare wood and form', 'Robin').first().innerText()).toContain('pinned');
    await card.getByRole('button', { name: 'Unpin' }).click();
    await card.getByRole('button', { name: 'Pin it here' }).waitFor();
  });
});

describe('the shortest visits', () => {
  test('lie where their time is and can be read, in a week with many of them', async () => {
    const page = await open('/week');
    await settled(page);
    await page.locator('.fc-timegrid-event .visit').first().waitFor();
    const seen = await page.locator('.fc-timegrid-event').evaluateAll((visits) => {
      const rectOf = (root: ParentNode, selector: string): DOMRect =>
        root.querySelector(selector)?.getBoundingClientRect() ?? new DOMRect();
      const noon = rectOf(document, '.fc-timegrid-slot-lane[data-time="12:00:00"]').top;
      const hour = rectOf(document, '.fc-timegrid-slot-lane[data-time="13:00:00"]').top - noon;
      return visits.map((visit) => {
        const text = visit.querySelector('.visit-time')?.textContent ?? '';
        const [hours, minutes] = text.split(':').map(Number);
        const [card, words, rod] = ['.visit', '.visit-words', '.visit-rod'].map((one) => rectOf(visit, one));
        const whose = visit.querySelector('.visit-piece')?.getClientRects()[0] ?? new DOMRect();
        return {
          text,
          column: visit.closest('.fc-timegrid-col')?.getAttribute('data-date'),
          off: Math.abs(rod.top - noon - (hours - 12 + minutes / 60) * hour),
          top: card.top,
          bottom: card.bottom,
          height: card.height,
          isInside: words.bottom <= card.bottom && words.top >= card.top,
          says: Math.min(whose.right, words.right) - whose.left,
          isWhoseShown: whose.bottom <= words.bottom + 1,
        };
      });
    });
    expect(seen.length).toBeGreaterThan(10);
    expect(seen.filter(({ off }) => off > 1.5)).toEqual([]);
    expect(seen.filter(({ height, isInside }) => height < 20 || !isInside)).toEqual([]);
    // Of the piece's name at least its first letters.
    expect(seen.filter(({ says, isWhoseShown }) => says < 24 || !isWhoseShown)).toEqual([]);
    const covered = seen.filter((a) =>
      seen.some((b) => a !== b && a.column === b.column && a.top < b.bottom - 1 && b.top < a.bottom - 1),
    );
    expect(covered).toEqual([]);
  });
});

describe('a step carried with the mouse', () => {
  test('shows where it may go; let go there it is pinned, and undo brings it back', async () => {
    const page = await atWeek();
    const demold = firstDemold(page);
    const before = await demold.innerText();
    await carry(page, demold, { down: 70 });
    await page.locator('.held-note').waitFor();
    await page.locator('.week-place').first().waitFor({ state: 'attached' });
    await page.locator('.held-note.held-open').waitFor();
    await page.mouse.up();
    await page.locator('.toast', { hasText: 'Demold' }).waitFor({ timeout: 30_000 });
    await settled(page);
    expect(await demold.innerText()).toContain('pinned');
    expect(await demold.innerText()).not.toBe(before);
    await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
    await settled(page);
    await expect.poll(() => demold.innerText()).toBe(before);
  });

  test('let go where it may not lie goes back and says why, with ways out', async () => {
    const page = await atWeek();
    const demold = work(page, 'Demold', 'Wren').first();
    const before = await demold.innerText();
    // A day earlier it is not cured.
    const day = await page.locator('.fc-timegrid-col.fc-day').first().boundingBox();
    await carry(page, demold, { right: -(day?.width ?? 0) });
    await page.locator('.held-note.held-shut').waitFor();
    expect(await page.locator('.held-says').innerText()).not.toBe('');
    await page.mouse.up();
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    expect(await dialog.innerText()).toContain('Demold, Wren: not at');
    await dialog.getByRole('button', { name: /^Put it back/ }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await demold.innerText()).toBe(before);
  });
});

describe('without a mouse', () => {
  test('a step is moved from its card by keys', async () => {
    const page = await atWeek();
    await firstDemold(page).focus();
    await page.keyboard.press('Enter');
    const card = page.getByRole('complementary', { name: 'The touched work' });
    await card.getByRole('button', { name: 'Move it' }).click();
    const note = page.locator('.held-note');
    await note.getByText('may go here').waitFor();
    await note.getByRole('button', { name: '+1 h, later' }).click();
    await note.getByText('may go here').waitFor();
    await note.getByRole('button', { name: 'Put it here' }).click();
    await page.locator('.toast', { hasText: 'Demold' }).waitFor({ timeout: 30_000 });
    await settled(page);
    expect(await firstDemold(page).innerText()).toContain('pinned');
  });
});

test('on a phone three days break no word where it does not end', async () => {
  const page = await atWeek({ viewport: PHONE, hasTouch: true, isMobile: true });
  await page.getByRole('button', { name: '3 days', exact: true }).click();
  await page.locator('.visit-words').first().waitFor();
  await page.waitForTimeout(400);
  const broken = await page.evaluate(() =>
    [...document.querySelectorAll('.week .visit-words span')].flatMap((span) => {
      const text = span.firstChild;
      if (!(text instanceof Text)) return [];
      return [...text.data.matchAll(/[^\s-]+/g)].flatMap(({ 0: word, index }) => {
        const range = document.createRange();
        range.setStart(text, index);
        range.setEnd(text, index + word.length);
        return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1 ? [word] : [];
      });
    }),
  );
  expect(broken).toEqual([]);
});

describe.each([
  ['at the desk, dark', {}, 'dark'],
  ['on the phone, light', { viewport: PHONE }, 'light'],
] as const)('%s', (_, options, colorScheme) => {
  test('axe finds nothing on day, week and list', async () => {
    const page = await atWeek({ ...options, colorScheme });
    for (const view of 'viewport' in options ? ['Day', '3 days', 'List'] : ['Day', 'Week', 'List']) {
      await page.getByRole('button', { name: view, exact: true }).click();
      await page.waitForTimeout(400);
      expect([view, ...(await axeFindings(page))]).toEqual([view]);
    }
  });
});
