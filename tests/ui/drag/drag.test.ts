import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { legalPlaces } from '../../../src/engine/index.ts';
import { minuteOf } from '../../../src/ui/clock/index.ts';
import { takeUp } from '../../../src/ui/drag/held.ts';
import { reasonText } from '../../../src/ui/drag/reasons.ts';
import { gridFor, snapTo } from '../../../src/ui/drag/snap.ts';
import { nearestOpen, nextOpen, spansOf, verdictAt, type Spans } from '../../../src/ui/drag/spans.ts';
import { waysOut, type Refusal } from '../../../src/ui/drag/ways-out.ts';
import type { Obstacle } from '../../../src/ui/engine/index.ts';
import { planned, shopOf } from '../small-shop.ts';
import { isoOf } from '../../moments.ts';

const SEED = { seed: 20261125 };
const { shop, plan } = planned();
const step = (piece: string, name: string) =>
  plan.steps.find((one) => one.piece === piece && one.step === name);
const obstacle = (kind: Obstacle['kind'], text: string, others: readonly string[] = []): Obstacle => ({
  kind,
  text,
  others,
});

const spansArb = fc
  .array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 12 })
  .map((lengths): Spans => {
    const open: { from: number; to: number }[] = [];
    const shut: { from: number; to: number; why: readonly Obstacle[] }[] = [];
    let at = 1000;
    lengths.forEach((length, index) => {
      if (index % 2 === 0)
        shut.push({ from: at, to: at + length, why: [obstacle('hours', 'nobody is there')] });
      else open.push({ from: at, to: at + length });
      at += length;
    });
    return { open, shut };
  });

describe('legal places', () => {
  test('every minute is open, shut or unknown as the list of stretches says, one by one', () => {
    fc.assert(
      fc.property(spansArb, fc.integer({ min: 980, max: 1500 }), (spans, minute) => {
        const plain = spans.open.some((span) => minute >= span.from && minute < span.to)
          ? 'open'
          : spans.shut.some((span) => minute >= span.from && minute < span.to)
            ? 'shut'
            : 'unknown';
        expect(verdictAt(spans, minute).kind).toBe(plain);
      }),
      SEED,
    );
  });

  test('the nearest legal minute is legal, and none is nearer', () => {
    fc.assert(
      fc.property(spansArb, fc.integer({ min: 900, max: 1600 }), (spans, minute) => {
        const near = nearestOpen(spans, minute);
        const all = spans.open.flatMap(({ from, to }) =>
          Array.from({ length: to - from }, (_, index) => from + index),
        );
        if (all.length === 0) expect(near).toBeNull();
        else {
          expect(all).toContain(near);
          expect(Math.abs((near ?? 0) - minute)).toBe(Math.min(...all.map((one) => Math.abs(one - minute))));
        }
      }),
      { ...SEED, numRuns: 1000 },
    );
  });

  test('jumping goes from legal place to legal place and back', () => {
    const spans: Spans = {
      open: [
        { from: 10, to: 20 },
        { from: 40, to: 60 },
      ],
      shut: [],
    };
    expect(nextOpen(spans, 5, 1)).toBe(10);
    expect(nextOpen(spans, 12, 1)).toBe(40);
    expect(nextOpen(spans, 45, -1)).toBe(19);
    expect(nextOpen(spans, 45, 1)).toBeNull();
  });

  test('what the engine answers covers the range, and the planned start lies in an open place', () => {
    const range = { from: plan.now, to: '2026-12-05T00:00+01:00' };
    for (const name of ['prepare', 'layer-1-mix', 'layer-2-mix', 'demold']) {
      const spans = spansOf(legalPlaces(shop, plan, 'wren', name, range));
      expect(verdictAt(spans, minuteOf(step('wren', name)?.start ?? '')).kind).toBe('open');
      const all = [...spans.open, ...spans.shut].sort((a, b) => a.from - b.from);
      expect(all[0].from).toBe(minuteOf(range.from));
      expect(all[all.length - 1].to).toBe(minuteOf(range.to));
      all.slice(1).forEach((span, index) => expect(span.from).toBe(all[index].to));
    }
  });

  test('a layer has no place outside its window, and the reason names it', () => {
    const pour = step('wren', 'layer-2-pour');
    const closed = minuteOf(pour?.window?.closes ?? '') + 1;
    const range = { from: isoOf(closed), to: isoOf(closed + 1) };
    const after = verdictAt(spansOf(legalPlaces(shop, plan, 'wren', 'layer-2-pour', range)), closed);
    expect(after.kind).toBe('shut');
    expect(after.kind === 'shut' ? after.why.map((one) => one.kind) : []).toContain('window');
  });
});

describe('snapping', () => {
  test('the grid is minutes when close and hours when far', () => {
    expect([0.1, 0.9, 2.5, 6, 30].map(gridFor)).toEqual([1, 5, 15, 30, 120]);
  });

  test('a step held over a legal place never snaps out of it', () => {
    fc.assert(
      fc.property(
        spansArb,
        fc.integer({ min: 1000, max: 1300 }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        (spans, minute, minutesPerPixel) => {
          if (verdictAt(spans, minute).kind !== 'open') return;
          expect(verdictAt(spans, snapTo(minute, minutesPerPixel, spans, 0)).kind).toBe('open');
        },
      ),
      SEED,
    );
  });

  test('the edge of a legal place draws the step from nine pixels, and no further', () => {
    const spans: Spans = { open: [{ from: 1003, to: 1200 }], shut: [] };
    expect(snapTo(995, 1, spans, 0)).toBe(1003);
    expect(snapTo(980, 1, spans, 0)).toBe(980);
  });

  test('the grid follows the wall clock of a zone that is half an hour off', () => {
    expect(snapTo(1000 + 44, 3, null, 1000 + 30)).toBe(1000 + 45);
  });
});

/** Either form suits the piece; which one it was planned into is the plan's business. */
const ownForm = plan.steps.find((s) => s.piece === 'wren' && s.step === 'layer-2-pour')?.form?.id;
const otherForm = ownForm === 'tray' ? 'slab' : 'tray';

describe('picking up', () => {
  test('a planned step comes into the hand with what it is and where it was', () => {
    const taken = takeUp(shop, plan, 'wren', 'layer-2-pour');
    expect(taken).toMatchObject({
      ok: true,
      held: { title: 'Pour layer 2', pieceName: 'Wren', form: ownForm, otherForms: [otherForm] },
    });
  });

  test('what is done, under way or unattended stays, and says why', () => {
    const steps = (state: 'begun' | 'done') => ({
      ...plan,
      steps: plan.steps.map((one) => ({ ...one, state })),
    });
    expect(takeUp(shop, steps('done'), 'wren', 'prepare')).toMatchObject({
      ok: false,
      why: expect.stringContaining('done'),
    });
    expect(takeUp(shop, steps('begun'), 'wren', 'prepare')).toMatchObject({
      ok: false,
      why: expect.stringContaining('under way'),
    });
    expect(takeUp(shop, plan, 'wren', 'cure')).toMatchObject({
      ok: false,
      why: expect.stringContaining('nobody has hands on it'),
    });
  });

  test('a piece whose form is already prepared goes into no other', () => {
    const begun = {
      ...plan,
      steps: plan.steps.map((one) => (one.step === 'prepare' ? { ...one, state: 'done' as const } : one)),
    };
    const taken = takeUp(shop, begun, 'wren', 'layer-2-pour');
    expect(taken.ok && taken.held.otherForms).toEqual([]);
  });

  test('a piece that is out of its form goes into no other, however the plan lists its steps', () => {
    const backwards = { ...plan, steps: [...plan.steps].reverse() };
    for (const made of [plan, backwards])
      for (const name of ['demold', 'sand', 'finish']) {
        const taken = takeUp(shop, made, 'wren', name);
        expect(taken.ok && taken.held.otherForms).toEqual([]);
      }
  });
});

describe('ways out of a place where it may not lie', () => {
  const taken = takeUp(shop, plan, 'wren', 'layer-2-pour');
  if (!taken.ok) throw new Error(taken.why);
  const at = minuteOf('2026-12-01T18:00+01:00');
  const refuse = (why: readonly Obstacle[], more: Partial<Refusal> = {}): Refusal => ({
    held: taken.held,
    at,
    form: null,
    why,
    nearest: null,
    freeForms: [],
    ...more,
  });
  const words = {
    near: String,
    iso: isoOf,
  };
  const kinds = (refusal: Refusal): readonly string[] =>
    waysOut(refusal, shopOf(), words).map((way) => way.kind);

  test('a window that has closed can be scuffed', () => {
    const ways = waysOut(refuse([obstacle('window', 'window closes 14:20')]), shopOf(), words);
    const scuffed = ways.find((way) => way.kind === 'scuff')?.edit.apply(shopOf());
    expect(scuffed?.pieces[0].pins).toEqual([{ step: 'layer-2-pour', way: 'scuff', at: words.iso(at) }]);
  });

  test('a window that has not opened cannot', () => {
    expect(kinds(refuse([obstacle('window', 'window opens 14:20')]))).not.toContain('scuff');
  });

  test('others that stand there can be moved, by name', () => {
    const ways = waysOut(
      refuse([obstacle('hands', 'Ada is on Robin until 12:00', ['robin'])]),
      shopOf(),
      words,
    );
    expect(ways.find((way) => way.kind === 'move-others')?.name).toBe('Move Robin');
  });

  test('an hour with nobody there, the past and the cold are moved by nothing', () => {
    for (const kind of ['hours', 'past', 'air'] as const)
      expect(kinds(refuse([obstacle(kind, '')]))).toEqual([]);
  });

  test('another form that is free then is offered, and takes the piece', () => {
    const ways = waysOut(
      refuse([obstacle('form', 'form 2 is full until Thu')], { freeForms: [otherForm] }),
      shopOf(),
      words,
    );
    const moved = ways.find((way) => way.kind === 'other-form')?.edit.apply(shopOf());
    expect(moved?.pieces[0].forms).toEqual([otherForm]);
    expect(moved?.pieces[0].pins[0].step).toBe('layer-2-pour');
  });

  test('the nearest place is offered first', () => {
    expect(kinds(refuse([obstacle('hands', '', ['robin'])], { nearest: at + 20 }))[0]).toBe('nearest');
  });
});

describe('the reason at the pointer', () => {
  test('two reasons are said, more are only counted, and none is said twice', () => {
    const why = [
      'window closes 14:20',
      'window closes 14:20',
      'form 2 is full until Thu',
      'nobody is there',
    ].map((text) => obstacle('window', text));
    expect(reasonText(why)).toBe('window closes 14:20; form 2 is full until Thu; and more');
    expect(reasonText(why.slice(0, 2))).toBe('window closes 14:20');
    expect(reasonText([])).toBe('');
  });
});
