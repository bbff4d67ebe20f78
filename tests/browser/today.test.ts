/** Today, the first start and what a device keeps, in a real browser. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { shopText } from '../ui/small-shop.ts';
import { SCREEN_PATHS } from './each-screen.ts';
import { axeFindings, openFile, openShop, settled, onePageATest } from './visit.ts';

const open = onePageATest();

const start = async (path: string): Promise<Page> => {
  return open(path);
};
const setNow = (page: Page, iso: string): Promise<void> => page.clock.setFixedTime(new Date(iso));
const BERLIN = new Intl.DateTimeFormat('en-GB', { timeZone: 'Europe/Berlin', timeStyle: 'short' });
/** The app looks at its clock once a second; waits until it shows this moment, in the zone of Two Evenings. */
const seesNow = (page: Page, iso: string): Promise<void> =>
  expect.poll(() => page.locator('.head-clock time').innerText()).toBe(BERLIN.format(new Date(iso)));

/** Pours and seals that happened: Wren's first layer lies since 20:15 on the 24th, Berlin time. */
const poured = (): string => {
  const file = JSON.parse(shopText) as { pieces: Record<string, unknown>[] };
  file.pieces[0].actuals = [
    { step: 'prepare', started: '2026-11-25T08:00', ended: '2026-11-25T09:00', form: 'tray', bench: 'bench' },
    { step: 'seal-mix', started: '2026-11-25T09:00', ended: '2026-11-25T09:05' },
    { step: 'seal', started: '2026-11-25T09:05', ended: '2026-11-25T09:10' },
    { step: 'layer-1-mix', started: '2026-11-25T12:10', ended: '2026-11-25T12:15' },
    { step: 'layer-1-pour', started: '2026-11-25T12:15', ended: '2026-11-25T12:20' },
    { step: 'layer-1-bubbles-1', started: '2026-11-25T12:35', ended: '2026-11-25T12:40' },
  ];
  return JSON.stringify(file);
};

test('what was written down while the clock of the device was a month ahead is told on every screen, and taken back by one touch', async () => {
  const file = JSON.parse(shopText) as { pieces: Record<string, unknown>[] };
  file.pieces[0].actuals = [{ step: 'prepare', started: '2026-12-25T08:00', ended: '2026-12-25T09:00' }];
  const page = await start('/today');
  await openFile(page, JSON.stringify(file));
  const note = page.getByRole('alert');
  await note.getByText('written down for a time still to come').waitFor();
  expect(await note.innerText()).toMatch(
    /Wren - preparing is written down as begun Fri 25 Dec 08:00, .* from now; right would be a time up to now, Wed 25 Nov 14:30/,
  );
  // Nothing is known without a plan, least of all that a form is free.
  for (const path of SCREEN_PATHS) {
    await page.locator(`.way[href="#${path}"]`).click();
    await page.locator(`main > .${path.slice(1)}`).waitFor();
    expect(await note.isVisible()).toBe(true);
    expect(await page.locator('main').innerText()).not.toMatch(/free now|No resin is setting|Nothing more/);
  }
  await page.locator('.way[href="#/pieces"]').click();
  const wren = page.locator('.piece').filter({ hasText: 'Wren' });
  expect(await wren.innerText()).toContain('Begun.');
  expect(await axeFindings(page)).toEqual([]);
  await note.getByRole('button', { name: 'Take it back' }).click();
  await settled(page);
  await wren.getByText('Not begun').waitFor();
  expect(await note.count()).toBe(0);
  await page.getByRole('button', { name: 'Undo: take back what was written down ahead' }).click();
  await note.waitFor();
});

describe('the first start', () => {
  test('shows the example shop with its plan, says that it is one, and keeps it over a reload', async () => {
    const page = await start('/forms');
    await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
    await settled(page);
    expect(await page.locator('.head-standing').innerText()).toContain('example');
    expect(await page.locator('.step-buttons button').count()).toBeGreaterThan(20);
    await page.waitForTimeout(600);
    await page.reload();
    await page.locator('.step-buttons button').first().waitFor({ state: 'attached' });
    expect(await page.locator('h1').innerText()).toBe('Larkmoor Boards');
    expect(await page.locator('.head-standing').innerText()).toContain('example');
  });

  test('every screen opens with no network once the plan has settled', async () => {
    const page = await start('/forms');
    await settled(page);
    // Nothing on the page tells when the last of them has come.
    await page.waitForTimeout(3000);
    await page.context().setOffline(true);
    for (const path of SCREEN_PATHS) {
      await page.locator(`.way[href="#${path}"]`).click();
      await page.locator(`main > .${path.slice(1)}`).waitFor();
    }
  });

  test('a shop file that is none is refused, fault by fault, and the shop stays', async () => {
    const page = await start('/today');
    await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
    await openFile(page, '{"format":"pourwright.shop","version":1,"name":"Half a shop","zone":"Nowhere"}');
    const dialog = page.getByRole('dialog', { name: 'The file was not opened' });
    await dialog.waitFor();
    expect(await dialog.innerText()).toMatch(/rooms/);
    await dialog.getByRole('button', { name: 'Back to the shop' }).click();
    expect(await page.locator('h1').innerText()).toBe('Larkmoor Boards');
  });

  test('a shop that is opened is saved again word for word as a shop', async () => {
    const page = await start('/today');
    await openShop(page, shopText, 'Two Evenings');
    await page.getByRole('button', { name: 'Shop file and settings' }).click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('menuitem', { name: 'Save the shop file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('two-evenings.shop.json');
    const saved = JSON.parse(await readFile(await download.path(), 'utf8')) as {
      name: string;
      pieces: unknown[];
    };
    expect(saved.name).toBe('Two Evenings');
    expect(saved.pieces).toHaveLength(2);
  });
});

describe('working from the list', () => {
  test('coming to the list when the plan is long made shows what comes next', async () => {
    const page = await start('/forms');
    await openShop(page, shopText, 'Two Evenings');
    await settled(page);
    await page.getByRole('link', { name: 'Today' }).click();
    await page.locator('.today').waitFor();
    await expect.poll(() => page.locator('.today h3').count()).toBeGreaterThan(0);
  });

  test('a shop without pieces has nothing to do and waits for nothing', async () => {
    const page = await start('/today');
    await openShop(page, JSON.stringify({ ...JSON.parse(shopText), pieces: [] }), 'Two Evenings');
    expect(await page.locator('.today-now').innerText()).toContain('Nothing is planned.');
    expect(await page.locator('.today-setting').innerText()).toContain('No resin is setting.');
  });

  test('where no plan can exist, none is waited for', async () => {
    const file = JSON.parse(shopText) as { people: { hours: { to: string; from: string }[] }[] };
    for (const { hours } of file.people) for (const line of hours) [line.from, line.to] = ['08:00', '08:04'];
    const page = await start('/today');
    await openShop(page, JSON.stringify(file), 'Two Evenings');
    expect(await page.locator('.today-now').innerText()).toContain('There is no plan');
    expect(await page.locator('.trouble').innerText()).toMatch(
      /seal with its mixing takes \d+ min at a stretch, and Ada is there for 4 min at most/,
    );
  });

  test('begin, mixed, done: the cup counts down meanwhile, and what is done can be taken back', async () => {
    const page = await start('/today');
    await openShop(page, shopText, 'Two Evenings');
    const entry = page.locator('.entry', { hasText: 'brush on the seal' }).filter({ hasText: 'Wren' });
    const now = page.locator('.entry-running');
    const prepare = page.locator('.entry', { hasText: 'Prepare wood and form' }).filter({ hasText: 'Wren' });
    await prepare.getByRole('button', { name: /^Begin/ }).click();
    await now.filter({ hasText: 'Prepare' }).waitFor();
    await setNow(page, '2026-11-25T14:30:00Z');
    await seesNow(page, '2026-11-25T14:30:00Z');
    await now.getByRole('button', { name: /^Done/ }).click();
    await expect.poll(() => page.locator('.entry-running').count()).toBe(0);
    await settled(page);

    await entry.getByRole('button', { name: /^Begin/ }).click();
    await now.getByRole('timer').waitFor();
    expect(await now.getByRole('timer').innerText()).toMatch(/^\d+:\d\d/);
    await setNow(page, '2026-11-25T14:34:00Z');
    await seesNow(page, '2026-11-25T14:34:00Z');
    await now.getByRole('button', { name: /^Mixed/ }).click();
    await expect.poll(() => now.getByRole('button', { name: /^Mixed/ }).count()).toBe(0);
    await now.getByRole('timer').waitFor();
    await setNow(page, '2026-11-25T14:40:00Z');
    await seesNow(page, '2026-11-25T14:40:00Z');
    await now.getByRole('button', { name: /^Done/ }).click();
    await page.locator('.setting', { hasText: 'Wren' }).filter({ hasText: 'the seal' }).waitFor();

    await page.locator('summary', { hasText: 'Done today: 2' }).click();
    await page
      .locator('.today-done li', { hasText: 'brush on the seal' })
      .getByRole('button', { name: 'Take back' })
      .click();
    await page.locator('summary', { hasText: 'Done today: 1' }).waitFor();
    await expect.poll(() => page.locator('.setting').count(), { timeout: 30_000 }).toBe(0);
  });

  test('a mix past its working time is called over', async () => {
    const page = await start('/today');
    await openShop(page, shopText, 'Two Evenings');
    const prepare = page.locator('.entry', { hasText: 'Prepare wood and form' }).filter({ hasText: 'Wren' });
    await prepare.getByRole('button', { name: /^Begin/ }).click();
    await page.locator('.entry-running').getByRole('button', { name: /^Done/ }).click();
    await settled(page);
    await page
      .locator('.entry', { hasText: 'brush on the seal' })
      .filter({ hasText: 'Wren' })
      .getByRole('button', { name: /^Begin/ })
      .click();
    await page.getByRole('timer').waitFor();
    await settled(page);
    await setNow(page, '2026-11-25T17:30:00Z');
    await expect.poll(() => page.getByRole('timer').innerText()).toMatch(/over/);
    expect(await page.getByRole('timer').innerText()).toMatch(/Do not pour it/);
  });

  test('a bubble pass that nobody wrote down is asked for no more once its layer has set, but can be written down', async () => {
    const file = JSON.parse(poured()) as { pieces: { actuals: unknown[] }[] };
    file.pieces[0].actuals.pop();
    const page = await start('/today');
    await openShop(page, JSON.stringify(file), 'Two Evenings');
    const asked = page.locator('.entry', { hasText: 'Bubbles out of layer 1' }).filter({ hasText: 'Wren' });
    const missed = page.locator('.today-missed', { hasText: 'Wren: the bubble pass of layer 1' });
    expect([await asked.count(), await missed.count()]).toEqual([1, 0]);
    await setNow(page, '2026-11-26T11:00:00Z');
    await expect.poll(() => missed.count(), { timeout: 40_000 }).toBe(1);
    expect(await asked.count()).toBe(0);
    await settled(page);
    await missed.getByRole('button', { name: /^It was made/ }).click();
    await expect.poll(() => missed.count()).toBe(0);
    await settled(page);
    await page
      .getByRole('button', { name: /^Undo: bubbles are out of layer 1 of Wren/ })
      .first()
      .click();
    await expect.poll(() => missed.count(), { timeout: 40_000 }).toBe(1);
  });

  test('a layer that will stand still in the cold is told of beside it, and so for its piece and for the pour that waits', async () => {
    const file = JSON.parse(poured()) as { rooms: { temperature: object }[] };
    const cold = [
      { at: '2026-11-25T18:00', degC: 5 },
      { at: '2026-11-26T06:00', degC: 5 },
    ];
    file.rooms[0].temperature = { ...file.rooms[0].temperature, forecast: cold };
    const page = await start('/today');
    await openShop(page, JSON.stringify(file), 'Two Evenings');
    const said = /Layer 1 stands still for .* below 10 °C in Cellar, first from/;
    await page.locator('.setting', { hasText: 'Wren' }).getByText(said).waitFor();
    await page.getByRole('link', { name: 'Pieces' }).click();
    const piece = page.locator('.piece', { hasText: 'Wren' });
    await piece.getByText(said).waitFor();
    // The next step is the pour of layer 2.
    await piece.getByRole('button', { name: 'Show on Forms: Wren' }).click();
    await page.locator('.picked', { hasText: 'layer 2, Wren' }).getByText(said).waitFor();
  });

  test('a pin that time has passed is told of at its step, and let go by one touch, which undo takes back', async () => {
    const file = JSON.parse(shopText) as { pieces: Record<string, unknown>[] };
    file.pieces[0].pins = [{ step: 'prepare', at: '2026-11-25T09:00' }];
    const page = await start('/today');
    await openShop(page, JSON.stringify(file), 'Two Evenings');
    const entry = page.locator('.entry', { hasText: 'Prepare wood and form' }).filter({ hasText: 'Wren' });
    const said = entry.getByText('The time you pinned preparing to has passed; it is planned afresh.');
    await said.waitFor();
    expect(await axeFindings(page, '.today')).toEqual([]);
    await entry.getByRole('button', { name: /^Unpin/ }).click();
    await expect.poll(() => said.count(), { timeout: 40_000 }).toBe(0);
    await settled(page);
    await page
      .getByRole('button', { name: /^Undo: unpin “Prepare wood and form” of Wren/ })
      .first()
      .click();
    await said.waitFor();
    await page.getByRole('link', { name: 'Week' }).click();
    await page
      .locator('.week-visit', { hasText: 'Prepare wood and form' })
      .filter({ hasText: 'Wren' })
      .first()
      .click();
    const card = page.getByRole('complementary', { name: 'The touched work' });
    await card.getByText('The time you pinned preparing to has passed').waitFor();
  });

  test('touch tests: found wet, the window moves later; undo takes the finger back', async () => {
    const page = await start('/today');
    await setNow(page, '2026-11-25T17:40:00Z');
    await openShop(page, poured(), 'Two Evenings');
    await seesNow(page, '2026-11-25T17:40:00Z');
    const setting = page.locator('.setting', { hasText: 'layer 1' });
    const opens = () => setting.locator('.window-times span').first().innerText();
    const before = await opens();
    await setting.getByRole('button', { name: 'Not yet' }).click();
    await expect.poll(opens, { timeout: 40_000 }).not.toBe(before);
    await settled(page);
    await page
      .getByRole('button', { name: /^Undo: layer 1 of Wren found wet/ })
      .first()
      .click();
    await expect.poll(opens, { timeout: 40_000 }).toBe(before);
  });

  test('touch tests: found tacky, the window is open now', async () => {
    const page = await start('/today');
    await setNow(page, '2026-11-25T15:10:00Z');
    await openShop(page, poured(), 'Two Evenings');
    await seesNow(page, '2026-11-25T15:10:00Z');
    const setting = page.locator('.setting', { hasText: 'layer 1' });
    await expect.poll(() => setting.locator('.window-says').innerText()).toMatch(/^opens in/);
    await setting.getByRole('button', { name: 'Tacky', exact: true }).click();
    await expect
      .poll(() => setting.locator('.window-says').innerText(), { timeout: 40_000 })
      .toMatch(/^open now/);
  });

  test('what was begun is still begun after a reload, and can be taken back then', async () => {
    const page = await start('/today');
    // The shop before is the example: a file opened sooner would be the first there is.
    await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
    await openShop(page, shopText, 'Two Evenings');
    await page
      .locator('.entry', { hasText: 'Prepare wood and form' })
      .filter({ hasText: 'Robin' })
      .getByRole('button', { name: /^Begin/ })
      .click();
    await page.locator('.entry-running', { hasText: 'Robin' }).waitFor();
    await settled(page);
    await page.waitForTimeout(600);
    await page.reload();
    await page.locator('.entry-running', { hasText: 'Robin' }).waitFor();
    await page.getByRole('button', { name: /^Undo: begin/ }).click();
    await page.locator('.entry-running', { hasText: 'Robin' }).waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /^Undo: open/ }).click();
    await page.locator('h1', { hasText: 'Larkmoor Boards' }).waitFor();
  });
});
