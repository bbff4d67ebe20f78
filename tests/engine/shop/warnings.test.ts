import { describe, expect, it } from 'vitest';
import { warningsOf } from './shop-edits.ts';

type Case = readonly [title: string, edits: Record<string, unknown>, path: string, why: string];

const WITH_BOX = (setDegC: number, room = 'shed', areaCm2 = 9000): Record<string, unknown> => ({
  warmBoxes: [{ id: 'box', name: 'Box', room, setDegC, areaCm2 }],
});

const ODD: readonly Case[] = [
  [
    '2:1 by mass with equal densities',
    { 'resins[0].mix': { by: 'mass', a: 2, b: 1, densityAGPerMl: 1.1, densityBGPerMl: 1.1 } },
    'resins[0].mix.by',
    '2:1 with equal densities',
  ],
  // 2 x 0.95 / 1.10, by the densities of the worked example of mass and volume in the design's published values.
  ['2:1 by mass', { 'resins[0].mix.by': 'mass' }, 'resins[0].mix.by', '2:1 by mass is 1.73:1 by volume'],
  ['more hardener than resin', { 'resins[0].mix.a': 0.5 }, 'resins[0].mix.a', 'swapped'],
  [
    'a steep activation energy',
    { 'resins[0].activationEnergyKJPerMol': 75 },
    'resins[0].activationEnergyKJPerMol',
    '43 to 60',
  ],
  [
    'a second point that fits a flat activation energy',
    { 'resins[2].secondPoint': { degC: 33, tackOpensMinutes: 50 } },
    'resins[2].secondPoint.tackOpensMinutes',
    'fits an activation energy of 13.7 kJ/mol',
  ],
  [
    'a second point beside an activation energy',
    { 'resins[0].secondPoint': { degC: 33, tackOpensMinutes: 720 } },
    'resins[0].secondPoint',
    'not used',
  ],
  [
    'a narrow window',
    { 'resins[1].tackClosesMinutes': 260 },
    'resins[1].tackClosesMinutes',
    'only 20 minutes',
  ],
  [
    'machining before demolding',
    { 'resins[0].machinableMinutes': 4000 },
    'resins[0].machinableMinutes',
    'less than demoldMinutes',
  ],
  [
    'a mix that outlasts its pour',
    { 'resins[2].workingTime.minutes': 60 },
    'resins[2].workingTime.minutes',
    'not less than tackOpensMinutes',
  ],
  [
    'times stated for a heat that is not allowed',
    { 'resins[0].referenceDegC': 35 },
    'resins[0].referenceDegC',
    'outside 15 to 28 degC',
  ],
  [
    'a warm box hotter than the resin bears',
    WITH_BOX(40),
    'warmBoxes[0].setDegC',
    'above the highest temperature of "tarn-slow", 28 degC',
  ],
  [
    'a warm box colder than the resin needs',
    WITH_BOX(12),
    'warmBoxes[0].setDegC',
    'below the lowest temperature',
  ],
  ['a warm box away from every bench', WITH_BOX(25, 'lean-to'), 'warmBoxes[0].room', 'no bench'],
  ['a warm box smaller than every form', WITH_BOX(25, 'shed', 700), 'warmBoxes[0].areaCm2', 'no form fits'],
  [
    'nights warmer than days',
    { 'rooms[1].temperature.pattern.nightLowDegC': 20 },
    'rooms[1].temperature.pattern.nightLowDegC',
    'above dayHighDegC',
  ],
  [
    'heating that does nothing',
    { 'rooms[0].temperature.pattern.heating[0].degC': 10 },
    'rooms[0].temperature.pattern.heating[0].degC',
    'does nothing',
  ],
  [
    'hours around the clock',
    { 'people[1].hours[0].to': '10:00' },
    'people[1].hours[0].to',
    'a whole day and night',
  ],
  ['a helper who can do nothing', { 'people[1].can': [] }, 'people[1].can', 'can do nothing'],
  [
    'due before it may begin',
    { 'pieces[0].earliest': '2026-12-20' },
    'pieces[0].due',
    'not after "earliest"',
  ],
  [
    'wood that fills the layer',
    { 'recipes[0].layers[0].wood.coverPercent': 100 },
    'recipes[0].layers[0].wood.coverPercent',
    'no resin',
  ],
  ['a layer of seal', { 'resins[0].kind': 'seal' }, 'recipes[0].layers[0].resin', 'this resin is a seal'],
  ['a coat of casting resin', { 'resins[1].kind': 'casting' }, 'recipes[0].coats[0].resin', 'for casting'],
  [
    'a pour longer than the working time',
    { 'recipes[0].layers[1].pour.minutes': 30 },
    'recipes[0].layers[1]',
    'working time of "quick-flood", 25 minutes',
  ],
  ['demolding in no time', { 'recipes[0].demold.work': {} }, 'recipes[0].demold.work', 'no time'],
  [
    'a skill nobody has, for a recipe nobody ordered',
    {
      'people[0].can': ['prepare', 'pour', 'demold', 'sand', 'flatten'],
      'recipes[0].finish': undefined,
      'recipes[1].finish': undefined,
      'recipes[2]': {
        id: 'bowl',
        name: 'Bowl',
        prepare: { work: { minutes: 9 } },
        layers: [{ resin: 'tarn-slow', depthMm: 9 }],
        demold: { work: { minutes: 9 } },
        finish: { work: { minutes: 9 } },
      },
    },
    'recipes[2].finish',
    'nobody has "finish"',
  ],
  [
    'nobody to scuff',
    {
      'people[0].can': ['prepare', 'pour', 'demold', 'flatten', 'finish'],
      'people[1].can': ['pour'],
      'recipes[0].sand': undefined,
      'recipes[1].sand': undefined,
    },
    'recipes[0].scuff',
    'can then not be scuffed',
  ],
  [
    'a touch test of a pour not yet told',
    { 'pieces[0].touchTests': [{ step: 'layer-1-pour', at: '2026-11-24T09:00', found: 'tacky' }] },
    'pieces[0].touchTests[0].step',
    'has no actual yet',
  ],
];

describe('a value that is legal but odd', () => {
  it.each(ODD)('is let pass with a warning: %s', (_title, edits, path, why) => {
    expect(warningsOf(edits)).toContainEqual(
      expect.objectContaining({ path, message: expect.stringContaining(why) as string }),
    );
  });

  it('is not seen where there is none', () => {
    expect(warningsOf({})).toEqual([]);
    expect(warningsOf(WITH_BOX(25))).toEqual([]);
    // What UFGS-09971 section 3.7 says of pot life, about 51.6 kJ/mol, is no odd activation energy.
    expect(warningsOf({ 'resins[0].activationEnergyKJPerMol': 51.6 })).toEqual([]);
  });

  it('begins beyond the bounds that are told, not at them', () => {
    for (const usual of [43, 60])
      expect(warningsOf({ 'resins[0].activationEnergyKJPerMol': usual })).toEqual([]);
    for (const odd of [42.9, 60.1])
      expect(warningsOf({ 'resins[0].activationEnergyKJPerMol': odd })).toHaveLength(1);
    for (const a of [1, 10]) expect(warningsOf({ 'resins[0].mix.a': a, 'resins[0].mix.b': 1 })).toEqual([]);
    for (const a of [0.9, 10.1])
      expect(warningsOf({ 'resins[0].mix.a': a, 'resins[0].mix.b': 1 })).toHaveLength(1);
  });
});
