import { describe, expect, test } from 'vitest';
import { agenda } from '../../../src/cli/page/agenda.ts';
import { formTable } from '../../../src/cli/page/forms.ts';
import { momentsOf } from '../../../src/cli/page/moments.ts';
import type { Plan } from '../../../src/engine/plan/document.ts';
import { at, plan, smallShop, step, waiting } from './small-plan.ts';

const shop = smallShop();
const plain = (text: string) => text;
const paint = { strong: plain, alarm: plain, faint: plain };
const days = (made: Plan, brief = false) => agenda(shop, made, momentsOf(made), { width: 100, paint, brief });

describe('the work by day', () => {
  test('today and tomorrow are there even when there is nothing to do', () => {
    expect(days(plan([]))).toEqual([
      'Today, Mon 2 Mar',
      '  nothing to do',
      '',
      'Tomorrow, Tue 3 Mar',
      '  nothing to do',
    ]);
  });

  test('a day in another year is told with its year', () => {
    const made = { ...plan([]), now: '2026-12-31T08:00+01:00' };
    expect(days(made)[3]).toBe('Tomorrow, Fri 1 Jan 2027');
  });

  test('lines stand in order of time, whatever the order of pieces, and later days follow', () => {
    const made = plan([
      step('elm', 'layer-1-pour', 'pour', ['03-02T11:00', '03-02T11:10']),
      step('elm', 'demold', 'demold', ['03-05T08:00', '03-05T08:10'], { form: { id: 'tray', unit: 2 } }),
      step('ash', 'layer-1-mix', 'mix', ['03-02T10:00', '03-02T10:10'], { resin: 'clear' }),
    ]);
    expect(days(made)).toEqual([
      '  time   piece     step                     hands',
      'Today, Mon 2 Mar',
      '  10:00  Ash tray  mix Clear Cast, layer 1  10 min',
      '  11:00  Elm tray  pour layer 1             10 min',
      '',
      'Tomorrow, Tue 3 Mar',
      '  nothing to do',
      '',
      'Thu 5 Mar',
      '  08:00  Elm tray  demold from Tray form 2  10 min',
    ]);
  });

  test('a window that opened yesterday names the day', () => {
    const window = { of: 'layer-1-pour', opens: at('03-01T22:00'), closes: at('03-02T15:30') };
    const made = plan([
      step('elm', 'layer-2-pour', 'pour', ['03-02T11:00', '03-02T11:10'], { window, way: 'recoat' }),
    ]);
    expect(days(made)[2]).toMatch(/pour layer 2 +10 min +Sun 22:00-15:30$/);
  });

  test('work that is done is gone, work begun before today stands first, as begun', () => {
    const made = plan([
      step('elm', 'prepare', 'prepare', ['02-27T08:00', '02-27T09:00'], { state: 'done' }),
      step('ash', 'layer-1-pour', 'pour', ['03-02T10:00', '03-02T10:10']),
      step('ash', 'prepare', 'prepare', ['02-28T17:30', '03-02T09:30'], { state: 'begun' }),
    ]);
    const lines = days(made);
    expect(lines.join('\n')).not.toContain('Elm');
    expect(lines[2]).toMatch(/^ {2}now {4}Ash tray {2}prepare, in the form \(begun Sat 17:30\)/);
    expect(lines[3]).toContain('10:00');
  });

  test('work spread over two days stands on both', () => {
    const made = plan([step('elm', 'sand', 'sand', ['03-02T17:30', '03-03T08:40'])]);
    const text = days(made).join('\n');
    expect(text).toContain('sand (until Tue 08:40)');
    expect(text).toContain('sand (goes on until 08:40)');
  });

  test('a piece that is ready too late says so in words', () => {
    const made = plan([step('elm', 'ready', 'ready', ['03-02T12:00', '03-02T12:00'], waiting)], {
      pieces: [{ piece: 'elm', ready: at('03-02T12:00'), due: at('03-02T10:30'), lateMinutes: 90 }],
    });
    expect(days(made)[2]).toBe('  12:00  Elm tray  ready, 1 h 30 min late');
  });

  test('the piece goes into the warm box after its last bubble pass, and comes out for the next mix', () => {
    const made = plan([
      step('elm', 'layer-1-pour', 'pour', ['03-02T10:00', '03-02T10:10']),
      step('elm', 'layer-1-set', 'set', ['03-02T10:10', '03-03T09:00'], { ...waiting, warmBox: 'box' }),
      step('elm', 'layer-1-bubbles-1', 'bubbles', ['03-02T10:30', '03-02T10:40']),
      step('elm', 'layer-2-mix', 'mix', ['03-03T09:00', '03-03T09:10'], { resin: 'clear' }),
    ]);
    const text = days(made).join('\n');
    expect(text).toContain('bubble pass, layer 1; then into Warm box');
    expect(text).toContain('out of Warm box; mix Clear Cast, layer 2');
    expect(text.match(/Warm box/g)).toHaveLength(2);
  });

  test('the short form ends with tomorrow', () => {
    const made = plan([step('elm', 'demold', 'demold', ['03-05T08:00', '03-05T08:10'])]);
    expect(days(made, true).join('\n')).not.toContain('Thu');
  });

  test('a name with an escape in it cannot reach the terminal', () => {
    const pieces = shop.pieces.map((piece) => ({ ...piece, name: 'Elm\u001B[31m\ntray' }));
    const made = plan([step('elm', 'sand', 'sand', ['03-02T10:00', '03-02T10:10'])]);
    const lines = agenda({ ...shop, pieces }, made, momentsOf(made), { width: 100, paint });
    expect(lines.join('')).not.toMatch(/\p{Cc}/u);
  });
});

describe('the table of forms', () => {
  test('tells for every form who is in it, and when it frees up', () => {
    const hold = { what: 'form', id: 'tray', unit: 1, amount: 1 } as const;
    const made = plan([], {
      holds: [
        { ...hold, piece: 'ash', from: at('03-05T10:00'), to: at('03-09T12:00') },
        { ...hold, piece: 'elm', from: at('02-27T08:00'), to: at('03-05T09:45') },
      ],
    });
    expect(formTable(shop, made, momentsOf(made), 100)).toEqual([
      '  form         piece     from             frees up',
      '  Tray form 1  Elm tray  in it now        Thu 5 Mar 09:45',
      '               Ash tray  Thu 5 Mar 10:00  Mon 9 Mar 12:00',
      '  Tray form 2  -                          free now',
    ]);
  });
});
