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
