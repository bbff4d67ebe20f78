import { expect, test } from 'vitest';
import { planPage } from '../../../src/cli/page/index.ts';
import { plan, smallShop, step } from './small-plan.ts';

const plain = (text: string) => text;
const page = { width: 100, paint: { strong: plain, alarm: plain, faint: plain } };

test('a remark names the piece that it is about', () => {
  const made = plan([step('elm', 'demold', 'demold', ['03-05T08:00', '03-05T08:10'])]);
  const notes = [
    { kind: 'missed-pass', piece: 'elm', step: 'layer-1-bubbles-1', text: 'layer 1 has set' },
    { kind: 'other', text: 'about all of it' },
  ];
  const lines = planPage(smallShop(), { ...made, notes }, page).split('\n');
  expect(lines).toContain('  Elm tray: layer 1 has set');
  expect(lines).toContain('  about all of it');
});

test('of work written down ahead it is not said that no plan can exist, nor that anything clashes', () => {
  const text = 'demolding is written down as begun Thu 2 Apr 08:00';
  const refused = {
    ...plan([]),
    status: 'infeasible' as const,
    clash: [`Elm tray - ${text}`],
    notes: [{ kind: 'ahead', piece: 'elm', step: 'demold', text }],
  };
  const said = planPage(smallShop(), refused, page);
  expect(said).toContain('No plan is made.');
  expect(said).toContain(`This is written down for a time still to come:\n  - Elm tray - ${text}`);
  expect(planPage(smallShop(), { ...refused, notes: [] }, page)).toContain('These cannot all hold:');
});
