import { describe, expect, it } from 'vitest';
import { parseShop } from '../../../src/engine/shop/index.ts';
import { edited, faultsOf } from './shop-edits.ts';

type Case = readonly [
  title: string,
  edits: Record<string, unknown>,
  path: string,
  found: string,
  right: string,
];

const SHAPE: readonly Case[] = [
  ['a missing field', { name: undefined }, 'name', 'nothing', 'must be text in quotes'],
  ['a missing list', { rooms: undefined }, 'rooms', 'nothing', 'must be a list'],
  [
    'an empty list',
    { rooms: [], benches: [], tools: [] },
    'rooms',
    'a list of 0 entries',
    'at least one room',
  ],
  ['a missing object', { 'resins[1].mix': undefined }, 'resins[1].mix', 'nothing', 'with "by", "a", "b"'],
  ['text for a number', { 'forms[0].count': '2' }, 'forms[0].count', '"2"', 'a number, without quotes'],
  ['a broken count', { 'forms[0].count': 1.5 }, 'forms[0].count', '1.5', 'a whole number of forms'],
  [
    'a depth below nothing',
    { 'recipes[0].layers[0].depthMm': -3 },
    'recipes[0].layers[0].depthMm',
    '-3',
    'at least 0.1 mm',
  ],
  [
    'a list for an object',
    { 'pieces[0].size': [700, 300] },
    'pieces[0].size',
    'a list of 2 entries',
    'an object',
  ],
  ['null for a text', { 'pieces[0].name': null }, 'pieces[0].name', 'null', 'text in quotes'],
  ['an id with a space', { 'tools[0].id': 'the planer' }, 'tools[0].id', '"the planer"', 'hyphens'],
  [
    'a switch in quotes',
    { 'recipes[0].prepare.split': 'yes' },
    'recipes[0].prepare.split',
    '"yes"',
    'true or false',
  ],
  ['a slip in a key', { 'resins[0].tackOpenMinutes': 5 }, 'resins[0].tackOpenMinutes', '5', 'unknown key'],
  [
    'a key of nowhere',
    { 'forms[2].sparkle': 1 },
    'forms[2].sparkle',
    '1',
    'unknown key; known here are "id", "name"',
  ],
  ['a key that every object has', { 'forms[2].constructor': 1 }, 'forms[2].constructor', '1', 'unknown key'],
  [
    'a day that no calendar has',
    { 'pieces[0].due': '2026-02-30' },
    'pieces[0].due',
    '"2026-02-30"',
    'a day that the calendar has',
  ],
  [
    'a date in words',
    { 'pieces[0].due': 'next week' },
    'pieces[0].due',
    '"next week"',
    'such as "2026-11-25"',
  ],
  [
    '25 hours on the clock',
    { 'people[0].hours[0].to': '25:00' },
    'people[0].hours[0].to',
    '"25:00"',
    'from "00:00" to "24:00"',
  ],
  [
    'humidity above all',
    { 'rooms[0].humidityPercent': 140 },
    'rooms[0].humidityPercent',
    '140',
    'at most 100 %',
  ],
  [
    'humidity in words',
    { 'rooms[0].humidityPercent': 'damp' },
    'rooms[0].humidityPercent',
    '"damp"',
    'a percentage, or a list',
  ],
  [
    'a reading without its time',
    { 'rooms[0].humidityPercent': [{ percent: 50 }] },
    'rooms[0].humidityPercent[0].at',
    'nothing',
    'a date and time',
  ],
  [
    'wood told in a way of its own',
    { 'recipes[0].layers[0].wood': { share: 3 } },
    'recipes[0].layers[0].wood',
    'an object { … }',
    'must hold "coverPercent", or "pieces", or "outlines"',
  ],
  [
    'wood over the whole and more',
    { 'recipes[0].layers[0].wood': { coverPercent: 130 } },
    'recipes[0].layers[0].wood.coverPercent',
    '130',
    'at most 100 %',
  ],
  [
    'an outline of two corners',
    {
      'recipes[0].layers[0].wood': {
        outlines: [
          [
            [0, 0],
            [9, 9],
          ],
        ],
      },
    },
    'recipes[0].layers[0].wood.outlines[0]',
    'a list of 2 entries',
    'at least three corners',
  ],
  ['another format', { format: 'something' }, 'format', '"something"', 'must be "pourwright.shop"'],
  ['a version in quotes', { version: '1' }, 'version', '"1"', 'must be 1'],
];

const REFERENCES: readonly Case[] = [
  [
    'a bench in no room',
    { 'benches[1].room': 'shop' },
    'benches[1].room',
    '"shop"',
    'the file has "shed" and "lean-to"',
  ],
  [
    'a slip in a recipe',
    { 'pieces[3].recipe': 'rivr-board' },
    'pieces[3].recipe',
    '"rivr-board"',
    'did you mean "river-board"?',
  ],
  [
    'a resin not listed',
    { 'recipes[1].layers[0].resin': 'amber' },
    'recipes[1].layers[0].resin',
    '"amber"',
    'no resin has this id',
  ],
  [
    'a seal not listed',
    { 'recipes[1].seal.resin': 'x' },
    'recipes[1].seal.resin',
    '"x"',
    'no resin has this id',
  ],
  [
    'a coat not listed',
    { 'recipes[0].coats[0].resin': 'x' },
    'recipes[0].coats[0].resin',
    '"x"',
    'no resin has this id',
  ],
  [
    'a tool not there',
    { tools: undefined },
    'recipes[1].flatten.tool',
    '"planer"',
    'the file lists no tools',
  ],
  [
    'a form not there',
    { 'pieces[0].forms': ['long-form', 'oval'] },
    'pieces[0].forms[1]',
    '"oval"',
    'no form has this id',
  ],
  [
    'a person not there',
    { 'pieces[0].actuals': [{ step: 'prepare', started: '2026-11-24', person: 'mave' }] },
    'pieces[0].actuals[0].person',
    '"mave"',
    'did you mean "maeve"?',
  ],
  [
    'a name given twice',
    { 'pieces[5].id': 'curlew' },
    'pieces[5].id',
    '"curlew"',
    'pieces[0] has this id already',
  ],
];

const SENSE: readonly Case[] = [
  ['a zone of nowhere', { zone: 'Europe/Dublyn' }, 'zone', '"Europe/Dublyn"', 'such as "Europe/Dublin"'],
  [
    'a rule that cannot be read',
    { 'people[0].hours[0].rule': 'FREQ=WEEKLY;BYDAY=MONDAY' },
    'people[0].hours[0].rule',
    '"FREQ=WEEKLY;BYDAY=MONDAY"',
    'BYDAY',
  ],
  [
    'hours from 24:00',
    { 'people[0].hours[0].from': '24:00' },
    'people[0].hours[0].from',
    '"24:00"',
    '"00:00" of the day after',
  ],
  [
    'a closure that ends before it begins',
    { closures: [{ from: '2026-12-26', to: '2026-12-24' }] },
    'closures[0].to',
    '"2026-12-24"',
    'must be after "from"',
  ],
  [
    'time off of no length',
    { 'people[1].off': [{ from: '2026-12-24T10:00', to: '2026-12-24T10:00' }] },
    'people[1].off[0].to',
    '"2026-12-24T10:00"',
    'must be after "from"',
  ],
  [
    'low and high at once',
    { 'rooms[1].temperature.pattern.nightLowAt': '15:00' },
    'rooms[1].temperature.pattern.dayHighAt',
    '"15:00"',
    'another time of day',
  ],
  [
    'two readings of one moment, written in two ways',
    {
      'rooms[1].temperature.measured': [
        { at: '2026-11-24T10:00', degC: 9 },
        { at: '2026-11-24T10:00Z', degC: 12 },
      ],
    },
    'rooms[1].temperature.measured[1].at',
    '"2026-11-24T10:00Z"',
    'another moment than entry 0',
  ],
  [
    'a window that closes before it opens',
    { 'resins[0].tackClosesMinutes': 1200 },
    'resins[0].tackClosesMinutes',
    '1200',
    'more than tackOpensMinutes, which is 1440',
  ],
  [
    'scuffing a wet surface',
    { 'resins[0].scuffableMinutes': 900 },
    'resins[0].scuffableMinutes',
    '900',
    'not be less than tackOpensMinutes',
  ],
  [
    'demolding a wet piece',
    { 'resins[0].demoldMinutes': 900 },
    'resins[0].demoldMinutes',
    '900',
    'not be less than tackOpensMinutes',
  ],
  [
    'machining after the end of all cure',
    { 'resins[0].machinableMinutes': 20000 },
    'resins[0].machinableMinutes',
    '20000',
    'not be more than fullCureMinutes, which is 10080',
  ],
  [
    'a lowest temperature above the highest',
    { 'resins[0].lowestDegC': 30 },
    'resins[0].lowestDegC',
    '30',
    'below highestDegC, which is 28',
  ],
  [
    'a smallest depth above the largest',
    { 'resins[2].smallestDepthMm': 2 },
    'resins[2].smallestDepthMm',
    '2',
    'not be more than largestDepthMm',
  ],
  [
    'a second point at the first',
    { 'resins[2].secondPoint': { degC: 23, tackOpensMinutes: 50 } },
    'resins[2].secondPoint.degC',
    '23',
    'not be the reference temperature',
  ],
  [
    'a second point that is slower when warm',
    { 'resins[2].secondPoint': { degC: 30, tackOpensMinutes: 90 } },
    'resins[2].secondPoint.tackOpensMinutes',
    '90',
    'must be less than the 60 minutes at 23 degC',
  ],
  [
    'a layer of no measure',
    { 'recipes[1].layers[1].depthMm': undefined },
    'recipes[1].layers[1]',
    'an object { … }',
    '"depthMm", or "volumeMl"',
  ],
  [
    'a layer of two measures',
    { 'recipes[1].layers[1].volumeMl': 800 },
    'recipes[1].layers[1].volumeMl',
    '800',
    'not stand beside "depthMm"',
  ],
  [
    'a layer too deep',
    { 'recipes[0].layers[1].depthMm': 9 },
    'recipes[0].layers[1].depthMm',
    '9',
    'at most 4 mm, the largest depth per pour (largestDepthMm) of "quick-flood": deeper it can overheat; split it into 3 layers of 3 mm',
  ],
  [
    'a layer too thin',
    { 'recipes[1].layers[1].depthMm': 2 },
    'recipes[1].layers[1].depthMm',
    '2',
    'at least 6 mm',
  ],
  [
    'a coat too deep',
    { 'recipes[0].coats[0].coverMlPerM2': 6000 },
    'recipes[0].coats[0].coverMlPerM2',
    '6000',
    'at most 4000 mL per square metre',
  ],
  [
    'a layer too deep by its volume',
    { 'recipes[1].layers[1].depthMm': undefined, 'recipes[1].layers[1].volumeMl': 7200 },
    'pieces[3].size',
    '"layer 2 of \\"tray\\" with 7200 mL would be 60 mm deep"',
    'at most 50 mm',
  ],
  [
    'a bubble pass that ends before it begins',
    { 'recipes[0].layers[0].bubblePasses[0].toMinutes': 3 },
    'recipes[0].layers[0].bubblePasses[0].toMinutes',
    '3',
    'not be less than fromMinutes, which is 10',
  ],
  [
    'a bench of no measure',
    { 'benches[0].areaCm2': undefined },
    'benches[0]',
    'an object { … }',
    '"areaCm2", or "spots"',
  ],
  [
    'a bench of two measures',
    { 'benches[0].spots': 3 },
    'benches[0].spots',
    '3',
    'not stand beside "areaCm2"',
  ],
  [
    'a form smaller outside than inside',
    { 'forms[0].outside': { lengthMm: 500, widthMm: 400 } },
    'forms[0].outside',
    '"500 x 400 mm"',
    'not be smaller than the inside',
  ],
  [
    'a form that no bench can take',
    { 'benches[0].areaCm2': 2500, 'benches[1]': { id: 'shelf', name: 'Shelf', room: 'shed', areaCm2: 900 } },
    'forms[1]',
    '"a form that takes 3200 cm2"',
    'the largest has 2500 cm2',
  ],
  [
    'a piece too long for every form',
    { 'pieces[0].size.lengthMm': 800 },
    'pieces[0].size',
    '"800 x 300 x 23.6 mm with all its layers"',
    '"long-form" 720 x 320 x 55 mm',
  ],
  [
    'a piece too long for the form it wishes',
    { 'pieces[0].forms': ['board-form'] },
    'pieces[0].size',
    '"700 x 300 x 23.6 mm with all its layers"',
    '"board-form"',
  ],
  [
    'layers too deep for every form',
    { 'recipes[1].layers[0].depthMm': 50 },
    'pieces[3].size',
    '"400 x 300 x 58 mm with all its layers"',
    'must fit a form',
  ],
  [
    'a wish for no form at all',
    { 'pieces[0].forms': [] },
    'pieces[0].forms',
    'a list of 0 entries',
    'at least one form',
  ],
  [
    'a skill that nobody has',
    { 'people[0].can': ['prepare', 'pour', 'demold', 'sand', 'finish'] },
    'recipes[0].flatten',
    '"a step that needs \\"flatten\\""',
    'nobody has "flatten"',
  ],
  [
    'three people where two can',
    { 'recipes[0].layers[1].pour.hands': 3 },
    'recipes[0].layers[1].pour',
    '"a step that needs 3 people with \\"pour\\""',
    'only 2 people have "pour"',
  ],
  [
    'a pin on an unknown step',
    { 'pieces[3].pins': [{ step: 'layer-3-pour', at: '2026-12-01T10:00' }] },
    'pieces[3].pins[0].step',
    '"layer-3-pour"',
    'no step of "tray" has this name',
  ],
  [
    'a pin on waiting',
    { 'pieces[3].pins': [{ step: 'cure', at: '2026-12-01T10:00' }] },
    'pieces[3].pins[0].step',
    '"cure"',
    'cannot be pinned',
  ],
  [
    'a pin that pins nothing',
    { 'pieces[3].pins': [{ step: 'demold' }] },
    'pieces[3].pins[0]',
    'an object { … }',
    '"at", a moment, or "way"',
  ],
  [
    'a recoat of bare wood',
    { 'pieces[3].pins': [{ step: 'seal', way: 'recoat' }] },
    'pieces[3].pins[0].way',
    '"recoat"',
    'over another',
  ],
  [
    'two pins of one step',
    {
      'pieces[3].pins': [
        { step: 'demold', at: '2026-12-01T10:00' },
        { step: 'demold', at: '2026-12-02T10:00' },
      ],
    },
    'pieces[3].pins[1].at',
    '"2026-12-02T10:00"',
    'only once',
  ],
  [
    'work that ended before it started',
    { 'pieces[3].actuals': [{ step: 'prepare', started: '2026-11-24T10:00', ended: '2026-11-24T09:00' }] },
    'pieces[3].actuals[0].ended',
    '"2026-11-24T09:00"',
    'not be before "started"',
  ],
  [
    'work told twice',
    {
      'pieces[3].actuals': [
        { step: 'prepare', started: '2026-11-24' },
        { step: 'prepare', started: '2026-11-24' },
      ],
    },
    'pieces[3].actuals[1].step',
    '"prepare"',
    'only once',
  ],
  [
    'a touch on the mixing',
    { 'pieces[3].touchTests': [{ step: 'seal-mix', at: '2026-11-24', found: 'wet' }] },
    'pieces[3].touchTests[0].step',
    '"seal-mix"',
    'the step that laid the resin on',
  ],
  [
    'a touch before the pour',
    {
      'pieces[3].actuals': [{ step: 'seal', started: '2026-11-24T10:00' }],
      'pieces[3].touchTests': [{ step: 'seal', at: '2026-11-24T09:00', found: 'wet' }],
    },
    'pieces[3].touchTests[0].at',
    '"2026-11-24T09:00"',
    'after the step has started',
  ],
];

const about = (cases: readonly Case[]): void => {
  it.each(cases)(
    'names %s, what stands there and what would be right',
    (_title, edits, path, found, right) => {
      const faults = faultsOf(edits);
      expect(faults).toContainEqual({ path, found, message: expect.stringContaining(right) as string });
    },
  );
};

describe('the shape of a shop file', () => about(SHAPE));
describe('names that point elsewhere in the file', () => about(REFERENCES));
describe('the sense of a shop file', () => about(SENSE));

describe('a shop of one', () => {
  it('is told what its one person cannot do, and that nothing stands on its one bench', () => {
    const alone = faultsOf({
      'people[1]': undefined,
      'people[0].can': ['prepare', 'pour', 'demold', 'sand'],
    });
    expect(alone.map(({ path }) => path)).toContain('recipes[0].flatten');
    const small = faultsOf({ 'benches[1]': undefined, 'benches[0].areaCm2': 100 });
    expect(small).toContainEqual(
      expect.objectContaining({
        path: 'forms[0]',
        message: expect.stringContaining('must stand on a bench, but the largest has 100 cm2') as string,
      }),
    );
  });
});

describe('a shop file with faults', () => {
  it('suggests the key that was meant when one letter is missing', () => {
    const faults = faultsOf({ 'resins[0].tackOpenMinutes': 1440, 'resins[0].tackOpensMinutes': undefined });
    expect(faults.map(({ path, message }) => `${path}: ${message}`)).toEqual([
      'resins[0].tackOpenMinutes: unknown key; did you mean "tackOpensMinutes"?',
      'resins[0].tackOpensMinutes: must be a number, without quotes',
    ]);
  });

  it('has every fault named in one round: of shape, of reference and of sense', () => {
    const paths = faultsOf({
      'forms[0].count': 'two',
      'forms[1].colour': 'red',
      'pieces[7].recipe': 'bowl',
      'recipes[0].layers[0].depthMm': 70,
      zone: 'Moon/Base',
      units: undefined,
    }).map(({ path }) => path);
    expect(paths.sort()).toEqual([
      'forms[0].count',
      'forms[1].colour',
      'pieces[7].recipe',
      'recipes[0].layers[0].depthMm',
      'zone',
    ]);
  });

  it('has one fault for one slip: a faulty form does not make its pieces fit nowhere', () => {
    expect(faultsOf({ 'forms[1].count': 'one' }).map(({ path }) => path)).toEqual(['forms[1].count']);
    expect(faultsOf({ 'people[0].name': 7 }).map(({ path }) => path)).toEqual(['people[0].name']);
    expect(faultsOf({ 'resins[0].name': 7 }).map(({ path }) => path)).toEqual(['resins[0].name']);
    expect(faultsOf({ 'benches[0].name': 7 }).map(({ path }) => path)).toEqual(['benches[0].name']);
  });

  it('is told apart from what is no shop at all', () => {
    expect(parseShop('[]')).toEqual({
      ok: false,
      faults: [
        {
          path: 'shop file',
          found: 'a list of 0 entries',
          message: expect.stringContaining('an object') as string,
        },
      ],
    });
    expect(parseShop('null').ok).toBe(false);
    expect(parseShop('3').ok).toBe(false);
  });

  it('is sound again with a depth that the split gives', () => {
    const layer = { resin: 'quick-flood', depthMm: 3 };
    const file = edited({ 'recipes[0].layers': [layer, layer, layer] });
    expect(parseShop(JSON.stringify(file)).ok).toBe(true);
  });
});
