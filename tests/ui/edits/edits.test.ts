import { describe, expect, test } from 'vitest';
import { parseShop, type Plan } from '../../../src/engine/index.ts';
import {
  beginStep,
  chooseWay,
  endStep,
  forgetActual,
  forgetAhead,
  pinStep,
  pinWhole,
  swapForms,
  toggleWholePin,
  together,
  touchSurface,
  unpinStep,
  unpinWhole,
  wishForms,
} from '../../../src/ui/edits/index.ts';
import { planned, shopOf } from '../small-shop.ts';

const shop = shopOf();
const wren = (changed = shop) => changed.pieces[0];
const T = (time: string): string => `2026-11-26T${time}+01:00`;

describe('edits make a new shop and leave the old one', () => {
  test('what an edit makes still reads as a shop file', () => {
    const edits = together(
      [
        beginStep('wren', 'prepare', T('09:00'), { form: 'tray', bench: 'bench', person: 'ada' }, ''),
        touchSurface('wren', 'seal', T('10:00'), 'wet', ''),
        pinStep('robin', 'layer-1-mix', T('18:00'), ''),
        chooseWay('robin', 'layer-2-pour', 'scuff', ''),
        wishForms('robin', ['tray'], ''),
      ],
      'all',
    );
    const before = JSON.stringify(shop);
    const read = parseShop(JSON.stringify(edits.apply(shop)));
    expect(read.ok ? [] : read.faults).toEqual([]);
    expect(JSON.stringify(shop)).toBe(before);
  });

  test('beginning a step writes when and where, and takes out the pin that brought it there', () => {
    const pinned = pinStep('wren', 'prepare', T('09:00'), '').apply(shop);
    const begun = beginStep('wren', 'prepare', T('09:02'), { form: 'tray' }, '').apply(pinned);
    expect(wren(begun).actuals).toEqual([{ step: 'prepare', started: T('09:02'), form: 'tray' }]);
    expect(wren(begun).pins).toEqual([]);
  });

  test('what is written down for a time that has not come is taken back, and nothing else', () => {
    const written = together(
      [
        endStep('wren', 'prepare', T('09:30'), T('09:00'), {}, ''),
        endStep('wren', 'seal', T('11:00'), T('09:40'), {}, ''),
        beginStep('wren', 'layer-1-mix', T('11:10'), {}, ''),
        touchSurface('wren', 'seal', T('09:50'), 'wet', ''),
        touchSurface('wren', 'seal', T('11:05'), 'tacky', ''),
        // Nobody asked for these.
        beginStep('wren', 'demold', T('12:00'), {}, ''),
        touchSurface('wren', 'layer-1-pour', T('11:30'), 'wet', ''),
      ],
      '',
    ).apply(shop);
    const steps = ['prepare', 'seal', 'layer-1-mix'].map((step) => ({ piece: 'wren', step }));
    const left = wren(forgetAhead(steps, (moment) => moment > T('10:00'), '').apply(written));
    expect(left.actuals).toEqual([
      { step: 'prepare', started: T('09:00'), ended: T('09:30') },
      { step: 'seal', started: T('09:40') },
      { step: 'demold', started: T('12:00') },
    ]);
    expect(left.touchTests.map(({ at }) => at)).toEqual([T('09:50'), T('11:30')]);
  });

  test('a surface touched twice in a minute was found as it was found last', () => {
    const touched = together(
      [
        touchSurface('wren', 'seal', T('09:50'), 'wet', ''),
        touchSurface('wren', 'seal', T('10:10'), 'wet', ''),
        touchSurface('wren', 'layer-1-pour', T('10:10'), 'wet', ''),
        touchSurface('wren', 'seal', T('10:10'), 'tacky', ''),
      ],
      '',
    ).apply(shop);
    expect(wren(touched).touchTests).toEqual([
      { step: 'seal', at: T('09:50'), found: 'wet' },
      { step: 'layer-1-pour', at: T('10:10'), found: 'wet' },
      { step: 'seal', at: T('10:10'), found: 'tacky' },
    ]);
  });

  test('a mix that ends goes into its pour in the same minute', () => {
    const mixing = beginStep('wren', 'layer-1-mix', T('18:00'), {}, '').apply(shop);
    const pouring = endStep('wren', 'layer-1-mix', T('18:06'), T('18:06'), {}, '', 'layer-1-pour').apply(
      mixing,
    );
    expect(wren(pouring).actuals).toEqual([
      { step: 'layer-1-mix', started: T('18:00'), ended: T('18:06') },
      { step: 'layer-1-pour', started: T('18:06') },
    ]);
  });

  test('a step that was never begun is taken to have begun when it must have', () => {
    const done = endStep('wren', 'prepare', T('10:00'), T('09:00'), {}, '').apply(shop);
    expect(wren(done).actuals).toEqual([{ step: 'prepare', started: T('09:00'), ended: T('10:00') }]);
    expect(wren(forgetActual('wren', 'prepare', '').apply(done)).actuals).toEqual([]);
  });

  test('unpinning keeps how the window is met', () => {
    const scuffed = chooseWay('wren', 'layer-2-pour', 'scuff', '').apply(shop);
    const pinned = pinStep('wren', 'layer-2-pour', T('18:00'), '').apply(scuffed);
    expect(wren(unpinStep('wren', 'layer-2-pour', '').apply(pinned)).pins).toEqual([
      { step: 'layer-2-pour', way: 'scuff' },
    ]);
    const more = pinStep('wren', 'demold', T('19:00'), '').apply(pinned);
    expect(wren(unpinWhole('wren', '').apply(more)).pins).toEqual([{ step: 'layer-2-pour', way: 'scuff' }]);
  });

  test('unpinning a step that had nothing but its time leaves no empty pin behind', () => {
    const pinned = pinStep('wren', 'demold', T('18:00'), '').apply(shop);
    expect(wren(unpinStep('wren', 'demold', '').apply(pinned)).pins).toEqual([]);
  });

  test('a whole piece is pinned step by step, and each pin once', () => {
    const steps = [
      { step: 'prepare', at: T('09:00') },
      { step: 'demold', at: T('18:00') },
    ];
    const twice = pinWhole('wren', steps, '').apply(pinWhole('wren', steps, '').apply(shop));
    expect(wren(twice).pins.map((pin) => pin.step)).toEqual(['prepare', 'demold']);
  });

  test('one touch pins all of a piece that hands have yet to do, and another lets go of it', () => {
    const { plan } = planned();
    const done: Plan = {
      ...plan,
      steps: plan.steps.map((step) => (step.step === 'prepare' ? { ...step, state: 'done' } : step)),
    };
    const pinned = toggleWholePin(wren(), done).apply(shop);
    const steps = plan.steps.filter(({ piece, people }) => piece === 'wren' && people.length > 0);
    expect(wren(pinned).pins.map(({ step, at }) => [step, at])).toEqual(
      steps.filter(({ step }) => step !== 'prepare').map(({ step, start }) => [step, start]),
    );
    expect(pinned.pieces[1]).toBe(shop.pieces[1]);
    expect(wren(toggleWholePin(wren(pinned), done).apply(pinned)).pins).toEqual([]);
    expect(wren(toggleWholePin(wren(), null).apply(shop)).pins).toEqual([]);
  });

  test('two pieces swap the kinds of form they are cast in', () => {
    const swapped = swapForms({ piece: 'wren', form: 'tray' }, { piece: 'robin', form: 'slab' }, '').apply(
      shop,
    );
    expect(swapped.pieces.map((piece) => piece.forms)).toEqual([['slab'], ['tray']]);
  });

  test('an edit of a piece that is gone changes nothing', () => {
    expect(pinStep('nobody', 'prepare', T('09:00'), '').apply(shop)).toBe(shop);
  });
});
