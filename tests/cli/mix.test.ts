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
