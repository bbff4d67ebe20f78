/** How a piece stands, and what might help a late one. */
import { describe, expect, test } from 'vitest';
import { parseShop, type Plan, type Shop } from '../../../src/engine/index.ts';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { byHelp, helpVariants, outcomeOf } from '../../../src/ui/pieces/help-variants.ts';
import { promisedAs } from '../../../src/ui/pieces/promised-as.ts';
import { inOrder, standingOf } from '../../../src/ui/pieces/standing.ts';
import { planned } from '../small-shop.ts';

const change = (shop: Shop, id: string, next: Partial<Shop['pieces'][number]>): Shop => ({
  ...shop,
  pieces: shop.pieces.map((piece) => (piece.id === id ? { ...piece, ...next } : piece)),
});

test('the plan of a promise has the piece under its own name, and all others as they were', () => {
  const { plan } = planned();
  const told = promisedAs({ plan, piece: 'wren' }, 'ruff');
  const namesIn = (some: readonly { readonly piece: string }[]): readonly string[] =>
    some.map(({ piece }) => piece);
  const renamed = (some: readonly { readonly piece: string }[]): readonly string[] =>
    namesIn(some).map((name) => (name === 'wren' ? 'ruff' : name));
  for (const list of ['steps', 'holds', 'pieces'] as const) {
    expect(namesIn(plan[list])).toContain('wren');
    expect(namesIn(told[list])).toEqual(renamed(plan[list]));
  }
});

describe('how a piece stands', () => {
  test('before it is begun: nothing done, its first step ahead, its promise from the plan', () => {
    const { shop, plan } = planned();
    const standing = standingOf(shop.pieces[0], plan, minuteOf('2026-11-25T13:30Z'));
    expect(standing.stage).toBe('waiting');
    expect(standing.doneSteps).toBe(0);
    expect(standing.now).toBeNull();
    expect(standing.next?.step).toBe('prepare');
    expect(standing.marks.every(({ state }) => state === 'ahead')).toBe(true);
    expect(standing.ready).toBe(minuteOf(plan.pieces[0].ready));
  });

  test('between two steps it says what it waits for', () => {
    const actuals = [
      {
        step: 'prepare',
        started: '2026-11-25T08:00',
        ended: '2026-11-25T09:00',
        form: 'tray',
        bench: 'bench',
      },
      { step: 'seal-mix', started: '2026-11-25T09:00', ended: '2026-11-25T09:05' },
      { step: 'seal', started: '2026-11-25T09:05', ended: '2026-11-25T09:10' },
      { step: 'layer-1-mix', started: '2026-11-25T12:10', ended: '2026-11-25T12:15' },
      { step: 'layer-1-pour', started: '2026-11-25T12:15', ended: '2026-11-25T12:20' },
      { step: 'layer-1-bubbles-1', started: '2026-11-25T12:35', ended: '2026-11-25T12:40' },
    ];
    const { shop, plan } = planned((file) => change(file, 'wren', { actuals }));
    const standing = standingOf(shop.pieces[0], plan, minuteOf('2026-11-25T13:30Z'));
    expect(standing.stage).toBe('under-way');
    expect(standing.doneSteps).toBe(6);
    expect(standing.now?.step).toBe('layer-1-set');
    expect(standing.next?.step).toBe('layer-2-mix');
    // A bubble pass that nobody recorded is no step to come once its layer has set.
    const missed = planned(
      (file) => change(file, 'wren', { actuals: actuals.slice(0, -1) }),
      '2026-11-26T12:00',
    );
    const later = standingOf(missed.shop.pieces[0], missed.plan, minuteOf('2026-11-26T11:00Z'));
    expect(later.marks.map(({ step }) => step)).not.toContain('layer-1-bubbles-1');
    expect(later.next?.step).toMatch(/^layer-2-/);
  });

  test('once all is done it is ready, in whichever order the plan lists its steps', () => {
    const { shop, plan } = planned();
    const [wren] = shop.pieces;
    const steps = [...plan.steps].reverse();
    const now = minuteOf('2026-11-25T13:30Z');
    expect(standingOf(wren, { ...plan, steps }, now)).toEqual(standingOf(wren, plan, now));
    const done = standingOf(wren, { ...plan, steps: steps.map((step) => ({ ...step, state: 'done' })) }, now);
    expect(done.stage).toBe('ready');
    expect(done.next).toBeNull();
    expect(done.marks.every(({ state }) => state === 'done')).toBe(true);
    expect(done.doneSteps).toBe(done.marks.length);
  });

  test('the latest stand first, then the next promise; what is ready stands last', () => {
    const { shop } = planned();
    const [piece] = shop.pieces;
    const bare = standingOf(piece, null, 0);
    const order = inOrder([
      { ...bare, due: null },
      { ...bare, due: 300 },
      { ...bare, due: 200 },
      { ...bare, due: 100, stage: 'ready' as const },
      { ...bare, due: 400, lateMinutes: 10 },
    ]);
    expect(order.map(({ due }) => due)).toEqual([400, 200, 300, null, 100]);
  });
});

describe('what might help', () => {
  test('every way that is offered leaves a right shop file, and changes something', () => {
    const { shop, plan } = planned((file) =>
      change(change(file, 'wren', { forms: ['tray'] }), 'robin', {
        pins: [{ step: 'prepare', at: '2026-11-26T10:00' }],
      }),
    );
    const workdays: Shop = {
      ...shop,
      people: shop.people.map((person) => ({
        ...person,
        hours: [
          { rule: 'FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR', from: '08:00', to: '20:00', start: '2026-01-05' },
        ],
      })),
    };
    const variants = helpVariants(workdays, plan, workdays.pieces[0]);
    expect(variants.map(({ key }) => key)).toEqual([
      'any-form',
      'unpin-others',
      'first',
      'weekend-ada',
      'warm-cellar',
      'one-more-form',
    ]);
    for (const { edit } of variants) {
      const next = edit.apply(workdays);
      const read = parseShop(JSON.stringify(next));
      expect(read.ok ? [] : read.faults).toEqual([]);
      expect(next).not.toEqual(workdays);
    }
  });

  /** A shop of two people, two rooms and two forms, in which the piece is pinned and picky, and what helps there. */
  const many = () => {
    const { shop, plan } = planned((file) =>
      change(file, 'wren', {
        forms: ['tray'],
        pins: [
          { step: 'prepare', at: '2026-11-26T10:00' },
          { step: 'layer-2-pour', way: 'recoat' },
        ],
      }),
    );
    const [ada] = shop.people;
    const [cellar] = shop.rooms;
    const [bench] = shop.benches;
    const on = (days: string) => [
      { rule: `FREQ=WEEKLY;BYDAY=${days}`, from: '08:00', to: '20:00', start: '2026-01-05' },
    ];
    const heated = {
      ...cellar.temperature,
      pattern: { ...cellar.temperature.pattern, nightLowDegC: 12, dayHighDegC: 25 },
    };
    const wide: Shop = {
      ...shop,
      people: [
        { ...ada, hours: on('MO,SA') },
        { ...ada, id: 'bo', name: 'Bo', hours: [...on('SU'), ...on('TU')] },
      ],
      rooms: [cellar, { ...cellar, id: 'shed', name: 'Shed', temperature: heated }],
      benches: [bench, { ...bench, id: 'plank', room: 'shed' }],
    };
    return { wide, plan, variants: helpVariants(wide, plan, wide.pieces[0]) };
  };

  test('every way changes what it says and nothing else', () => {
    const { wide, variants } = many();
    const [wren, robin] = wide.pieces;
    const [ada, bo] = wide.people;
    const [cellar, shed] = wide.rooms;
    const weekend = (day: string) => ({
      rule: `FREQ=WEEKLY;BYDAY=${day}`,
      from: '09:00',
      to: '15:00',
      start: '2026-01-05',
    });
    const kept = (room: Shop['rooms'][number], degC: number): Shop['rooms'][number] => ({
      ...room,
      temperature: {
        ...room.temperature,
        pattern: {
          ...room.temperature.pattern,
          heating: [
            {
              hours: { rule: 'FREQ=DAILY', from: '00:00', to: '24:00', start: '2026-01-05' },
              degC,
              warmUpMinutes: 60,
            },
          ],
        },
      },
    });
    expect(variants.map(({ title, edit }) => [title, edit.apply(wide)])).toEqual([
      [
        '“Wren” may be cast in any form that fits',
        { ...wide, pieces: [{ ...wren, forms: undefined }, robin] },
      ],
      [
        'unpin “Wren”',
        { ...wide, pieces: [{ ...wren, pins: [{ step: 'layer-2-pour', way: 'recoat' }] }, robin] },
      ],
      ['“Wren” goes before the others', { ...wide, pieces: [{ ...wren, weight: 10 }, robin] }],
      [
        'Ada also works on Sundays, 09:00 to 15:00',
        { ...wide, people: [{ ...ada, hours: [...ada.hours, weekend('SU')] }, bo] },
      ],
      [
        'Bo also works on Saturdays, 09:00 to 15:00',
        { ...wide, people: [ada, { ...bo, hours: [...bo.hours, weekend('SA')] }] },
      ],
      ['keep Cellar at 22 °C day and night', { ...wide, rooms: [kept(cellar, 22), shed] }],
      ['keep Shed at 25 °C day and night', { ...wide, rooms: [cellar, kept(shed, 25)] }],
      ['one more “Tray form”', { ...wide, forms: [{ ...wide.forms[0], count: 3 }, wide.forms[1]] }],
    ]);
  });

  test('nothing is offered that is so already', () => {
    const { wide, plan } = many();
    const [wren] = wide.pieces;
    const keysOf = (shop: Shop): readonly string[] =>
      helpVariants(shop, plan, shop.pieces[0]).map(({ key }) => key);
    const alone = { ...wide, pieces: [{ ...wren, pins: [], forms: undefined }] };
    expect(keysOf(alone).filter((key) => /any-form|unpin|first/.test(key))).toEqual([]);
    expect(keysOf(change(wide, 'wren', { weight: 100 }))).not.toContain('first');
    const warm = (nightLowDegC: number): Shop => ({
      ...wide,
      rooms: wide.rooms.map((room) => ({
        ...room,
        temperature: { ...room.temperature, pattern: { ...room.temperature.pattern, nightLowDegC } },
      })),
    });
    expect(keysOf(warm(21.4))).toContain('warm-cellar');
    expect(keysOf(warm(21.5))).not.toContain('warm-cellar');
    expect(keysOf(warm(21.5))).toContain('warm-shed');
  });

  test('whoever works on weekends already is not asked to', () => {
    const { shop, plan } = planned();
    expect(helpVariants(shop, plan, shop.pieces[0]).some(({ key }) => key.startsWith('weekend'))).toBe(false);
  });

  test('an outcome tells whom it makes later', () => {
    const { plan } = planned();
    const after: Plan = {
      ...plan,
      pieces: plan.pieces.map((one) => ({ ...one, lateMinutes: one.piece === 'robin' ? 90 : 0 })),
    };
    expect(outcomeOf('wren', plan, after)).toMatchObject({
      lateMinutes: 0,
      hurt: [{ piece: 'robin', minutes: 90 }],
    });
    expect(outcomeOf('wren', after, after)?.hurt).toEqual([]);
    expect(outcomeOf('wren', { ...plan, pieces: [] }, after)?.hurt).toEqual([
      { piece: 'robin', minutes: 90 },
    ]);
    expect(outcomeOf('nobody', plan, after)).toBeNull();
  });

  test('the least late comes first, among equals the one that hurts nobody', () => {
    const outcome = (lateMinutes: number, hurt: number) => ({
      outcome: {
        lateMinutes,
        ready: '',
        hurt: Array.from({ length: hurt }, () => ({ piece: 'x', minutes: 1 })),
      },
    });
    expect(byHelp([outcome(30, 0), outcome(0, 1), outcome(0, 0)])).toEqual([
      outcome(0, 0),
      outcome(0, 1),
      outcome(30, 0),
    ]);
  });
});
