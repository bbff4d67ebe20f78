import { describe, expect, test } from 'vitest';
import type { Shop } from '../../../src/engine/index.ts';
import { makeZoneClock, minuteOf } from '../../../src/ui/clock/index.ts';
import { begin, finish, startPouring, takeBack, touch, wereMade } from '../../../src/ui/today/acts.ts';
import { asHappened } from '../../../src/ui/today/as-happened.ts';
import { entriesOf, worklistOf, type Entry } from '../../../src/ui/today/entries.ts';
import { missedOf } from '../../../src/ui/today/missed.ts';
import { settingOf } from '../../../src/ui/today/setting.ts';
import { windowScale, windowWords } from '../../../src/ui/today/window-words.ts';
import { planned, shopOf } from '../small-shop.ts';

const { shop, plan, cures } = planned();
const clock = makeZoneClock(shop.zone);
const now = minuteOf(plan.now);
const find = (entries: readonly Entry[], piece: string, step: string): Entry => {
  const found = entries.find(
    (entry) => entry.piece === piece && entry.steps.some((one) => one.step === step),
  );
  if (!found) throw new Error(`no entry for ${piece} ${step}`);
  return found;
};
const after = (changed: Shop): readonly Entry[] =>
  entriesOf(changed, { ...plan, steps: asHappened(changed, plan.steps, clock.parse, clock.iso) }, cures);
const piece = (changed: Shop, id: string) => changed.pieces.find((one) => one.id === id);

describe('the list to work from', () => {
  const entries = entriesOf(shop, plan, cures);

  test('a mix and its pour are one entry', () => {
    const pour = find(entries, 'wren', 'layer-1-pour');
    expect(pour.steps.map((step) => step.step)).toEqual(['layer-1-mix', 'layer-1-pour']);
    expect(pour.title).toBe('Mix, then pour layer 1');
    expect(pour.isMixed).toBe(true);
    expect(find(entries, 'wren', 'demold').isMixed).toBe(false);
  });

  test('work comes in the order of its times and nothing unattended is in it', () => {
    entries
      .slice(1)
      .forEach((entry, index) => expect(entry.start).toBeGreaterThanOrEqual(entries[index].start));
    expect(entries.every((entry) => entry.handsOnMinutes > 0)).toBe(true);
    const attended = plan.steps.filter((step) => step.handsOnMinutes > 0).length;
    expect(entries.reduce((sum, entry) => sum + entry.steps.length, 0)).toBe(attended);
  });

  test('each says where it is done: at a tool, in a form by its number, on a bench, else in a room', () => {
    const wren = plan.steps.filter((step) => step.piece === 'wren');
    const placed = (more: Partial<(typeof wren)[number]>, changed: Shop = shop): string => {
      const sand = wren.find((step) => step.step === 'sand');
      if (!sand) throw new Error('nothing is sanded');
      const bare = { ...sand, form: undefined, bench: undefined, tool: undefined };
      return entriesOf(changed, { ...plan, steps: [{ ...bare, ...more }] }, cures)[0].place;
    };
    const withSled: Shop = { ...shop, tools: [{ id: 'sled', name: 'Sled', room: 'cellar', count: 1 }] };
    expect(placed({})).toBe('Cellar');
    expect(placed({ bench: 'bench' })).toBe('Bench');
    expect(placed({ bench: 'bench', form: { id: 'tray', unit: 2 } })).toBe('Tray form 2');
    expect(placed({ form: { id: 'slab', unit: 1 } })).toBe('Slab form');
    expect(placed({ bench: 'bench', tool: 'sled' }, withSled)).toBe('Sled');
  });

  test('only an open mix has a minute by which it is poured, and only what bonds has a way', () => {
    expect(entries.map(({ pourBy }) => pourBy).every((pourBy) => pourBy === null)).toBe(true);
    const ways = entries.filter(({ piece: of, way }) => of === 'wren' && way !== null);
    const bonds = plan.steps.filter((step) => step.piece === 'wren' && step.way !== undefined);
    expect(ways.map(({ steps, way }) => [steps.at(-1)?.step, way])).toEqual(
      bonds.map(({ step, way }) => [step, way]),
    );
    expect(ways.length).toBeGreaterThan(0);
  });

  test('what was done before today began is no more told', () => {
    const [first, second] = entries;
    const done = plan.steps.map((step) =>
      [...first.steps, ...second.steps].includes(step) ? { ...step, state: 'done' as const } : step,
    );
    const told = (dayStart: number) =>
      worklistOf(shop, { ...plan, steps: done }, cures, second.end, dayStart).done.map(({ key }) => key);
    expect(told(first.end)).toEqual([second.key, first.key]);
    expect(told(first.end + 1)).toEqual([second.key]);
  });

  test('a step is due from ten minutes before its time, and stays due when it is late', () => {
    const first = entries[0];
    const at = (minute: number) => worklistOf(shop, plan, cures, minute, clock.dayOf(minute).start);
    expect(at(first.start - 11).due).not.toContainEqual(first);
    expect(at(first.start - 10).due).toContainEqual(first);
    expect(at(first.start + 45).due).toContainEqual(first);
  });
});

describe('the buttons', () => {
  const entry = find(entriesOf(shop, plan, cures), 'wren', 'layer-1-pour');

  test('begin, mixed, done: each is written with its minute, and the list follows at once', () => {
    const mixing = begin(entry, now, clock.iso).apply(shop);
    const running = find(after(mixing), 'wren', 'layer-1-pour');
    expect([running.state, running.running?.step]).toEqual(['begun', 'layer-1-mix']);
    const poursBy = cures.find((one) => one.piece === 'wren' && one.step === 'layer-1-pour')?.pourBy;
    expect(running.pourBy).toBe(minuteOf(poursBy ?? ''));
    // Begun, it is taken to last as long as it was planned to.
    expect(running.steps[0]).toMatchObject({
      start: clock.iso(now),
      end: clock.iso(now + running.steps[0].handsOnMinutes),
    });
    const pouring = startPouring(running, now + 6, clock.iso).apply(mixing);
    const poured = find(after(pouring), 'wren', 'layer-1-pour');
    expect(poured.running?.step).toBe('layer-1-pour');
    const done = finish(poured, now + 11, clock.iso).apply(pouring);
    expect(find(after(done), 'wren', 'layer-1-pour').state).toBe('done');
    expect(piece(done, 'wren')?.actuals.map(({ step, started, ended }) => [step, started, ended])).toEqual([
      ['layer-1-mix', clock.iso(now), clock.iso(now + 6)],
      ['layer-1-pour', clock.iso(now + 6), clock.iso(now + 11)],
    ]);
  });

  test('done without begin takes the planned lengths back from now, mix before pour', () => {
    const done = finish(entry, now, clock.iso).apply(shop);
    const [mix, pour] = entry.steps.map((step) => step.handsOnMinutes);
    expect(piece(done, 'wren')?.actuals.map(({ step, started, ended }) => [step, started, ended])).toEqual([
      ['layer-1-mix', clock.iso(now - pour - mix), clock.iso(now - pour)],
      ['layer-1-pour', clock.iso(now - pour), clock.iso(now)],
    ]);
  });

  test('taken back, it is as if it had never been begun', () => {
    const begun = begin(entry, now, clock.iso).apply(shop);
    const back = takeBack(find(after(begun), 'wren', 'layer-1-pour')).apply(begun);
    expect(piece(back, 'wren')?.actuals).toEqual([]);
    expect(find(after(back), 'wren', 'layer-1-pour').state).toBe('planned');
  });

  test('a touch test is written to the layer that was touched', () => {
    const felt = touch({ id: 'wren', name: 'Wren' }, 'layer-1-pour', 'wet', now, clock.iso).apply(shopOf());
    expect(piece(felt, 'wren')?.touchTests).toEqual([
      { step: 'layer-1-pour', at: clock.iso(now), found: 'wet' },
    ]);
  });
});

describe('what is setting', () => {
  /** Wren's first layer was poured this morning at eight. */
  const poured = (old: Shop): Shop => ({
    ...old,
    pieces: old.pieces.map((one) =>
      one.id === 'wren'
        ? {
            ...one,
            actuals: [
              {
                step: 'prepare',
                started: '2026-11-24T17:00',
                ended: '2026-11-24T18:00',
                form: 'tray',
                bench: 'bench',
              },
              { step: 'seal-mix', started: '2026-11-24T18:00', ended: '2026-11-24T18:05' },
              { step: 'seal', started: '2026-11-24T18:05', ended: '2026-11-24T18:10' },
              { step: 'layer-1-mix', started: '2026-11-24T21:10', ended: '2026-11-24T21:15' },
              { step: 'layer-1-pour', started: '2026-11-24T21:15', ended: '2026-11-24T21:20' },
              { step: 'layer-1-bubbles-1', started: '2026-11-24T21:35', ended: '2026-11-24T21:40' },
            ],
          }
        : one,
    ),
  });
  const state = planned(poured, '2026-11-25T06:00');
  const cure = state.cures.find((one) => one.piece === 'wren' && one.step === 'layer-1-pour');
  const at = (minute: number) => settingOf(state.shop, state.plan, state.cures, minute)[0];

  test('the last application of a piece is shown: wet, then tacky while its window is open, then hard', () => {
    const [opens, closes] = [minuteOf(cure?.opens ?? ''), minuteOf(cure?.closes ?? '')];
    expect(at(opens - 1)).toMatchObject({
      piece: 'wren',
      step: 'layer-1-pour',
      surface: 'wet',
      isAwaited: true,
    });
    expect(at(opens)).toMatchObject({ surface: 'tacky', opens, closes });
    expect(at(closes + 1)).toMatchObject({ surface: 'hard' });
  });

  test('one that a finger found hard before its time is hard, and shut from that minute', () => {
    const found = '2026-11-24T23:00';
    const hard = planned((old) => {
      const shop = poured(old);
      const touched = { step: 'layer-1-pour', at: found, found: 'hard' as const };
      return {
        ...shop,
        pieces: shop.pieces.map((one) => (one.id === 'wren' ? { ...one, touchTests: [touched] } : one)),
      };
    }, '2026-11-24T23:05');
    const minute = clock.parse(found)!;
    expect(minute).toBeLessThan(minuteOf(cure?.opens ?? ''));
    const [setting] = settingOf(hard.shop, hard.plan, hard.cures, minute);
    expect(setting).toMatchObject({
      surface: 'hard',
      isFoundHard: true,
      isAwaited: true,
      opens: minute,
      closes: minute,
    });
    const next = hard.plan.steps.find((one) => one.piece === 'wren' && one.step === 'layer-2-pour');
    expect(next).toMatchObject({ way: 'scuff', window: undefined });
  });

  test('what cure allows next is told: out of the form, then the machines, then the last hand', () => {
    const nextWith = (...done: readonly string[]) => {
      const steps = state.plan.steps.map((step) =>
        step.piece === 'wren' && done.includes(step.step) ? { ...step, state: 'done' as const } : step,
      );
      return settingOf(state.shop, { ...state.plan, steps }, state.cures, minuteOf(cure?.applied ?? ''))[0]
        ?.next;
    };
    expect(nextWith()).toEqual({ what: 'demold', at: minuteOf(cure?.demold ?? '') });
    expect(nextWith('demold')).toEqual({ what: 'machine', at: minuteOf(cure?.machinable ?? '') });
    expect(nextWith('demold', 'sand')).toEqual({ what: 'finish', at: minuteOf(cure?.fullCure ?? '') });
    expect(nextWith('demold', 'sand', 'finish')).toBeUndefined();
  });

  test('a layer sets from the minute it is on', () => {
    const applied = minuteOf(cure?.applied ?? '');
    expect(at(applied)).toMatchObject({ step: 'layer-1-pour', applied });
    expect(at(applied - 1)?.step).not.toBe('layer-1-pour');
  });

  test('a piece that nobody has poured yet is not setting', () => {
    expect(
      settingOf(state.shop, state.plan, state.cures, minuteOf(state.plan.now)).map((one) => one.piece),
    ).toEqual(['wren']);
    expect(settingOf(shop, plan, cures, now)).toEqual([]);
  });
});

describe('a bubble pass that nobody recorded', () => {
  const actuals = [
    { step: 'prepare', started: '2026-11-25T08:00', ended: '2026-11-25T09:00', form: 'tray', bench: 'bench' },
    { step: 'seal-mix', started: '2026-11-25T09:00', ended: '2026-11-25T09:05' },
    { step: 'seal', started: '2026-11-25T09:05', ended: '2026-11-25T09:10' },
    { step: 'layer-1-mix', started: '2026-11-25T12:10', ended: '2026-11-25T12:15' },
    { step: 'layer-1-pour', started: '2026-11-25T12:15', ended: '2026-11-25T12:20' },
  ];
  const layer2 = [
    { step: 'layer-2-mix', started: '2026-11-25T19:00', ended: '2026-11-25T19:05' },
    { step: 'layer-2-pour', started: '2026-11-25T19:05', ended: '2026-11-25T19:15' },
  ];
  const at = (now: string, more: typeof layer2 = []) => {
    const all = [...actuals, ...more];
    const state = planned(
      (old) => ({
        ...old,
        pieces: old.pieces.map((one) => (one.id === 'wren' ? { ...one, actuals: all } : one)),
      }),
      now,
    );
    const happened = (changed: Shop) => ({
      ...state.plan,
      steps: asHappened(changed, state.plan.steps, clock.parse, clock.iso),
    });
    const minute = minuteOf(state.plan.now);
    const { due } = worklistOf(state.shop, happened(state.shop), state.cures, minute, minute - 600);
    const isDue = due.some((one) => one.piece === 'wren' && one.title === 'Bubbles out of layer 1');
    return { ...state, happened, minute, isDue };
  };

  test('is due while the layer is wet', () => {
    const { isDue, shop: now, plan: made } = at('2026-11-25T13:30');
    expect(isDue).toBe(true);
    expect(missedOf(now, made)).toEqual([]);
  });

  test('is not due once the layer has set, and is spoken of once', () => {
    const { isDue, shop: now, plan: made } = at('2026-11-26T18:00');
    expect(isDue).toBe(false);
    expect(missedOf(now, made)).toMatchObject([
      { pieceName: 'Wren', layer: 'layer-1', passes: [{ step: 'layer-1-bubbles-1' }] },
    ]);
  });

  test('was made all the same: it is written at its time, no more spoken of, and can be undone', () => {
    const { shop: now, plan: made, happened, minute } = at('2026-11-26T18:00');
    const [missed] = missedOf(now, made);
    const recorded = wereMade(missed, minute, clock.iso).apply(now);
    expect(piece(recorded, 'wren')?.actuals.at(-1)).toEqual({
      step: 'layer-1-bubbles-1',
      started: '2026-11-25T12:30+01:00',
      ended: '2026-11-25T12:35+01:00',
    });
    expect(missedOf(recorded, happened(recorded))).toEqual([]);
    const again = planned(() => recorded, '2026-11-26T18:00');
    expect(again.plan.notes).toEqual([]);
    const done = find(entriesOf(recorded, again.plan, again.cures), 'wren', 'layer-1-bubbles-1');
    expect(done.state).toBe('done');
    const back = takeBack(done).apply(recorded);
    expect(missedOf(back, planned(() => back, '2026-11-26T18:00').plan)).toHaveLength(1);
  });

  test('is not due again once the next layer is recorded', () => {
    const { isDue, shop: now, happened } = at('2026-11-25T19:30', layer2);
    expect(isDue).toBe(false);
    expect(find(entriesOf(now, happened(now), []), 'wren', 'layer-1-bubbles-1').state).toBe('done');
  });
});

describe('the window bar', () => {
  const lasting = (minutes: number): string => `${minutes} min`;

  test('it fills from the left, and its parts are in order', () => {
    const shares = [-500, 0, 100, 200, 900].map((now) => windowScale(100, 200, now).nowAt);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect([shares[0], shares[4]]).toEqual([0, 100]);
    const { opensAt, closesAt } = windowScale(100, 200, 0);
    expect(opensAt).toBeLessThan(closesAt);
    expect(closesAt).toBeLessThan(100);
    // From 0 to 215: as long before the window as it is, and 0.15 of it after.
    expect(opensAt).toBeCloseTo((100 / 215) * 100, 9);
    expect(closesAt).toBeCloseTo((200 / 215) * 100, 9);
    // A short window has an hour before it: from 40 to 111.5.
    expect(windowScale(100, 110, 0).opensAt).toBeCloseTo((60 / 71.5) * 100, 9);
  });

  test('it says what a maker needs to know at that minute', () => {
    expect(windowWords(100, 200, 40, lasting)).toBe('opens in 60 min');
    expect(windowWords(100, 200, 150, lasting)).toBe('open now, 50 min left');
    expect(windowWords(100, 200, 200, lasting)).toBe('open now, 0 min left');
    expect(windowWords(100, 200, 230, lasting)).toBe('closed 30 min ago: scuff before the next pour');
  });
});
