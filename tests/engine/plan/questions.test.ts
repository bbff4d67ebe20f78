import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  air,
  checkPlan,
  legalPlaces,
  milestones,
  openHours,
  parseShop,
  planShop,
  promise,
  whyStep,
} from '../../../src/engine/index.ts';
import type { Plan, Shop } from '../../../src/engine/index.ts';
import { littleShop, NOW, piece } from '../little-shop.ts';
import { shifted } from '../../moments.ts';

const BUDGET = 100_000;
const MARKET_NOW = '2026-11-25T07:00Z';
const shop = littleShop((file) => (file.pieces = [piece('a'), piece('b'), piece('c')]));
const made = planShop(shop, { now: NOW, seed: 1, budget: BUDGET });
const startOf = (plan: Plan, of: string, step: string): string =>
  plan.steps.find((s) => s.piece === of && s.step === step)?.start ?? '';
const RANGE = { from: '2026-03-02T00:00', to: '2026-03-30T00:00' };

describe('why a step is where it is', () => {
  it('leads back to now, a fact or a free choice, one sentence a link', () => {
    const lines = whyStep(shop, made, 'a', 'demold');
    expect(lines.length).toBeGreaterThan(0);
    expect(lines[0]).toMatch(/^Board a, demolding: /);
    expect(new Set(lines).size).toBe(lines.length);
  });

  it('names the window that a pour waits for', () => {
    const early = planShop(
      littleShop((file) => (file.people[0].hours = [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }])),
      { now: NOW, seed: 1, budget: BUDGET },
    );
    const whole = ['a'].flatMap((p) => whyStep(shop, early, p, 'layer-2-pour')).join('\n');
    expect(whole).toMatch(/window|hours|nothing forbids/);
  });

  it('refuses a step that the piece does not have and names those it has', () => {
    expect(() => whyStep(shop, made, 'a', 'coat-9')).toThrow(/"coat-9".*layer-1-pour/);
    expect(() => whyStep(shop, made, 'x', 'demold')).toThrow(/"x"/);
  });
});

describe('where a step may go', () => {
  const steps = ['prepare', 'layer-2-pour', 'demold', 'sand', 'finish'];

  it('covers the whole range, open or closed with a reason', () => {
    for (const step of steps) {
      const { open, closed } = legalPlaces(shop, made, 'b', step, RANGE);
      const spans = [...open, ...closed]
        .map((s) => [Date.parse(s.from), Date.parse(s.to)])
        .sort((a, b) => a[0] - b[0]);
      spans.slice(1).forEach(([from], i) => expect(from).toBe(spans[i][1]));
      expect(closed.every((c) => c.why.length > 0)).toBe(true);
    }
  });

  it('has the place where the step stands among the open ones', () => {
    for (const step of steps) {
      const at = Date.parse(startOf(made, 'b', step));
      const { open } = legalPlaces(shop, made, 'b', step, RANGE);
      expect(open.some((s) => Date.parse(s.from) <= at && at < Date.parse(s.to))).toBe(true);
    }
  });

  it('is the same for a step that is pinned there: it can be carried on without letting go of its pin first', () => {
    for (const step of steps) {
      const at = startOf(made, 'b', step).slice(0, 16);
      const pinned: Shop = {
        ...shop,
        pieces: shop.pieces.map((p) => (p.id === 'b' ? { ...p, pins: [{ step, at }] } : p)),
      };
      const plan = planShop(pinned, { now: NOW, seed: 1, budget: BUDGET, standing: made });
      expect(startOf(plan, 'b', step)).toBe(startOf(made, 'b', step));
      expect(legalPlaces(pinned, plan, 'b', step, RANGE).open).toEqual(
        legalPlaces(shop, made, 'b', step, RANGE).open,
      );
    }
  });

  it('is true: pinned to either edge of an open place the shop can be planned, just outside it that is a new plan at best', () => {
    const { open } = legalPlaces(shop, made, 'b', 'layer-2-pour', RANGE);
    for (const { from, to } of open.slice(0, 4)) {
      const last = shifted(to, -1);
      for (const at of [from, last]) {
        const pinned: Shop = {
          ...shop,
          pieces: shop.pieces.map((p) => (p.id === 'b' ? { ...p, pins: [{ step: 'layer-2-pour', at }] } : p)),
        };
        const plan = planShop(pinned, { now: NOW, seed: 1, budget: BUDGET, standing: made });
        expect(['optimal', 'feasible']).toContain(plan.status);
        expect(checkPlan(pinned, plan)).toEqual([]);
      }
    }
  });

  it('says in words when the window closes', () => {
    const { closed } = legalPlaces(shop, made, 'b', 'layer-2-pour', RANGE);
    const texts = closed.flatMap((c) => c.why.map((w) => w.text));
    expect(texts.some((t) => /^window opens (\w+ \d+ \w+ )?\d\d:\d\d$/.test(t))).toBe(true);
    expect(texts.some((t) => /^window closes (\w+ \d+ \w+ )?\d\d:\d\d$/.test(t))).toBe(true);
    expect(texts.some((t) => /nobody is there/.test(t))).toBe(true);
  });

  it('says of the hours of those only who could come soonest', () => {
    const two = littleShop((file) => {
      const hours = (days: string) => [{ rule: `FREQ=WEEKLY;BYDAY=${days}`, from: '07:00', to: '21:00' }];
      file.people = [
        { id: 'wren', name: 'Wren', hours: hours('MO,TU,WE,TH,FR') },
        { id: 'jay', name: 'Jay', hours: hours('SA,SU') },
      ];
      file.pieces = [piece('a', { pins: [{ step: 'layer-1-pour', at: '2026-03-06T10:00' }] })];
    });
    const plan = planShop(two, { now: NOW, seed: 1, budget: BUDGET });
    expect(plan.steps.find(({ step }) => step === 'layer-2-pour')?.people).toEqual(['jay']);
    const textsAt = (from: string, to: string): string =>
      legalPlaces(two, plan, 'a', 'layer-2-pour', { from, to })
        .closed.flatMap(({ why }) => why.map(({ text }) => text))
        .join('; ');
    // Monday, behind the window: Wren is there, so that Jay is not does not matter.
    expect(textsAt('2026-03-09T10:00', '2026-03-09T10:01')).toMatch(/^window closes [^;]*$/);
    expect(textsAt('2026-03-08T23:00', '2026-03-08T23:01')).toMatch(
      /nobody is there for it until Mon 9 Mar 07:00/,
    );
    expect(textsAt('2026-03-08T23:00', '2026-03-08T23:01')).not.toMatch(/Jay|Wren/);
  });

  it('says that a form is full and whose piece is in it', () => {
    const one = littleShop((file) => {
      file.forms = file.forms.slice(0, 1);
      file.pieces = [piece('a'), piece('b')];
    });
    const plan = planShop(one, { now: NOW, seed: 1, budget: BUDGET });
    const [first, second] = ['a', 'b'].sort(
      (x, y) => Date.parse(startOf(plan, x, 'prepare')) - Date.parse(startOf(plan, y, 'prepare')),
    );
    const { closed } = legalPlaces(one, plan, second, 'prepare', RANGE);
    const full = closed.flatMap((c) => c.why).find((w) => w.kind === 'form');
    expect(full?.text).toMatch(/Long form is full until/);
    expect(full?.others).toEqual([first]);
  });
});

describe('the cure of a plan', () => {
  const cures = milestones(shop, made);

  it('is told for every layer, its milestones in order', () => {
    expect(cures.map((c) => `${c.piece} ${c.step}`)).toContain('c layer-3-pour');
    for (const { applied, opens, closes, scuffable, demold, fullCure } of cures) {
      const times = [applied, opens, closes, scuffable, demold, fullCure].map((t) => Date.parse(t ?? ''));
      expect(times).toEqual([...times].sort((a, b) => a - b));
    }
  });

  it('takes the sheet at its word in a room at the reference temperature', () => {
    const slow = cures.find((c) => c.step === 'layer-1-pour');
    expect((Date.parse(slow?.opens ?? '') - Date.parse(slow?.applied ?? '')) / 60_000).toBe(24 * 60);
    expect((Date.parse(slow?.demold ?? '') - Date.parse(slow?.applied ?? '')) / 60_000).toBe(72 * 60);
    const last = slow?.samples[slow.samples.length - 1];
    expect(last?.age).toBeCloseTo(72 * 60, 6);
  });

  it('agrees with the windows of the plan document', () => {
    for (const step of made.steps.filter((s) => s.window)) {
      const under = cures.find((c) => c.piece === step.piece && c.step.startsWith(step.window?.of ?? '-'));
      expect(under).toMatchObject({ opens: step.window?.opens, closes: step.window?.closes });
    }
  });
});

describe('what runs behind a plan', () => {
  it('has the air of every room, hour by hour', () => {
    const rooms = air(shop, { from: '2026-03-02T00:00', to: '2026-03-03T00:00' });
    expect(rooms.map((r) => r.room)).toEqual(['shop', 'lean-to']);
    expect(rooms[0].samples.every((s) => s.degC === 22)).toBe(true);
    expect(Math.max(...rooms[1].samples.map((s) => s.degC))).toBe(12);
    expect(Math.min(...rooms[1].samples.map((s) => s.degC))).toBe(5);
  });

  it('has the hours of everyone', () => {
    const [wren] = openHours(shop, { from: '2026-03-02T00:00', to: '2026-03-04T00:00' });
    expect(wren.open).toEqual([
      { from: '2026-03-02T07:00+01:00', to: '2026-03-02T21:00+01:00' },
      { from: '2026-03-03T07:00+01:00', to: '2026-03-03T21:00+01:00' },
    ]);
  });
});

describe('a promise', () => {
  const size = { lengthMm: 400, widthMm: 200 };

  it('is the moment at which the new piece is ready, and makes no other late', () => {
    const answer = promise(shop, {
      recipe: 'three-layer',
      size,
      now: NOW,
      seed: 1,
      budget: BUDGET,
      standing: made,
    });
    if (!answer.ok) throw new Error(answer.clash.join());
    expect(answer.plan.pieces.find((p) => p.piece === answer.piece)?.ready).toBe(answer.ready);
    for (const { piece: id, lateMinutes } of made.pieces) {
      expect(answer.plan.pieces.find((p) => p.piece === id)?.lateMinutes).toBeLessThanOrEqual(lateMinutes);
    }
  });

  it('can be kept: ordered for that moment, nothing is late', () => {
    const answer = promise(shop, { recipe: 'three-layer', size, now: NOW, seed: 1, budget: BUDGET });
    if (!answer.ok) throw new Error(answer.clash.join());
    const due = answer.ready;
    const ordered: Shop = { ...shop, pieces: [...shop.pieces, { ...shop.pieces[0], id: answer.piece, due }] };
    const plan = planShop(ordered, { now: NOW, seed: 1, budget: BUDGET, standing: answer.plan });
    expect(plan.pieces.map((p) => p.lateMinutes)).toEqual([0, 0, 0, 0]);
    expect(checkPlan(ordered, plan)).toEqual([]);
  });

  it('is kept by the plan that follows when it is told of it, however little that searches', () => {
    const read = parseShop(
      readFileSync(new URL('../../../examples/market-week.shop.json', import.meta.url), 'utf8'),
    );
    if (!read.ok) throw new Error('the example has faults');
    const standing = planShop(read.shop, { now: MARKET_NOW, seed: 1, budget: BUDGET });
    const tray = read.shop.pieces.find(({ recipe }) => recipe === 'tray')!;
    const { recipe, size: traySize } = tray;
    const options = { now: MARKET_NOW, seed: 1, standing };
    const answer = promise(read.shop, { ...options, budget: BUDGET, recipe, size: traySize });
    if (!answer.ok) throw new Error(answer.clash.join());
    const ordered: Shop = {
      ...read.shop,
      pieces: [...read.shop.pieces, { ...tray, id: answer.piece, due: answer.ready }],
    };
    for (const budget of [50, 5000]) {
      const plan = planShop(ordered, { ...options, budget, known: answer.plan });
      expect(plan.pieces.find((p) => p.piece === answer.piece)?.lateMinutes).toBe(0);
      expect(checkPlan(ordered, plan)).toEqual([]);
    }
  });

  it('says what is in the way when the piece fits no form', () => {
    const answer = promise(shop, {
      recipe: 'three-layer',
      size: { lengthMm: 4000, widthMm: 200 },
      now: NOW,
      seed: 1,
      budget: BUDGET,
    });
    expect(answer).toMatchObject({ ok: false, clash: [expect.stringMatching(/no form is large enough/)] });
  });
});
