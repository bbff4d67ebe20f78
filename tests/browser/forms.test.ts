/** The Forms screen and its drag in a real browser: by mouse, by finger, by keys. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { openShop, PHONE, onePageATest } from './visit.ts';

const open = onePageATest();

const atForms = async (text = shopText, options = {}): Promise<Page> => {
  const page = await open('/forms', options);
  await openShop(page, text, 'Two Evenings');
  return page;
};

const stepButton = (page: Page, words: RegExp) =>
  page.locator('.step-buttons button').and(page.getByLabel(words)).first();
const middleOf = async (page: Page, words: RegExp): Promise<{ x: number; y: number }> => {
  const box = await stepButton(page, words).boundingBox();
  if (!box) throw new Error(`no step ${words} in the picture`);
  return { x: box.x + 4, y: box.y + 13 };
};
const label = async (page: Page, words: RegExp): Promise<string> =>
  (await stepButton(page, words).getAttribute('aria-label')) ?? '';
/** Of two pieces alike the one that is demolded first: the rest of that day is free. */
const demoldedFirst = async (page: Page): Promise<RegExp> => {
  const [wren, robin] = [/Demold, Wren/, /Demold, Robin/];
  return (await middleOf(page, wren)).x < (await middleOf(page, robin)).x ? wren : robin;
};
const timeOf = (text: string): string => /^(.*?\d\d:\d\d)/.exec(text)?.[1] ?? '';
const noted = (page: Page): Promise<string> => page.locator('.held-note .held-time').innerText();

/** Carries what is held to the right until it may go there (or may not), and tells where that is. */
const carryUntil = async (
  page: Page,
  from: { x: number; y: number },
  kind: 'open' | 'shut',
  step = 12,
): Promise<string> => {
  for (let x = from.x + 24; x < from.x + 700; x += step) {
    await page.mouse.move(x, from.y);
    const found = await page
      .locator(`.held-${kind}`)
      .waitFor({ timeout: 250 })
      .then(() => true)
      .catch(() => false);
    if (found) return noted(page);
  }
  throw new Error(`nothing to the right is ${kind}`);
};

/** Takes the step up by mouse and waits until the engine has said where it may go. */
const takeUp = async (page: Page, words: RegExp): Promise<{ x: number; y: number }> => {
  const at = await middleOf(page, words);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 12, at.y, { steps: 3 });
  await page.locator('.held-open, .held-shut').waitFor();
  return at;
};

describe('the picture', () => {
  test('shows a lane for every form, bench and room, with when each form frees up', async () => {
    const page = await atForms();
    const names = await page.locator('.lane-names strong').allInnerTexts();
    expect(names).toEqual(['Tray form 1', 'Tray form 2', 'Slab form', 'Bench', 'Cellar']);
    expect(await page.locator('.lane-frees li').count()).toBe(3);
    expect(await page.locator('.free-row').count()).toBe(3);
  });

  test('is painted: the lane of a piece holds wet, tacky and hard resin, and wood', async () => {
    const page = await atForms();
    const colours = () =>
      page.locator('canvas.lanes').evaluate((element) => {
        const canvas = element as HTMLCanvasElement;
        // Read from a copy, so that the picture itself is never read back.
        const pen = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d', {
          willReadFrequently: true,
        });
        pen!.drawImage(canvas, 0, 0);
        const { data } = pen!.getImageData(0, 0, canvas.width, canvas.height);
        const seen = { wet: 0, tacky: 0, wood: 0 };
        for (let at = 0; at < data.length; at += 4) {
          const [r, g, b] = [data[at], data[at + 1], data[at + 2]];
          if (b > r + 40 && g > r + 25) seen.wet += 1;
          else if (r > b + 90 && r > g + 30) seen.tacky += 1;
          else if (r > b + 35 && r > 150) seen.wood += 1;
        }
        return seen;
      });
    await expect.poll(async () => Math.min(...Object.values(await colours()))).toBeGreaterThan(300);
  });

  test('turns dark with the device while it is open, and light by choice', async () => {
    const page = await atForms();
    /** How bright the picture is on the whole, 0 to 255. */
    const brightness = () =>
      page.locator('canvas.lanes').evaluate((element) => {
        const pen = new OffscreenCanvas(1, 1).getContext('2d')!;
        pen.drawImage(element as HTMLCanvasElement, 0, 0, 1, 1);
        return Math.max(...pen.getImageData(0, 0, 1, 1).data.slice(0, 3));
      });
    await expect.poll(brightness).toBeGreaterThan(150);
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(brightness).toBeLessThan(100);
    await page.getByRole('button', { name: 'Shop file and settings' }).click();
    await page.getByRole('menuitemradio', { name: 'Light', exact: true }).click();
    await expect.poll(brightness).toBeGreaterThan(150);
  });

  test('zooms by button and wheel, pans by mouse, and goes back to now', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    await expect
      .poll(() => page.getByRole('button', { name: 'Day', exact: true }).getAttribute('aria-pressed'))
      .toBe('true');
    const before = await middleOf(page, /Prepare wood and form, Wren/);
    const board = await page.locator('.scroller').boundingBox();
    await page.mouse.move(board!.x + 600, board!.y + 20);
    await page.mouse.down();
    await page.mouse.move(board!.x + 500, board!.y + 20, { steps: 4 });
    await page.mouse.up();
    await expect
      .poll(async () => (await middleOf(page, /Prepare wood and form, Wren/)).x)
      .toBeCloseTo(before.x - 100, 0);
    await page.getByRole('button', { name: 'Now', exact: true }).click();
    await page.mouse.move(board!.x + 500, board!.y + 40);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, 300);
    await page.keyboard.up('Control');
    await expect
      .poll(() => page.getByRole('button', { name: 'Day', exact: true }).getAttribute('aria-pressed'))
      .toBe('false');
  });

  test('tells a picked step in words, with the reason it stands there', async () => {
    const page = await atForms();
    const at = await middleOf(page, /Pour layer 2, Wren/);
    await page.mouse.click(at.x, at.y);
    await page.locator('.picked').waitFor();
    expect(await page.locator('.picked').innerText()).toMatch(/Wren/);
    await expect.poll(() => page.locator('.why li').count()).toBeGreaterThan(0);
  });
});

describe('the picked card', () => {
  /** Wren in a tray form, Robin in the slab form, and the first step of Wren picked. */
  const pickWren = async (options = {}): Promise<Page> => {
    const file = JSON.parse(shopText) as { pieces: { id: string; forms?: string[] }[] };
    for (const piece of file.pieces) piece.forms = [piece.id === 'wren' ? 'tray' : 'slab'];
    const page = await atForms(JSON.stringify(file), options);
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    const at = await middleOf(page, /Prepare wood and form, Wren/);
    await page.mouse.click(at.x, at.y);
    await page.locator('.picked').waitFor();
    return page;
  };
  const formOf = async (page: Page, piece: string): Promise<string> =>
    /(Tray|Slab) form/.exec(await label(page, new RegExp(`Prepare wood and form, ${piece}`)))?.[0] ?? '';
  const forms = async (page: Page): Promise<readonly string[]> => [
    await formOf(page, 'Wren'),
    await formOf(page, 'Robin'),
  ];

  test('swaps forms by keys, and undo swaps them back', async () => {
    const page = await pickWren();
    expect(await forms(page)).toEqual(['Tray form', 'Slab form']);
    await page.getByRole('button', { name: 'Swap forms with…' }).focus();
    await page.keyboard.press('Enter');
    const item = page.getByRole('menuitem', { name: 'Robin, Slab form' });
    await expect.poll(() => item.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press('Enter');
    await expect.poll(() => forms(page), { timeout: 30_000 }).toEqual(['Slab form', 'Tray form']);
    await page
      .getByRole('button', { name: /^Undo: swap the forms of Wren and Robin/ })
      .first()
      .click();
    await expect.poll(() => forms(page), { timeout: 30_000 }).toEqual(['Tray form', 'Slab form']);
  });

  test('swaps forms by finger on the phone', async () => {
    const page = await pickWren({ viewport: PHONE, hasTouch: true, isMobile: true });
    await page.getByRole('button', { name: 'Swap forms with…' }).tap();
    await page.getByRole('menuitem', { name: 'Robin, Slab form' }).tap();
    await expect.poll(() => forms(page), { timeout: 30_000 }).toEqual(['Slab form', 'Tray form']);
  });

  test('pins all of the piece, and lets go of all of it', async () => {
    const page = await pickWren();
    await page.getByRole('button', { name: '6 weeks', exact: true }).click();
    await page.getByRole('button', { name: 'Pin all of Wren', exact: true }).click();
    await expect.poll(() => label(page, /Demold, Wren/), { timeout: 30_000 }).toContain('pinned');
    await page.getByRole('button', { name: 'Unpin all of Wren' }).click();
    await expect.poll(() => label(page, /Demold, Wren/), { timeout: 30_000 }).not.toContain('pinned');
  });
});

describe('the drag by mouse', () => {
  test('a legal drop pins the step where it was let go, and undo brings it back', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: '3 days' }).click();
    // Near the edge the picture would be pulled along.
    const words = await demoldedFirst(page);
    const before = timeOf(await label(page, words));
    const from = await takeUp(page, words);
    const where = await carryUntil(page, from, 'open');
    expect(where).not.toBe(before);
    await page.mouse.up();
    await expect.poll(() => label(page, words)).toContain(where);
    await expect.poll(() => label(page, words), { timeout: 30_000 }).toContain('pinned');
    await page
      .getByRole('button', { name: /^Undo: put/ })
      .first()
      .click();
    await expect.poll(() => label(page, words).then(timeOf)).toBe(before);
    expect(await label(page, words)).not.toContain('pinned');
  });

  test('where it may not go, the reason is at the pointer, and Escape puts it back', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: '3 days' }).click();
    const words = /Demold, Wren/;
    const before = await label(page, words);
    const at = await takeUp(page, words);
    await page.mouse.move(at.x - 500, at.y, { steps: 5 });
    await page.locator('.held-shut').waitFor();
    expect((await page.locator('.held-says').innerText()).length).toBeGreaterThan(10);
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.held-note').count()).toBe(0);
    await page.mouse.up();
    expect(await label(page, words)).toBe(before);
    expect(await page.getByRole('dialog').count()).toBe(0);
  });
});

test('while a step is held by keys the note of the last change makes way for it', async () => {
  const page = await atForms();
  const note = page.locator('.toast');
  await page.getByRole('button', { name: 'Week', exact: true }).click();
  await stepButton(page, /Mix layer 2, Wren/).focus();
  await page.keyboard.press('Enter');
  await page.locator('.held-open').waitFor();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await note.waitFor();
  await stepButton(page, /Mix layer 2, Wren/).focus();
  await page.keyboard.press('Enter');
  await page.locator('.held-at-foot').waitFor();
  expect(await note.isVisible()).toBe(false);
  await page.keyboard.press('Escape');
  await expect.poll(() => note.isVisible()).toBe(true);
});

describe('an illegal drop and its ways out', () => {
  /** Lets the second layer of Wren go long after its window. */
  const dropTooLate = async (page: Page): Promise<void> => {
    await page.getByRole('button', { name: 'Week', exact: true }).click();
    await stepButton(page, /Mix layer 2, Wren/).focus();
    await page.keyboard.press('Enter');
    await page.locator('.held-open').waitFor();
    await page.keyboard.press('PageDown');
    await page.keyboard.press('PageDown');
    await page.locator('.held-shut').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
  };

  test('put it back: everything stays as it was', async () => {
    const page = await atForms();
    const before = await label(page, /Mix layer 2, Wren/);
    await dropTooLate(page);
    await expect.poll(() => page.locator('.refusal-why').innerText()).toMatch(/window closes/);
    await page.getByRole('button', { name: /^Put it back/ }).click();
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    expect(await label(page, /Mix layer 2, Wren/)).toBe(before);
    await expect.poll(() => page.getByRole('button', { name: 'Undo: open test.shop.json' }).count()).toBe(1);
  });

  test('the nearest place: it is pinned there', async () => {
    const page = await atForms();
    await dropTooLate(page);
    const way = page.getByRole('button', { name: /instead/ });
    const where = /At (.*) instead/.exec(await way.innerText())?.[1] ?? '';
    await way.click();
    await expect
      .poll(() => label(page, /Mix layer 2, Wren/), { timeout: 30_000 })
      .toMatch(new RegExp(`^${where}.*pinned`));
  });

  test('scuff first: it stays where it was put, and a scuff comes before it', async () => {
    const page = await atForms();
    await dropTooLate(page);
    await page.getByRole('button', { name: /^Scuff first/ }).click();
    await expect
      .poll(() => stepButton(page, /Scuff before layer 2, Wren/).count(), { timeout: 40_000 })
      .toBe(1);
    await expect.poll(() => label(page, /Mix layer 2, Wren/)).toContain('pinned');
  });

  test('move others: what stood in the way makes room', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    // Ada cannot prepare two pieces at once.
    const robin = timeOf(await label(page, /Prepare wood and form, Robin/));
    const wren = timeOf(await label(page, /Prepare wood and form, Wren/));
    const [first, second] = robin < wren ? ['Robin', 'Wren'] : ['Wren', 'Robin'];
    await stepButton(page, new RegExp(`Prepare wood and form, ${second}`)).focus();
    await page.keyboard.press('Enter');
    await page.locator('.held-open').waitFor();
    for (let tries = 0; tries < 24 && (await page.locator('.held-shut').count()) === 0; tries += 1) {
      await page.keyboard.press('ArrowLeft');
      await page.waitForTimeout(60);
    }
    await expect.poll(() => page.locator('.held-says').innerText()).toContain(first);
    const where = await noted(page);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: new RegExp(`^Move .*${first}`) }).click();
    await expect
      .poll(() => label(page, new RegExp(`Prepare wood and form, ${second}`)), { timeout: 40_000 })
      .toMatch(new RegExp(`^${where}.*pinned`));
    await expect
      .poll(() => label(page, new RegExp(`Prepare wood and form, ${first}`)), { timeout: 40_000 })
      .not.toContain(robin < wren ? robin : wren);
  });

  test('another form: the piece is cast there', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    const before = await label(page, /Prepare wood and form, Wren/);
    const [from, to] = before.includes('Slab form') ? ['Slab', 'Tray'] : ['Tray', 'Slab'];
    expect(before).toContain(`${from} form`);
    await stepButton(page, /Prepare wood and form, Wren/).focus();
    await page.keyboard.press('Enter');
    await page.locator('.held-open').waitFor();
    await page.keyboard.press('ArrowDown');
    await page.locator('.held-open').waitFor();
    await page.keyboard.press('Enter');
    await expect
      .poll(() => label(page, /Prepare wood and form, Wren/), { timeout: 40_000 })
      .toMatch(new RegExp(`${to} form.*pinned`));
  });
});

describe('the drag by keys', () => {
  test('pick up, move by the hour and the minute, drop: it is pinned at that minute', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: 'Week', exact: true }).click();
    const words = await demoldedFirst(page);
    await stepButton(page, words).focus();
    await page.keyboard.press('Space');
    await page.locator('.held-open').waitFor();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    const where = await noted(page);
    expect(await page.locator('.picture [aria-live]').innerText()).toContain(where);
    await page.locator('.held-open').waitFor();
    await page.keyboard.press('Space');
    await expect.poll(() => label(page, words), { timeout: 30_000 }).toMatch(new RegExp(`^${where}.*pinned`));
  });

  test('arrows go from step to step and from lane to lane', async () => {
    const page = await atForms();
    await page.getByRole('button', { name: 'Week', exact: true }).click();
    await stepButton(page, /Prepare wood and form, Wren/).focus();
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toMatch(/Mix the seal, Wren/);
    await page.keyboard.press('ArrowDown');
    await expect.poll(focused).not.toMatch(/Wren, Tray form/);
  });
});

describe('the drag by finger', () => {
  test('a finger that rests on a step takes it up; let go in a legal place, it is pinned', async () => {
    const page = await atForms(shopText, { viewport: PHONE, hasTouch: true, isMobile: true });
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    const words = /Prepare wood and form, Wren/;
    await stepButton(page, words).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    const at = await middleOf(page, words);
    const device = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
      device.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] });
    await touch('touchStart', at.x, at.y);
    await page.locator('.held-note').waitFor();
    await page.locator('.held-open').waitFor();
    const direction = at.x > PHONE.width / 2 ? -1 : 1;
    let where = '';
    for (let step = 1; step < 60; step += 1) {
      await touch('touchMove', at.x + direction * (6 + step * 4), at.y);
      await page.waitForTimeout(60);
      if (step > 3 && (await page.locator('.held-open').count()) > 0) {
        where = await noted(page);
        break;
      }
    }
    expect(where).not.toBe('');
    await touch('touchEnd', 0, 0);
    await expect.poll(() => label(page, words), { timeout: 30_000 }).toMatch(new RegExp(`^${where}.*pinned`));
  });

  test('a finger that swipes moves the picture and takes nothing up', async () => {
    const page = await atForms(shopText, { viewport: PHONE, hasTouch: true, isMobile: true });
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    const words = /Prepare wood and form, Wren/;
    await stepButton(page, words).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    const at = await middleOf(page, words);
    const device = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number) =>
      device.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: at.y }],
      });
    await touch('touchStart', at.x);
    for (let step = 1; step <= 8; step += 1) await touch('touchMove', at.x - step * 10);
    await touch('touchEnd', 0);
    expect(await page.locator('.held-note').count()).toBe(0);
    await expect.poll(async () => (await middleOf(page, words)).x).toBeLessThan(at.x - 50);
  });
});
