/** Records of a piece that went its own way: the plan from there on holds. Random shops that were recorded as they went found each. */
import { expect, test } from 'vitest';
import { checkPlan } from '../../../src/engine/check/index.ts';
import { planShop, writtenAheadIn } from '../../../src/engine/plan/index.ts';
import type { Plan } from '../../../src/engine/plan/index.ts';
import type { Piece, Shop } from '../../../src/engine/shop/index.ts';
import { shopWhere } from '../check/plan-builder.ts';

type Actual = Piece['actuals'][number];

const done = (step: string, started: string, ended: string): Actual => ({
  step,
  started: `2026-03-${started}`,
  ended: `2026-03-${ended}`,
});

const planned = (shop: Shop, now: string): Plan => planShop(shop, { now, seed: 1, budget: 5000 });

const startOf = (plan: Plan, step: string): string =>
  plan.steps.find((each) => each.step === step)!.start.slice(0, 16);

/** In its form for a day, and out of it at 9:00 on the 3rd. */
const demolded = [
  done('prepare', '02T07:00', '02T07:30'),
  done('layer-1-pour', '02T08:05', '02T08:10'),
  done('layer-2-pour', '02T13:05', '02T13:10'),
  done('demold', '03T13:30', '03T13:45'),
];

test('a coat waits for the dust of a board that was sanded while its own surface was open', () => {
  const shop = shopWhere({
    recipe: { coats: [{ resin: 'clear', face: 'top', work: { minutes: 5 } }] },
    piece: {
      due: '2026-03-04T12:00',
      actuals: [
        ...demolded,
        done('turnaround', '03T13:45', '03T14:15'),
        done('flatten', '03T14:20', '03T14:50'),
        done('sand', '03T14:50', '03T15:10'),
      ],
      // Tacky still: by that its surface is open for as long again.
      touchTests: [{ step: 'layer-2-pour', at: '2026-03-03T13:20', found: 'wet' }],
    },
  });
  const plan = planned(shop, '2026-03-03T15:15');
  // The air has settled two hours after the sanding.
  expect(startOf(plan, 'coat-1') >= '2026-03-03T17:10').toBe(true);
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a piece is not ready while its form is still being cleaned', () => {
  const shop = shopWhere({
    resin: { demoldMinutes: 600, machinableMinutes: 600, fullCureMinutes: 600 },
    recipe: { flatten: undefined, sand: undefined, coats: [], finish: undefined },
    piece: { actuals: [...demolded, { step: 'turnaround', started: '2026-03-03T14:00', form: 'tray' }] },
  });
  const plan = planned(shop, '2026-03-03T14:05');
  const cleaned = plan.steps.find(({ step }) => step === 'turnaround')!.end.slice(0, 16);
  expect(cleaned > '2026-03-03T14:05').toBe(true);
  expect(startOf(plan, 'ready')).toBe(cleaned);
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('of a turnaround under way in a form that nobody wrote down, the slowest form’s is told', () => {
  const inside = { lengthMm: 520, widthMm: 320, depthMm: 20 };
  const form = (id: string, turnaroundMinutes: number) => ({
    id,
    name: id,
    inside,
    count: 1,
    turnaroundMinutes,
  });
  const shop = shopWhere({
    piece: { actuals: [...demolded, { step: 'turnaround', started: '2026-03-03T14:00' }] },
    more: { forms: [form('quick', 20), form('slow', 70)] },
  });
  const plan = planned(shop, '2026-03-03T14:05');
  const { end } = plan.steps.find(({ step }) => step === 'turnaround')!;
  expect(end.slice(0, 16)).toBe('2026-03-03T15:10');
  expect(checkPlan(shop, plan)).toEqual([]);
  // Of two that were written down the last one counts.
  const actuals = [
    { ...demolded[0], form: 'slow' },
    ...demolded.slice(1),
    { step: 'turnaround', started: '2026-03-03T14:00', form: 'quick' },
  ];
  const said = { ...shop, pieces: shop.pieces.map((piece) => ({ ...piece, actuals })) };
  for (const forms of [shop.forms, [...shop.forms].reverse()]) {
    const again = planned({ ...said, forms }, '2026-03-03T14:05');
    expect(again.steps.find(({ step }) => step === 'turnaround')?.end.slice(0, 16)).toBe('2026-03-03T14:20');
    expect(checkPlan({ ...said, forms }, again)).toEqual([]);
  }
});

test('a piece that was begun in a warm box stands on a bench of the box’s room', () => {
  const shop = shopWhere({
    piece: {
      actuals: [{ ...done('prepare', '02T07:00', '02T07:30'), form: 'tray', warmBox: 'tent' }],
    },
  });
  const [shed] = shop.rooms;
  const [trestle] = shop.benches;
  const slab = { ...trestle, id: 'slab', name: 'Slab', room: 'annex' };
  for (const benches of [
    [trestle, slab],
    [slab, trestle],
  ]) {
    const both: Shop = { ...shop, rooms: [shed, { ...shed, id: 'annex', name: 'Annex' }], benches };
    const plan = planned(both, '2026-03-02T07:30');
    expect(plan.steps.find(({ step }) => step === 'layer-1-pour')?.bench).toBe('trestle');
    expect(checkPlan(both, plan)).toEqual([]);
  }
});

test('a board that was flattened too soon is finished only once its last layer is hard enough to work on', () => {
  const shop = shopWhere({
    resin: { demoldMinutes: 600, machinableMinutes: 8000, fullCureMinutes: 8000 },
    recipe: { coats: [{ resin: 'swift', face: 'top', work: { minutes: 5 } }] },
    piece: {
      actuals: [
        ...demolded,
        done('turnaround', '03T13:45', '03T14:15'),
        done('flatten', '03T14:20', '03T14:50'),
        done('sand', '03T14:50', '03T15:10'),
      ],
    },
  });
  const swift = {
    ...shop.resins[0],
    id: 'swift',
    name: 'Swift',
    machinableMinutes: 600,
    fullCureMinutes: 900,
  };
  const both = { ...shop, resins: [...shop.resins, swift] };
  const plan = planned(both, '2026-03-03T15:15');
  // 8000 minutes after 13:05 on the 2nd.
  expect(startOf(plan, 'finish') >= '2026-03-08T02:25').toBe(true);
  expect(checkPlan(both, plan)).toEqual([]);
});

test('what is written down has begun, though the clock of the planning device is behind', () => {
  const shop = shopWhere({
    piece: { actuals: [...demolded, { step: 'turnaround', started: '2026-03-03T14:00' }] },
  });
  const plan = planned(shop, '2026-03-03T13:50');
  expect(plan.steps.find(({ step }) => step === 'turnaround')?.state).toBe('begun');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('of work that is written down for another month no plan is made: it is told where that is, and what would be right', () => {
  const slip = shopWhere({ piece: { actuals: [done('prepare', '02T07:00', '02T07:30')] } });
  const [{ actuals }] = slip.pieces;
  const pieces = slip.pieces.map((each) => ({
    ...each,
    actuals: [...actuals, { step: 'layer-1-pour', started: '2026-04-02T08:00' }],
    touchTests: [{ step: 'layer-1-pour', at: '2026-04-02T20:00', found: 'tacky' as const }],
  }));
  const plan = planShop({ ...slip, pieces }, { now: '2026-03-02T08:10', seed: 1, budget: 3000 });
  expect(plan.status).toBe('infeasible');
  expect(plan.now.slice(0, 16)).toBe('2026-03-02T08:10');
  expect(plan.clash).toHaveLength(2);
  expect(plan.clash[0]).toMatch(
    /pour.* is written down as begun Thu 2 Apr 08:00, 30 d 23 h.* from now; right would be a time up to now, Mon 2 Mar 08:10$/,
  );
  expect(plan.clash[1]).toContain('is written down as touched Thu 2 Apr 20:00');
  expect(plan.notes.map(({ text }) => text)).toEqual(plan.clash.map((line) => line.replace(/^.*? - /, '')));
  const slipped = { piece: pieces[0].id, step: 'layer-1-pour' };
  expect(writtenAheadIn(plan)).toEqual([slipped, slipped]);
  expect(writtenAheadIn({ notes: [{ ...slipped, kind: 'missed-pass', text: 'layer 1 has set' }] })).toEqual(
    [],
  );
});

test('a pour that was written down after what came next ends when it began, not before', () => {
  const shop = shopWhere({
    piece: {
      actuals: [
        done('prepare', '02T07:00', '02T07:30'),
        done('layer-1-pour', '02T08:05', '02T08:10'),
        done('layer-2-bubbles-1', '02T13:30', '02T13:35'),
        { step: 'layer-2-pour', started: '2026-03-02T18:05' },
      ],
    },
  });
  const plan = planned(shop, '2026-03-03T07:00');
  expect(startOf(plan, 'cure')).toBe('2026-03-02T18:05');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a pour pinned to a moment by which its mix would have had to be begun before now is planned afresh', () => {
  const shop = shopWhere({
    piece: {
      actuals: [done('prepare', '02T07:00', '02T07:30')],
      pins: [{ step: 'layer-1-pour', at: '2026-03-02T08:04' }],
    },
  });
  const plan = planned(shop, '2026-03-02T08:00');
  expect(plan.notes.map(({ kind }) => kind)).toEqual(['passed-pin']);
  expect(checkPlan(shop, plan)).toEqual([]);
  // A minute later the mix can begin now.
  const pins = [{ step: 'layer-1-pour', at: '2026-03-02T08:05' }];
  const soon = { ...shop, pieces: shop.pieces.map((piece) => ({ ...piece, pins })) };
  expect(startOf(planned(soon, '2026-03-02T08:00'), 'layer-1-pour')).toBe('2026-03-02T08:05');
});

test('a pour in a warm box that nobody ended has cured in the box since its mix was written down', () => {
  const shop = shopWhere({
    // In the room alone it would not be hard enough for days.
    room: { temperature: { pattern: { nightLowDegC: 16, dayHighDegC: 16 } } },
    recipe: { layers: [{ resin: 'clear', depthMm: 5 }], coats: [] },
    piece: {
      actuals: [
        { ...done('prepare', '02T07:00', '02T07:30'), form: 'tray', warmBox: 'tent' },
        { step: 'layer-1-mix', started: '2026-03-02T18:05' },
      ],
    },
    more: {
      warmBoxes: [{ id: 'tent', name: 'Tent', room: 'shed', setDegC: 28, spots: 1, heatUpMinutes: 10 }],
    },
  });
  const plan = planned(shop, '2026-03-04T07:00');
  expect(startOf(plan, 'demold')).toBe('2026-03-04T07:00');
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('a bubble pass that was left out is made after all where the room turns out to have been colder, in every plan that is told', () => {
  const actuals = [done('prepare', '02T07:00', '02T07:30'), done('layer-1-pour', '02T08:05', '02T08:10')];
  const now = '2026-03-02T12:30';
  const warm = shopWhere({ piece: { actuals } });
  const standing = planned(warm, now);
  expect(standing.notes.map(({ kind }) => kind)).toEqual(['missed-pass']);
  // At 17 degC the layer is tacky only after 14:00.
  const measured = [
    { at: '2026-03-02T08:00', degC: 17 },
    { at: now, degC: 17 },
  ];
  const pattern = { nightLowDegC: 23, dayHighDegC: 23 };
  const cold = shopWhere({ piece: { actuals }, room: { temperature: { measured, pattern } } });
  const told: Plan[] = [];
  const plan = planShop(cold, { now, seed: 1, budget: 5000, standing, progress: (p) => void told.push(p) });
  for (const each of [...told, plan]) expect(checkPlan(cold, each)).toEqual([]);
  expect(told.length).toBeGreaterThan(0);
  expect(startOf(plan, 'layer-1-bubbles-1')).toBe(now);
});

test('a coat that the cold keeps soft holds its bench until the piece was taken up to be finished', () => {
  const degC = 10;
  const shop = shopWhere({
    recipe: {
      flatten: undefined,
      sand: undefined,
      coats: [{ resin: 'clear', face: 'top', work: { minutes: 5 } }],
    },
    // Below 15 degC this resin stands still.
    room: {
      temperature: {
        measured: [
          { at: '2026-03-05T08:20', degC: 23 },
          { at: '2026-03-05T08:30', degC },
        ],
        pattern: { nightLowDegC: degC, dayHighDegC: degC },
      },
    },
    piece: {
      actuals: [
        ...demolded,
        done('coat-1-mix', '05T08:00', '05T08:05'),
        done('coat-1', '05T08:05', '05T08:10'),
        done('finish', '07T08:00', '07T08:10'),
      ],
    },
  });
  const plan = planned(shop, '2026-03-07T09:00');
  expect(plan.steps.map(({ step }) => step)).toContain('ready');
  expect(plan.holds.at(-1)).toMatchObject({
    what: 'bench',
    from: '2026-03-05T08:00Z',
    to: '2026-03-07T08:00Z',
  });
  expect(checkPlan(shop, plan)).toEqual([]);
});

test('hands are taken until the end that was written down, though the clock of the planning device is behind', () => {
  const shop = shopWhere({
    piece: {
      actuals: [
        { ...done('prepare', '02T07:00', '02T09:00'), person: 'ana' },
        { step: 'layer-1-pour', started: '2026-03-02T08:00' },
      ],
    },
  });
  const alone = { ...shop, people: shop.people.slice(0, 1) };
  const plan = planned(alone, '2026-03-02T07:30');
  // The pour is still under way at nine; its bubbles come up ten minutes after it.
  expect(startOf(plan, 'layer-1-bubbles-1')).toBe('2026-03-02T09:10');
  expect(checkPlan(alone, plan)).toEqual([]);
});

test('a mix takes its hands until the end that was written down, and nothing is planned before it, though the device is behind', () => {
  const shop = shopWhere({
    piece: {
      actuals: [
        { ...done('prepare', '02T07:00', '02T07:30'), person: 'ana' },
        { ...done('layer-1-mix', '02T07:45', '02T08:40'), person: 'ana' },
      ],
    },
  });
  const { pieces } = shop;
  const two = {
    ...shop,
    people: shop.people.slice(0, 1),
    pieces: [...pieces, { ...pieces[0], id: 'next', name: 'Next', actuals: [] }],
  };
  const plan = planned(two, '2026-03-02T07:50');
  expect(plan.now.slice(0, 16)).toBe('2026-03-02T08:40');
  expect(checkPlan(two, plan)).toEqual([]);
  const taken = plan.steps.filter(
    ({ piece, people, start }) =>
      piece === 'next' && people.includes('ana') && start.slice(0, 16) < '2026-03-02T08:40',
  );
  expect(taken).toEqual([]);
});
