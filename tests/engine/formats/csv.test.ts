import { parse } from 'csv-parse/sync';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csv, materialsCsv, stepsCsv } from '../../../src/engine/formats/index.ts';
import { planShop } from '../../../src/engine/index.ts';
import { cupsOf } from '../../../src/engine/mix/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';

/** An independent reader, strict about RFC 4180. */
const read = (text: string): string[][] =>
  parse(text, { recordDelimiter: '\r\n', relaxColumnCount: false, relaxQuotes: false });

describe('a table', () => {
  test('is quoted as RFC 4180, section 2, has it', () => {
    expect(
      csv(
        ['a', 'b'],
        [
          ['x,y', 'say "hi"'],
          ['two\nlines', 3],
        ],
      ),
    ).toBe('a,b\r\n"x,y","say ""hi"""\r\n"two\nlines",3\r\n');
  });

  test('keeps numbers as numbers, below zero too, and leaves out what is not known', () => {
    expect(csv(['n'], [[-2.5], [null], [true]])).toBe('n\r\n-2.5\r\n\r\ntrue\r\n');
  });

  // OWASP, CSV Injection: a cell that begins with = + - @ tab or carriage return may run as a formula.
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '＝1'])(
    'a text cell never starts a formula: %j',
    (text) => {
      expect(read(csv(['a', 'b'], [['x', text]]))[1][1]).toBe(`'${text}`);
    },
  );

  test('any texts come back, whatever is in them', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string({ maxLength: 20 }), fc.string({ unit: 'binary', maxLength: 20 })), {
          minLength: 1,
          maxLength: 8,
        }),
        (rows) => {
          const back = read(csv(['first', 'second'], rows));
          expect(back.slice(1).map((row) => row.map((cell) => cell.replace(/^'/, '')))).toEqual(
            rows.map((row) => row.map((cell) => cell.replace(/^'/, ''))),
          );
          for (const cell of back.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r\n]/);
        },
      ),
      { seed: 20261126, numRuns: 300 },
    );
  });
});

describe('the tables of a plan', () => {
  const shop = littleShop((file) => {
    file.pieces = [{ ...piece('a'), name: '=HYPERLINK("x")' }, piece('b', { recipe: 'coated' })];
  });
  const plan = planShop(shop, { now: NOW, seed: 1, budget: 20_000 });

  test('steps: one row for each, with its times as in the plan document', () => {
    const [header, ...rows] = read(stepsCsv(shop, plan));
    expect(rows).toHaveLength(plan.steps.length);
    const column = (name: string): number => header.indexOf(name);
    rows.forEach((row, i) => {
      expect([row[column('piece')], row[column('step')], row[column('start')], row[column('end')]]).toEqual([
        plan.steps[i].piece,
        plan.steps[i].step,
        plan.steps[i].start,
        plan.steps[i].end,
      ]);
    });
    expect(rows[0][column('piece_name')]).toBe('\'=HYPERLINK("x")');
  });

  test('materials: the cups add up to what is mixed, the portions to what is poured', () => {
    const [header, ...rows] = read(materialsCsv(shop, plan));
    const total = (name: string): number =>
      rows.reduce((sum, row) => sum + Number(row[header.indexOf(name)]), 0);
    const { cups, pours } = cupsOf(shop, plan);
    expect(rows).toHaveLength(cups.flatMap(({ portions }) => portions).length);
    expect(total('needed_ml')).toBeCloseTo(
      pours.reduce((sum, { ml }) => sum + ml, 0),
      0,
    );
    expect(total('mixed_ml') - total('wasted_ml')).toBeCloseTo(total('needed_ml'), 0);
  });
});
