/** What the program prints for the bench, the wall, the calendar and the spreadsheet. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parseShop } from '../../src/engine/index.ts';
import { pourwright, ROOT, shell } from './run-program.ts';

const GARAGE = 'examples/cold-garage.shop.json';
const PLANNING = ['--now', '2026-11-25T08:00', '--budget', '200000'];

let folder: string;
let planFile: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pourwright-mix-'));
  planFile = join(folder, 'garage.plan.json');
  const { out, code } = await pourwright(['plan', GARAGE, '--json', ...PLANNING]);
  expect(code).toBe(0);
  writeFileSync(planFile, out);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('mix', () => {
  test('prints the cups of the next day with any: A, then B, then tint, the scale counting on', async () => {
    const { code, out, err } = await pourwright(['mix', GARAGE, '--plan', planFile]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/what to mix on \w{3} \d+ \w{3}/);
    expect(out).toMatch(/CUP 1 .*\n {2}mix \d\d:\d\d to \d\d:\d\d; it flows until \d\d:\d\d\n/);
    expect(out).toMatch(/\n {2}A .*\n {2}B .*\n {2}smoke grey /);
  });

  test('as JSON has the same numbers: the scale ends on what was put in', async () => {
    const { out } = await pourwright(['mix', GARAGE, '--plan', planFile, '--json']);
    const { cups } = JSON.parse(out) as {
      cups: { measured: { byMass: { aG: number; bG: number; tintG: number; mixedG: number } } }[];
    };
    expect(cups.length).toBeGreaterThan(0);
    for (const { measured } of cups) {
      const { aG, bG, tintG, mixedG } = measured.byMass;
      expect(aG + bG + tintG).toBeCloseTo(mixedG, 6);
    }
  });

  test('--stock tells what the cans hold and what each piece costs', async () => {
    const { out } = await pourwright(['mix', GARAGE, '--plan', planFile, '--stock']);
    expect(out).toMatch(/mL there, \d+ mL needed/);
    expect(out).toContain('Cost of each piece');
  });

  test('--stock is of the whole plan: a day beside it is refused', async () => {
    const { code, err } = await pourwright(['mix', GARAGE, '--stock', '--day', '2026-12-02']);
    expect(code).toBe(2);
    expect(err).toContain('--day: is of the cups, and --stock of the whole plan');
  });

  test('a day that is none is refused, with what would be one', async () => {
    const { code, err } = await pourwright(['mix', GARAGE, '--day', '2026-02-30']);
    expect(code).toBe(2);
    expect(err).toContain('--day: found "2026-02-30", needs a day of the calendar such as 2026-11-26');
  });
});

describe('plan, written for others', () => {
  test('--sheet is the run sheet, with a box to tick at each line', async () => {
    const { code, out } = await pourwright(['plan', GARAGE, '--sheet', ...PLANNING]);
    expect(code).toBe(0);
    expect(out).toMatch(/\[ \] {2}\d\d:\d\d {2}/);
    expect(out).toContain('Take care');
  });

  test('npm run --silent plan -- FILE --ics prints a calendar and nothing else, the same bytes each time', async () => {
    const line = `npm run --silent plan -- ${GARAGE} --ics ${PLANNING.join(' ')}`;
    const [first, second] = [await shell(line), await shell(`TZ=Asia/Tokyo ${line}`)];
    expect(first).toMatchObject({ code: 0, err: '' });
    expect(second.out).toBe(first.out);
    const calendar = new ICAL.Component(ICAL.parse(first.out));
    expect(calendar.getAllSubcomponents('vevent').length).toBeGreaterThan(20);
  });

  test('--standing PLAN moves nothing when nothing has changed, and --ics cancels what is no longer planned', async () => {
    const again = await pourwright(['plan', GARAGE, '--json', '--standing', planFile, ...PLANNING]);
    const starts = (text: string): string[] =>
      (JSON.parse(text) as { steps: { piece: string; step: string; start: string }[] }).steps.map(
        ({ piece, step, start }) => `${piece} ${step} ${start}`,
      );
    const before = readFileSync(planFile, 'utf8');
    expect(starts(again.out).sort()).toEqual(starts(before).sort());

    const shop = JSON.parse(readFileSync(join(ROOT, GARAGE), 'utf8')) as {
      recipes: { finish?: unknown }[];
    };
    expect(shop.recipes.some(({ finish }) => finish !== undefined)).toBe(true);
    for (const recipe of shop.recipes) delete recipe.finish;
    const file = join(folder, 'unfinished.shop.json');
    writeFileSync(file, JSON.stringify(shop));
    const { out, code } = await pourwright(['plan', file, '--ics', '--standing', planFile, ...PLANNING]);
    expect(code).toBe(0);
    const events = new ICAL.Component(ICAL.parse(out)).getAllSubcomponents('vevent');
    const isCancelled = (event: ICAL.Component): boolean =>
      event.getFirstPropertyValue('status') === 'CANCELLED';
    const gone = events.filter(isCancelled).map((event) => String(event.getFirstPropertyValue('uid')));
    expect(gone.length).toBeGreaterThan(0);
    const alone = await pourwright(['plan', file, '--ics', ...PLANNING]);
    const kept = new ICAL.Component(ICAL.parse(alone.out)).getAllSubcomponents('vevent');
    expect(kept.some(isCancelled)).toBe(false);
    for (const event of kept) expect(gone).not.toContain(String(event.getFirstPropertyValue('uid')));
  });

  test('--standing with what is no plan is refused before any planning', async () => {
    const { code, out, err } = await pourwright(['plan', GARAGE, '--standing', GARAGE, ...PLANNING]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('cannot be used as a plan document');
  });

  test.each(['steps', 'materials'])('--csv %s is a table that a strict reader takes', async (table) => {
    const { code, out } = await pourwright(['plan', GARAGE, '--csv', table, ...PLANNING]);
    expect(code).toBe(0);
    expect(parse(out, { recordDelimiter: '\r\n' }).length).toBeGreaterThan(5);
  });

  test('--record PIECE tells what has happened, and that nothing has', async () => {
    const { out } = await pourwright(['plan', GARAGE, '--record', 'heron-tray', ...PLANNING]);
    expect(out).toContain('nothing has been entered as done');
  });

  test.each([
    [['--csv', 'money'], '--csv: found "money", needs one of steps, materials'],
    [['--sheet', '--piece', 'nobody'], '--piece: found "nobody", needs one of '],
    [['--record', 'nobody'], '--record: found "nobody", needs one of '],
  ])('%j is refused before any planning', async (words, message) => {
    const { code, out, err } = await pourwright(['plan', GARAGE, ...words, ...PLANNING]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(message);
  });
});

test('split prints the file with its deep layers split, and says what it did', async () => {
  const file = JSON.parse(readFileSync(join(ROOT, GARAGE), 'utf8')) as {
    forms: { inside: { depthMm: number } }[];
    recipes: { id: string; layers: { depthMm: number }[] }[];
    resins: { largestDepthMm: number }[];
  };
  for (const { inside } of file.forms) inside.depthMm = 400;
  const { largestDepthMm } = file.resins[0];
  file.recipes[0].layers[0].depthMm = 2 * largestDepthMm;
  const { code, out, err } = await pourwright(['split', '-'], JSON.stringify(file));
  expect({ code, err }).toEqual({
    code: 0,
    err: `${file.recipes[0].id}: layer 1 is now 2 pours of ${largestDepthMm}, ${largestDepthMm} mm\n`,
  });
  expect(parseShop(out).ok).toBe(true);
});
