/**
 * Every rule of the checker: a plan written by hand that holds at the very bound, and the same plan one minute past
 * it, which must be rejected with that rule's name. All bounds are reckoned by hand from the shop in
 * plan-builder.ts; the worked temperatures are those of the equivalent-age equation of ASTM C1074.
 */
import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import type { Plan, PlanStep } from '../../../src/engine/plan/document.ts';
import type { Shop } from '../../../src/engine/shop/index.ts';
import { iso, planOf, shopWhere, shopWith, twoPieces } from './plan-builder.ts';
import type { Draft } from './plan-builder.ts';

const rulesBroken = (shop: Shop, plan: Plan): string[] => [
  ...new Set(checkPlan(shop, plan).map((broken) => broken.rule)),
];

function expectHolds(shop: Shop, plan: Plan): void {
  expect(checkPlan(shop, plan)).toEqual([]);
}

const board = shopWith();
const changing = (id: string, change: Partial<PlanStep>): Draft => ({
  changed: (step) => (step.step === id ? { ...step, ...change } : step),
});

/** The second layer goes on at 19:05, over a first one that was scuffed. */
const scuffed = (at: string): Plan =>
  planOf([
    {
      at: {
        'layer-2-scuff': at,
        'layer-2-mix': '0 19:00',
        'layer-2-bubbles-1': '0 19:25',
        demold: '1 19:30',
        turnaround: '1 19:45',
        flatten: '1 20:30',
        sand: '1 21:00',
        'coat-1-mix': '2 06:00',
      },
    },
  ]);

test('the board reckoned by hand can be worked as it stands', () => {
  expectHolds(board, planOf());
});

test('a plan that says there is none, and lists nothing, breaks nothing', () => {
  const none = { ...planOf(), steps: [], holds: [], pieces: [] };
  expectHolds(board, { ...none, status: 'infeasible' });
  expect(rulesBroken(board, none)).toContain('order');
});

test('in which order a plan lists its steps and what is held does not matter', () => {
  const backwards = (plan: Plan): Plan => ({
    ...plan,
    steps: [...plan.steps].reverse(),
    holds: [...plan.holds].reverse(),
  });
  expectHolds(board, backwards(planOf()));
  expect(rulesBroken(board, backwards(planOf([{ at: { demold: '1 13:04' } }])))).toEqual(['cure']);
});

describe('order', () => {
  test('a step of the recipe may not be missing', () => {
    const plan = planOf();
    for (const gone of plan.steps.filter((step) => step.people.length > 0 || step.kind === 'ready')) {
      const left = { ...plan, steps: plan.steps.filter((step) => step !== gone) };
      expect(rulesBroken(board, left)).toContain('order');
    }
  });

  test('a step may not be there twice, nor one that the recipe does not know', () => {
    const plan = planOf();
    expect(rulesBroken(board, { ...plan, steps: [...plan.steps, plan.steps[0]] })).toContain('order');
    const odd = { ...plan.steps[0], step: 'polish' };
    expect(rulesBroken(board, { ...plan, steps: [...plan.steps, odd] })).toContain('order');
    const strange = { ...plan.steps[0], piece: 'ash' };
    expect(rulesBroken(board, { ...plan, steps: [...plan.steps, strange] })).toContain('order');
  });

  test('a step starts and ends at times that there are', () => {
    for (const part of ['start', 'end'])
      expect(rulesBroken(board, planOf([changing('demold', { [part]: 'soon' })]))).toContain('order');
  });

  test('sanding does not start before flattening has ended', () => {
    expect(rulesBroken(board, planOf([{ at: { sand: '1 15:29' } }]))).toContain('order');
  });

  test('the pour follows its mix at once', () => {
    expect(rulesBroken(board, planOf([{ at: { 'layer-1-pour': '0 08:36' } }]))).toContain('order');
  });

  test('a step lasts as long as its work', () => {
    expect(rulesBroken(board, planOf([{ ends: { demold: '1 14:14' } }]))).toContain('order');
    expect(rulesBroken(board, planOf([{ ends: { finish: '4 21:41' } }]))).toContain('order');
  });

  test('split work rests while the shop is closed, and has all its minutes', () => {
    const split = { at: { prepare: '0 21:40' }, ends: { prepare: '1 06:10' } };
    const days = { ...split, days: 1 };
    expectHolds(board, planOf([days]));
    expect(rulesBroken(board, planOf([{ ...days, ends: { prepare: '1 06:09' } }]))).toContain('order');
    expect(rulesBroken(board, planOf([{ ...days, ends: { prepare: '1 06:11' } }]))).toContain('order');
  });

  test('a stretch of waiting runs from one step to the next', () => {
    expect(rulesBroken(board, planOf([changing('cure', { end: iso('1 13:59') })]))).toEqual(['order']);
    expect(rulesBroken(board, planOf([changing('rest', { end: iso('1 15:01') })]))).toContain('order');
  });

  test('a piece is not ready while its form is not clean', () => {
    const cleaned = (at: string): Plan =>
      planOf([{ at: { turnaround: at }, ...changing('turnaround', { people: ['ben'] }) }]);
    expectHolds(board, cleaned('4 20:55'));
    expect(rulesBroken(board, cleaned('4 20:56'))).toEqual(['order']);
  });
});

describe('hours', () => {
  test('a step lies inside the hours of whoever does it', () => {
    const days = shopWith({
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '06:00', to: '21:40' }] }],
    });
    expectHolds(days, planOf());
    const short = shopWith({
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '06:00', to: '21:39' }] }],
    });
    expect(rulesBroken(short, planOf())).toEqual(['hours']);
    const lateRiser = shopWith({
      people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: '06:01', to: '21:40' }] }],
    });
    expect(rulesBroken(lateRiser, planOf())).toEqual(['hours']);
  });

  test('days off and closures are not worked', () => {
    expect(rulesBroken(shopWith({ closures: [{ from: '2026-03-03', to: '2026-03-03' }] }), planOf())).toEqual(
      ['hours'],
    );
    expectHolds(shopWith({ closures: [{ from: '2026-03-05', to: '2026-03-05' }] }), planOf());
  });

  test('in New York, the hours move with the clocks on 8 March', () => {
    // 08:00 local is 13:00Z until the change at 2026-03-08T07:00Z and 12:00Z from then on.
    const from = (clock: string): Shop =>
      shopWith({
        zone: 'America/New_York',
        people: [{ id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: clock, to: '23:59' }] }],
        pieces: [
          {
            id: 'oak',
            name: 'Oak',
            recipe: 'board',
            size: { lengthMm: 500, widthMm: 300 },
            due: '2026-03-12T00:00Z',
          },
        ],
      });
    // Day 5 is Saturday 7 March: prepare at 13:00Z is 08:00 on the wall; day 6, the Sunday, has it at 12:00Z.
    const starting = (day: number, at: string): Plan =>
      planOf([
        {
          days: day,
          at: { prepare: `${day} ${at}`, 'layer-1-mix': `${day} 13:35`, 'layer-1-bubbles-1': `${day} 13:55` },
        },
      ]);
    const isThere = (plan: Plan): boolean =>
      !checkPlan(from('08:00'), plan).some((b) => b.rule === 'hours' && b.step === 'prepare');
    expect(isThere(starting(5, '13:00'))).toBe(true);
    expect(isThere(starting(5, '12:59'))).toBe(false);
    expect(isThere(starting(6, '12:00'))).toBe(true);
    expect(isThere(starting(6, '11:59'))).toBe(false);
  });
});

describe('hands', () => {
  test('nobody is at two things at once', () => {
    const two = twoPieces();
    const elm = (at: string): Draft => ({
      piece: 'elm',
      days: 5,
      unit: 2,
      at: { prepare: at },
      ends: { prepare: at },
    });
    const beside = (prepare: string): Plan => planOf([{}, { ...elm(prepare), ends: {}, at: { prepare } }]);
    expectHolds(two, beside('0 09:00'));
    expect(rulesBroken(two, beside('0 08:29'))).toEqual(['hands']);
    expect(rulesBroken(two, beside('0 08:21'))).toContain('hands');
  });

  test('two people do not get in each other’s way', () => {
    expectHolds(
      twoPieces({ tools: [{ id: 'sled', name: 'Sled', room: 'shed', count: 2 }] }),
      planOf([{}, { piece: 'elm', unit: 2, person: 'ben' }]),
    );
  });

  test('a step has as many people as it needs, known and able', () => {
    expect(rulesBroken(board, planOf([changing('demold', { people: [] })]))).toEqual(['hands']);
    expect(rulesBroken(board, planOf([changing('demold', { people: ['ana', 'ben'] })]))).toEqual(['hands']);
    expect(rulesBroken(board, planOf([changing('demold', { people: ['zoe'] })]))).toContain('hands');
    const unable = shopWith({
      people: [
        {
          id: 'ana',
          name: 'Ana',
          can: ['prepare', 'pour', 'flatten', 'sand', 'finish'],
          hours: [{ rule: 'FREQ=DAILY', from: '06:00', to: '22:00' }],
        },
      ],
    });
    expect(rulesBroken(unable, planOf())).toEqual(['hands']);
  });

  test('a step for two is not done by one of them counted twice', () => {
    const forTwo = shopWhere({ recipe: { demold: { work: { minutes: 15, hands: 2 } } } });
    const by = (...people: string[]): Plan => planOf([changing('demold', { people })]);
    expectHolds(forTwo, by('ana', 'ben'));
    expect(rulesBroken(forTwo, by('ana', 'ana'))).toEqual(['hands']);
    expect(rulesBroken(forTwo, by('ana'))).toEqual(['hands']);
  });

  test('whoever mixes also pours', () => {
    expect(rulesBroken(board, planOf([changing('layer-1-pour', { people: ['ben'] })]))).toEqual(['hands']);
  });
});

describe('bubbles', () => {
  test('a pass begins 10 to 30 minutes after the pour has ended', () => {
    const pass = (at: string): Plan => planOf([{ at: { 'layer-1-bubbles-1': at } }]);
    expectHolds(board, pass('0 08:50'));
    expect(rulesBroken(board, pass('0 08:49'))).toEqual(['bubbles']);
    expectHolds(board, pass('0 09:10'));
    expect(rulesBroken(board, pass('0 09:11'))).toEqual(['bubbles']);
  });

  /** The first layer is poured, 08:35 to 08:40, and no pass is recorded; from 12:35 on it is tacky. */
  const poured = (more: Parameters<typeof shopWhere>[0] = {}): Shop =>
    shopWhere({
      ...more,
      piece: {
        actuals: [
          { step: 'prepare', started: '2026-03-02T08:00', ended: '2026-03-02T08:30' },
          { step: 'layer-1-mix', started: '2026-03-02T08:30', ended: '2026-03-02T08:35' },
          { step: 'layer-1-pour', started: '2026-03-02T08:35', ended: '2026-03-02T08:40' },
        ],
        ...more.piece,
      },
    });
  const done = new Set(['prepare', 'layer-1-mix', 'layer-1-pour']);
  const planAt = (now: string, draft: Draft = {}): Plan =>
    planOf([{ ...draft, changed: (s) => (done.has(s.step) ? { ...s, state: 'done' } : s) }], now);
  const without = (plan: Plan): Plan => ({
    ...plan,
    steps: plan.steps.filter((step) => step.step !== 'layer-1-bubbles-1'),
  });

  test('a pass over a poured layer is over before the layer has set', () => {
    const pass = (at: string): Plan => planAt('0 12:00', { at: { 'layer-1-bubbles-1': at } });
    expectHolds(poured(), pass('0 12:30'));
    expect(rulesBroken(poured(), pass('0 12:31'))).toEqual(['bubbles']);
    expect(rulesBroken(poured(), planAt('0 08:45', { at: { 'layer-1-bubbles-1': '0 08:49' } }))).toEqual([
      'bubbles',
    ]);
  });

  test('a pass may be missing once its layer has set, and not while there is time for it', () => {
    expect(rulesBroken(poured(), without(planAt('0 12:30')))).toEqual(['bubbles']);
    expectHolds(poured(), without(planAt('0 12:31')));
    expect(rulesBroken(board, without(planOf()))).toEqual(['order']);
  });

  test('a finger that found the layer hard has the last word', () => {
    const hard = poured({
      piece: { touchTests: [{ step: 'layer-1-pour', at: '2026-03-02T11:00', found: 'hard' }] },
    });
    const at = (mix: string): Plan => planAt('0 11:30', { at: { 'layer-1-bubbles-1': mix } });
    expect(rulesBroken(hard, at('0 11:30'))).toContain('bubbles');
    expect(rulesBroken(hard, without(at('0 11:30')))).not.toContain('bubbles');
  });

  test('a pass may be missing when everyone who could make it is away or at something else', () => {
    const from = (clock: string): Shop =>
      poured({
        more: {
          people: [
            { id: 'ana', name: 'Ana', hours: [{ rule: 'FREQ=DAILY', from: clock, to: '22:00' }] },
            {
              id: 'ben',
              name: 'Ben',
              can: ['sand'],
              hours: [{ rule: 'FREQ=DAILY', from: '00:00', to: '24:00' }],
            },
          ],
        },
      });
    const rules = (shop: Shop, plan: Plan): string[] =>
      rulesBroken(shop, plan).filter((r) => r === 'bubbles');
    expect(rules(from('12:30'), without(planAt('0 10:00')))).toEqual(['bubbles']);
    expect(rules(from('12:31'), without(planAt('0 10:00')))).toEqual([]);
    // Ana demolds another board from 12:29 to 12:44; or from 12:30, a minute too late to be in the way of a pass.
    const demolding = (at: string): Plan => {
      const plan = without(planAt('0 12:25'));
      const other = plan.steps.filter((step) => step.step === 'demold');
      return {
        ...plan,
        steps: [
          ...plan.steps,
          ...other.map((step) => ({ ...step, piece: 'elm', start: iso(at), end: iso('0 12:44') })),
        ],
      };
    };
    const two = { ...from('06:00'), pieces: [poured().pieces[0], { ...board.pieces[0], id: 'elm' }] };
    expect(rules(two, demolding('0 12:29'))).toEqual([]);
    expect(rules(two, demolding('0 12:30'))).toEqual(['bubbles']);
  });
});

describe('window', () => {
  const second = (mix: string, pass: string): Plan =>
    planOf([{ at: { 'layer-2-mix': mix, 'layer-2-bubbles-1': pass } }]);

  test('the next layer waits until the one below is tacky, and is on before it is too hard', () => {
    // Poured 08:35; tacky from 12:35, too hard after 16:35. Five minutes of mixing, five of pouring.
    expectHolds(board, second('0 12:30', '0 12:50'));
    expect(rulesBroken(board, second('0 12:29', '0 12:50'))).toEqual(['window']);
    const slow = shopWhere({ resin: { demoldMinutes: 1200, machinableMinutes: 1300 } });
    expectHolds(slow, second('0 16:25', '0 16:45'));
    expect(rulesBroken(slow, second('0 16:26', '0 16:46'))).toEqual(['window']);
  });

  test('coats on one face bond like layers, and a flip needs no window', () => {
    const coat = (at: string): Plan => planOf([{ at: { 'coat-2-mix': at } }]);
    expect(rulesBroken(board, coat('2 09:59'))).toEqual(['window']);
    expectHolds(board, coat('2 10:00'));
  });

  test('in a room of 15 degC the window opens at 1/0.550137 of the time', () => {
    // Rate at 15 degC for 53 kJ/mol and 23 degC: 0.550137. 240 minutes of cure take 437 (436.26) minutes, so 15:52.
    const cold = shopWhere({
      room: { temperature: { pattern: { nightLowDegC: 15, dayHighDegC: 15 } } },
      resin: { demoldMinutes: 700, machinableMinutes: 750, scuffableMinutes: 300, fullCureMinutes: 1440 },
    });
    const of = (mix: string): string[] =>
      checkPlan(cold, second(mix, '0 16:40'))
        .filter((b) => b.step === 'layer-2-pour')
        .map((b) => b.rule);
    expect(of('0 15:47')).toEqual([]);
    expect(of('0 15:46')).toEqual(['window']);
  });

  test('a cold night makes the cure stand still, but nobody relies on it before the window closes', () => {
    const freezing = shopWhere({
      room: { temperature: { pattern: { nightLowDegC: 14.9, dayHighDegC: 14.9 } } },
    });
    expect(rulesBroken(freezing, planOf())).toEqual(
      expect.arrayContaining(['window', 'cure', 'temperature']),
    );
    const closing = shopWhere({
      room: { temperature: { pattern: { nightLowDegC: 14.9, dayHighDegC: 14.9 } } },
      resin: { tackOpensMinutes: 1, tackClosesMinutes: 60 },
    });
    const late = checkPlan(closing, planOf()).filter((b) => b.rule === 'window' && b.step === 'layer-2-pour');
    expect(late.some((b) => b.text.includes('was tacky for'))).toBe(true);
  });

  test('a scuff waits until the layer below is hard', () => {
    // Scuffable from 18:35; 20 minutes of scuffing.
    expectHolds(board, scuffed('0 18:35'));
    expect(rulesBroken(board, scuffed('0 18:34'))).toEqual(['window']);
    expect(rulesBroken(board, scuffed('0 18:41'))).toContain('order');
  });

  test('the plan’s own word on a window is true', () => {
    const says = (opens: string, closes: string): Plan =>
      planOf([
        changing('layer-2-pour', { window: { of: 'layer-1', opens: iso(opens), closes: iso(closes) } }),
      ]);
    expectHolds(board, says('0 12:35', '0 16:35'));
    for (const [opens, closes] of [
      ['0 12:34', '0 16:35'],
      ['0 12:36', '0 16:35'],
      ['0 12:35', '0 16:34'],
      ['0 12:35', '0 16:36'],
    ])
      expect(rulesBroken(board, says(opens, closes))).toEqual(['window']);
  });

  test('a finger on the surface moves the window', () => {
    const found = (at: string, what: 'wet' | 'tacky' | 'hard'): Shop =>
      shopWhere({
        piece: {
          actuals: [
            { step: 'prepare', started: '2026-03-02T08:00', ended: '2026-03-02T08:30' },
            { step: 'layer-1-mix', started: '2026-03-02T08:30', ended: '2026-03-02T08:35' },
            { step: 'layer-1-pour', started: '2026-03-02T08:35', ended: '2026-03-02T08:40' },
            { step: 'layer-1-bubbles-1', started: '2026-03-02T08:50', ended: '2026-03-02T08:55' },
          ],
          touchTests: [{ step: 'layer-1-pour', at, found: what }],
        },
      });
    const done = new Set(['prepare', 'layer-1-mix', 'layer-1-pour', 'layer-1-bubbles-1']);
    const at = (mix: string, pass: string): Plan =>
      planOf(
        [
          {
            at: { 'layer-2-mix': mix, 'layer-2-bubbles-1': pass },
            changed: (s) => (done.has(s.step) ? { ...s, state: 'done' } : s),
          },
        ],
        '0 12:00',
      );
    // Still wet at 12:47, 252 minutes after: everything takes 252/240 of its time, so tacky from 12:47.
    const slow = found('2026-03-02T12:47', 'wet');
    expectHolds(slow, at('0 12:42', '0 13:02'));
    expect(rulesBroken(slow, at('0 12:41', '0 13:01'))).toEqual(['window']);
    // Hard at 14:35: the window is shut from then.
    const hard = found('2026-03-02T14:35', 'hard');
    const shut = (mix: string, pass: string): string[] =>
      checkPlan(hard, at(mix, pass))
        .filter((b) => b.rule === 'window')
        .map((b) => b.step ?? '');
    expect(shut('0 14:25', '0 14:45')).toEqual([]);
    expect(shut('0 14:26', '0 14:46')).toEqual(['layer-2-pour']);
  });
});

describe('cure', () => {
  const after = (days: Record<string, string>): Plan => planOf([{ at: days }]);

  test('a piece leaves its form once its last layer is hard enough', () => {
    // Layer 2 poured 13:05: demold from 13:05 the day after.
    expectHolds(board, after({ demold: '1 13:05' }));
    expect(rulesBroken(board, after({ demold: '1 13:04' }))).toEqual(['cure']);
  });

  test('a piece is machined once it is hard enough', () => {
    // Machinable 1500 minutes after 13:05: 14:05.
    const early = (flatten: string): Plan =>
      after({ demold: '1 13:10', turnaround: '1 13:25', flatten, sand: '1 15:30' });
    const slow = shopWhere({ resin: { machinableMinutes: 1530 } });
    expectHolds(slow, early('1 14:35'));
    expect(rulesBroken(slow, early('1 14:34'))).toEqual(['cure']);
  });

  test('a piece is turned over once the coat can be touched', () => {
    expectHolds(board, after({ 'flip-3': '2 21:05' }));
    expect(rulesBroken(board, after({ 'flip-3': '2 21:04' }))).toEqual(['cure']);
  });

  test('a piece is finished once its last coat has fully cured', () => {
    expectHolds(board, after({ finish: '4 21:25' }));
    expect(rulesBroken(board, after({ finish: '4 21:24' }))).toEqual(['cure']);
  });
});

describe('working-time', () => {
  test('a mix is poured out while it flows', () => {
    const flows = (minutes: number): Shop =>
      shopWhere({ resin: { workingTime: { minutes, batchMl: 5000 } } });
    expectHolds(flows(10), planOf());
    expect(rulesBroken(flows(9), planOf())).toEqual(['working-time']);
  });

  test('of several cups each is poured out while it flows', () => {
    // 750 mL in cups of at most 400: two of 375, each 5 minutes of mixing and half of the 5 of pouring.
    const [clear] = shopWith().resins;
    const [recipe] = shopWith().recipes;
    const twoCups = (minutes: number): Shop =>
      shopWith({
        resins: [
          { ...clear, largestBatchMl: 400, workingTime: { minutes, batchMl: 400 } },
          { ...clear, id: 'varnish' },
        ] as never,
        recipes: [{ ...recipe, coats: recipe.coats.map((coat) => ({ ...coat, resin: 'varnish' })) }] as never,
      });
    const plan = planOf([
      {
        at: { 'layer-1-bubbles-1': '0 08:55' },
        ends: { 'layer-1-pour': '0 08:45', 'layer-2-pour': '0 13:15' },
        changed: (step) => (step.kind === 'pour' ? { ...step, handsOnMinutes: 10 } : step),
      },
    ]);
    expectHolds(twoCups(8), plan);
    expect(rulesBroken(twoCups(7), plan)).toEqual(['working-time']);
  });

  test('wood leaves less to pour, and stands in a layer no higher than the layer', () => {
    // Two planks of 500 x 75 mm fill half of 500 x 300 mm: 375 mL, and 375 / 8 flow twice as long.
    const planks = (thicknessMm: number): Shop =>
      shopWhere({
        resin: { workingTime: { minutes: 20, batchMl: 375 / 8 } },
        recipe: {
          layers: [1, 2].map(() => ({
            resin: 'clear',
            depthMm: 5,
            wood: { pieces: [{ lengthMm: 500, widthMm: 75, thicknessMm, count: 2 }] },
          })),
        },
      });
    expectHolds(planks(5), planOf());
    expectHolds(planks(20), planOf());
    expect(rulesBroken(planks(4), planOf())).toEqual(['working-time']);
  });

  test('a cup eight times as large flows half as long', () => {
    // A layer of 500 x 300 x 5 mm takes 750 mL.
    const cup = (batchMl: number): Shop => shopWhere({ resin: { workingTime: { minutes: 20, batchMl } } });
    expectHolds(cup(750 / 8), planOf());
    expect(rulesBroken(cup(90), planOf())).toEqual(['working-time']);
  });
});

describe('temperature', () => {
  const at = (degC: number): Shop =>
    shopWhere({
      room: { temperature: { pattern: { nightLowDegC: degC, dayHighDegC: degC } } },
      resin: { referenceDegC: degC },
    });

  test('resin is poured between its lowest and its highest temperature', () => {
    expectHolds(at(15), planOf());
    expect(rulesBroken(at(14.9), planOf())).toContain('temperature');
    expectHolds(at(30), planOf());
    expect(rulesBroken(at(30.1), planOf())).toEqual(['temperature']);
  });

  test('resin is poured only clear of the dew point', () => {
    // 20 degC at 80 % has its dew point at 16.4444 degC (Alduchov and Eskridge 1996, equation 21): 3.5556 K apart.
    const damp = (dewPointMarginK: number): Shop =>
      shopWhere({
        room: { humidityPercent: 80, temperature: { pattern: { nightLowDegC: 20, dayHighDegC: 20 } } },
        resin: { referenceDegC: 20, dewPointMarginK },
      });
    expectHolds(damp(3.555), planOf());
    expect(rulesBroken(damp(3.556), planOf())).toEqual(['temperature']);
  });
});

describe('temperature and humidity as read', () => {
  test('count in the order of their times, however they are listed', () => {
    const at20 = { temperature: { pattern: { nightLowDegC: 20, dayHighDegC: 20 } } };
    const read = (...humidityPercent: { at: string; percent: number }[]): Shop =>
      shopWhere({ room: { ...at20, humidityPercent }, resin: { referenceDegC: 20, dewPointMarginK: 5 } });
    const damp = { at: '2026-03-02T00:00', percent: 80 };
    const still = { at: '2026-03-04T12:00', percent: 80 };
    const dry = { at: '2026-03-04T13:00', percent: 30 };
    const inAnyOrder = <T>([a, b, c]: readonly [T, T, T]): T[][] => [
      [a, b, c],
      [a, c, b],
      [b, a, c],
      [b, c, a],
      [c, a, b],
      [c, b, a],
    ];
    for (const list of inAnyOrder([damp, still, dry]))
      expect(rulesBroken(read(...list), planOf())).toEqual(['temperature']);
    // Dry for as long as resin is poured, damp only after it.
    const wet = { at: '2026-03-09T00:00', percent: 80 };
    for (const list of inAnyOrder([
      { ...dry, at: '2026-03-02T00:00' },
      { ...dry, at: '2026-03-08T00:00' },
      wet,
    ]))
      expectHolds(read(...list), planOf());
    expectHolds(read(dry), planOf());
    expect(rulesBroken(read(damp), planOf())).toEqual(['temperature']);
  });
});

describe('form', () => {
  const oneTray = twoPieces({
    forms: [{ id: 'tray', name: 'Tray', inside: { lengthMm: 520, widthMm: 320, depthMm: 20 } }],
  });

  test('the next piece waits until the form is clean', () => {
    // The form is clean on day 1 at 15:00.
    const elm = (prepare: string, person = 'ben'): Draft => ({
      piece: 'elm',
      person,
      days: 3,
      at: { prepare },
    });
    expectHolds(oneTray, planOf([{}, elm('1 15:00')]));
    expect(rulesBroken(oneTray, planOf([{}, elm('1 14:59')]))).toEqual(['form']);
  });

  test('there are only so many alike, and one unit holds one piece', () => {
    expect(rulesBroken(oneTray, planOf([{}, { piece: 'elm', person: 'ben', unit: 2, days: 1 }]))).toContain(
      'form',
    );
    const two = twoPieces({ tools: [{ id: 'sled', name: 'Sled', room: 'shed', count: 2 }] });
    expect(rulesBroken(two, planOf([{}, { piece: 'elm', person: 'ben', unit: 1 }]))).toEqual(['form']);
  });

  test('a piece stays in its form', () => {
    expect(rulesBroken(board, planOf([changing('layer-2-pour', { form: { id: 'tray', unit: 2 } })]))).toEqual(
      ['form'],
    );
    expect(rulesBroken(board, planOf([changing('layer-2-pour', { form: undefined })]))).toEqual(['form']);
  });
});

describe('fit', () => {
  const inside = (lengthMm: number, widthMm: number, depthMm: number): Shop =>
    shopWith({ forms: [{ id: 'tray', name: 'Tray', inside: { lengthMm, widthMm, depthMm } }] });

  test('a piece fits its form, either way round, with all its layers', () => {
    expectHolds(inside(500, 300, 10), planOf());
    expectHolds(inside(300, 500, 10), planOf());
    expect(rulesBroken(inside(499, 300, 10), planOf())).toEqual(['fit']);
    expect(rulesBroken(inside(500, 299, 10), planOf())).toEqual(['fit']);
    expect(rulesBroken(inside(500, 300, 9.9), planOf())).toEqual(['fit']);
  });

  test('a piece is made only in the forms that were wished for', () => {
    const other = { id: 'pan', name: 'Pan', inside: { lengthMm: 900, widthMm: 900, depthMm: 50 } };
    const picky = shopWhere({
      piece: { forms: ['pan'] },
      more: { forms: [other, ...(shopWith().forms as [])] },
    });
    expect(rulesBroken(picky, planOf())).toEqual(['fit']);
  });

  test('a layer given by its volume is as deep as that stands in the piece', () => {
    // 750 mL on 500 x 300 mm are 5 mm.
    const of = (volumeMl: number): Shop =>
      shopWhere({
        resin: { largestDepthMm: 5 },
        recipe: { layers: [1, 2].map(() => ({ resin: 'clear', volumeMl })) },
      });
    expectHolds(of(750), planOf());
    expect(rulesBroken(of(760), planOf())).toEqual(['fit']);
    expect(checkPlan(of(760), planOf())[1].text).toContain('layer 2 of oak is 5.1 mm');
  });

  test('no layer is deeper than its maker allows', () => {
    expectHolds(shopWhere({ resin: { largestDepthMm: 5 } }), planOf());
    expect(rulesBroken(shopWhere({ resin: { largestDepthMm: 4.9 } }), planOf())).toEqual(['fit']);
  });
});

describe('bench', () => {
  const withSpots = (spots: number): Shop =>
    twoPieces({
      benches: [{ id: 'trestle', name: 'Trestle', room: 'shed', spots }],
      tools: [{ id: 'sled', name: 'Sled', room: 'shed', count: 2 }],
    });

  test('a bench carries no more than it has spots for', () => {
    // Side by side, each has its form and its resting board on the bench for a while: four spots.
    const both = planOf([{}, { piece: 'elm', person: 'ben', unit: 2 }]);
    expectHolds(withSpots(4), both);
    expect(rulesBroken(withSpots(3), both)).toEqual(['bench']);
  });

  test('a bench carries no more than its area', () => {
    // A form of 520 x 320 mm inside is 600 x 400 mm outside: 2400 cm2; the board of 500 x 300 mm rests on 1500 cm2.
    const cm2 = (areaCm2: number): Shop =>
      shopWith({ benches: [{ id: 'trestle', name: 'Trestle', room: 'shed', areaCm2 }] });
    const plan = planOf();
    const inCm2: Plan = {
      ...plan,
      holds: plan.holds.map((hold, i) =>
        hold.what === 'bench' ? { ...hold, amount: i === 1 ? 2400 : 1500 } : hold,
      ),
    };
    expectHolds(cm2(3900), inCm2);
    expect(rulesBroken(cm2(3899), inCm2)).toEqual(['bench']);
  });

  test('a stay has one bench, in the room of its steps', () => {
    const second = shopWith({
      rooms: [...shopWith().rooms, { ...shopWith().rooms[0], id: 'attic', name: 'Attic' }] as never,
      benches: [
        { id: 'trestle', name: 'Trestle', room: 'shed', spots: 4 },
        { id: 'table', name: 'Table', room: 'shed', spots: 4 },
      ],
    });
    expect(rulesBroken(second, planOf([changing('layer-2-mix', { bench: 'table' })]))).toEqual(['bench']);
    expect(rulesBroken(second, planOf([changing('layer-2-mix', { room: 'attic' })]))).toContain('bench');
    expect(rulesBroken(second, planOf([changing('coat-2-mix', { room: 'cellar' })]))).toContain('bench');
  });
});

describe('warm-box', () => {
  const spots = (n: number): Shop =>
    twoPieces({
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 23, spots: n }],
      tools: [{ id: 'sled', name: 'Sled', room: 'shed', count: 2 }],
    });

  test('a box takes no more than it has space for', () => {
    const both = planOf([{ box: 'tent' }, { piece: 'elm', person: 'ben', unit: 2, box: 'tent' }]);
    expectHolds(spots(2), both);
    expect(rulesBroken(spots(1), both)).toEqual(['warm-box']);
  });

  test('a box stands in the room of what goes into it', () => {
    const elsewhere = shopWith({
      rooms: [...shopWith().rooms, { ...shopWith().rooms[0], id: 'attic', name: 'Attic' }] as never,
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'attic', setDegC: 23, spots: 2 }],
    });
    expect(rulesBroken(elsewhere, planOf([{ box: 'tent' }]))).toEqual(['warm-box']);
  });

  test('in a box of 24 degC the cure runs 1.075124 times as fast from the minute it is warm', () => {
    // Poured 13:05, in the box from 13:45: 40 minutes at 23 degC, 60 while it warms up (62.2 of cure), then 1.075124 a
    // minute: 1440 are reached 40 + 60 + (1440 - 40 - 62.23) / 1.075124 = 1344.3 minutes after the pour, so at 11:30.
    const warm = shopWith({
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 24, spots: 2, heatUpMinutes: 60 }],
    });
    const demolded = (at: string): Plan =>
      planOf([{ box: 'tent', at: { demold: at, turnaround: '1 12:00' } }]);
    expectHolds(warm, demolded('1 11:30'));
    expect(rulesBroken(warm, demolded('1 11:29'))).toEqual(['cure']);
  });
});

describe('tool', () => {
  test('one sled flattens one board at a time', () => {
    const elm = (flatten: string): Plan =>
      planOf([{}, { piece: 'elm', person: 'ben', unit: 2, at: { flatten, sand: '1 16:30' } }]);
    expectHolds(twoPieces(), elm('1 15:30'));
    expect(rulesBroken(twoPieces(), elm('1 15:29'))).toEqual(['tool']);
  });

  test('the tool is the one that the recipe asks for', () => {
    expect(rulesBroken(board, planOf([changing('flatten', { tool: undefined })]))).toEqual(['tool']);
  });
});

describe('dust', () => {
  // The oak is flattened from 15:00 and sanded until 15:50 on day 1; the air has settled by 17:50.
  const elm = (mix: string, pass: string): Plan =>
    planOf([
      {},
      {
        piece: 'elm',
        person: 'ben',
        unit: 2,
        days: 5,
        at: { prepare: '1 12:30', 'layer-1-mix': mix, 'layer-1-bubbles-1': pass },
      },
    ]);
  const isDusty = (plan: Plan): boolean => rulesBroken(twoPieces(), plan).includes('dust');

  test('no surface is opened before the dust has settled', () => {
    expect(isDusty(elm('1 17:45', '1 18:05'))).toBe(false);
    expect(isDusty(elm('1 17:44', '1 18:04'))).toBe(true);
  });

  test('nothing is sanded while a surface is still tacky', () => {
    // Poured at 07:00 a surface is shut at 15:00, 480 minutes later; another minute and it is not.
    expect(isDusty(elm('1 06:55', '1 07:15'))).toBe(false);
    expect(isDusty(elm('1 06:56', '1 07:16'))).toBe(true);
  });

  test('dust stays in its room, and dustless work makes none', () => {
    const clean = twoPieces({
      recipes: [
        {
          ...(shopWith().recipes[0] as object),
          flatten: { work: { minutes: 30 }, split: false, tool: 'sled', dust: false },
          sand: { work: { minutes: 20 }, split: false, dust: false },
        },
      ] as never,
    });
    expect(rulesBroken(clean, elm('1 10:00', '1 10:20'))).not.toContain('dust');
  });
});

describe('pins', () => {
  const pinned = (at: string): Shop => shopWhere({ piece: { pins: [{ step: 'demold', at }] } });

  test('a pinned step starts at its very minute', () => {
    expectHolds(pinned('2026-03-03T14:00'), planOf());
    expect(rulesBroken(pinned('2026-03-03T14:01'), planOf())).toEqual(['pins']);
    expect(rulesBroken(pinned('2026-03-03T13:59'), planOf())).toEqual(['pins']);
  });

  test('the last word counts, and mixing and pouring are one step', () => {
    const words = (...pins: { step: string; at: string }[]): Shop => shopWhere({ piece: { pins } });
    const mix = { step: 'layer-2-mix', at: '2026-03-02T13:00' };
    const pour = { step: 'layer-2-pour', at: '2026-03-02T13:06' };
    expectHolds(words(pour, mix), planOf());
    expect(rulesBroken(words(mix, pour), planOf())).toEqual(['pins']);
  });

  test('a wish for one layer says nothing of the coats', () => {
    const wish = shopWhere({ piece: { pins: [{ step: 'layer-2-pour', way: 'scuff' }] } });
    expectHolds(wish, scuffed('0 18:35'));
  });

  test('a layer is met in the way that was wished, at whichever of its steps the wish stands', () => {
    for (const step of ['layer-2-pour', 'layer-2-mix', 'layer-2-scuff']) {
      const wish = (way: 'recoat' | 'scuff'): Shop => shopWhere({ piece: { pins: [{ step, way }] } });
      expectHolds(wish('recoat'), planOf());
      expect(rulesBroken(wish('scuff'), planOf())).toEqual(['pins']);
    }
  });
});

describe('actuals', () => {
  const record = (started: string, ended?: string): Shop =>
    shopWhere({ piece: { actuals: [{ step: 'prepare', started, ended }] } });
  const told = (state: PlanStep['state'], now: string, ends = '0 08:30'): Plan =>
    planOf([{ ends: { prepare: ends }, ...changing('prepare', { state }) }], now);

  test('what is done stays as it was', () => {
    const done = record('2026-03-02T08:00', '2026-03-02T08:20');
    expectHolds(done, told('done', '0 08:30', '0 08:20'));
    expect(rulesBroken(done, told('done', '0 08:30', '0 08:21'))).toContain('actuals');
    expect(
      rulesBroken(record('2026-03-02T07:59', '2026-03-02T08:20'), told('done', '0 08:30', '0 08:20')),
    ).toContain('actuals');
  });

  test('what is under way ends when its work is done, and not before now', () => {
    const begun = record('2026-03-02T08:00');
    expectHolds(begun, told('begun', '0 08:15'));
    expect(rulesBroken(begun, told('begun', '0 08:15', '0 08:29'))).toContain('order');
    expect(rulesBroken(begun, told('planned', '0 08:15'))).toEqual(['actuals']);
  });

  test('what is planned is not called done', () => {
    expect(rulesBroken(board, told('done', '0 00:00'))).toEqual(['actuals']);
    expect(checkPlan(board, told('done', '0 00:00'))[0].text).toBe(
      'oak prepare is called done; it is planned.',
    );
  });
});

describe('earliest', () => {
  test('nothing is planned before now', () => {
    expectHolds(board, planOf([{}], '0 08:00'));
    expect(rulesBroken(board, planOf([{}], '0 08:01'))).toEqual(['earliest']);
  });

  test('a piece is not begun before it may be', () => {
    expectHolds(shopWhere({ piece: { earliest: '2026-03-02T08:00' } }), planOf());
    expect(rulesBroken(shopWhere({ piece: { earliest: '2026-03-02T08:01' } }), planOf())).toEqual([
      'earliest',
    ]);
  });
});

describe('tardiness', () => {
  test('the plan tells truly when a piece is ready, when it is due and how late it is', () => {
    const late = shopWhere({ piece: { due: '2026-03-06T21:00' } });
    expectHolds(late, planOf([{}], '0 00:00', '4 21:00'));
    const plan = planOf([{}], '0 00:00', '4 21:00');
    const lie = (change: Partial<Plan['pieces'][number]>): Plan => ({
      ...plan,
      pieces: plan.pieces.map((each) => ({ ...each, ...change })),
    });
    expect(plan.pieces[0].lateMinutes).toBe(40);
    expect(rulesBroken(late, lie({ lateMinutes: 39 }))).toEqual(['tardiness']);
    expect(rulesBroken(late, lie({ ready: iso('4 21:39') }))).toEqual(['tardiness']);
    expect(rulesBroken(late, lie({ due: iso('4 21:01') }))).toEqual(['tardiness']);
    expect(rulesBroken(late, { ...plan, pieces: [] })).toEqual(['tardiness']);
  });
});

describe('holds', () => {
  test('what the plan says is held is what its steps ask for', () => {
    const plan = planOf();
    plan.holds.forEach((hold, i) => {
      const without = plan.holds.filter((_, j) => j !== i);
      expect(rulesBroken(board, { ...plan, holds: without })).toEqual(['holds']);
      const longer = plan.holds.map((each, j) => (j === i ? { ...each, to: iso('6 00:00') } : each));
      expect(rulesBroken(board, { ...plan, holds: longer })).toEqual(['holds']);
      expect(rulesBroken(board, { ...plan, holds: [...plan.holds, hold] })).toEqual(['holds']);
    });
  });
});
