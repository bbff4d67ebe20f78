import { describe, expect, test } from 'vitest';
import { applyStepOf, stepBrief, stepTitle, volumeText } from '../../../src/ui/words/index.ts';

describe('amounts of the shop', () => {
  test('are written in the size that one thinks in', () => {
    expect(volumeText(420.4, 'metric')).toBe('420 mL');
    expect(volumeText(1250, 'metric')).toBe('1.25 L');
    // NIST Handbook 44, Appendix C: a US fluid ounce is 29.5735295625 mL.
    expect(volumeText(30 * 29.5735295625, 'us')).toBe('30.0 US fl oz');
  });
});

describe('steps in words', () => {
  test.each([
    ['prepare', 'prepare', 'Prepare wood and form'],
    ['seal-mix', 'mix', 'Mix the seal'],
    ['layer-2-mix', 'mix', 'Mix layer 2'],
    ['layer-2-pour', 'pour', 'Pour layer 2'],
    ['layer-1-bubbles-1', 'bubbles', 'Bubbles out of layer 1'],
    ['layer-1-bubbles-2', 'bubbles', 'Bubbles out of layer 1, pass 2'],
    ['coat-2', 'coat', 'Put on coat 2'],
    ['flip-2', 'flip', 'Flip for coat 2'],
  ] as const)('%s, a step of kind %s, is "%s"', (step, kind, title) => {
    expect(stepTitle({ step, kind })).toBe(title);
  });

  test.each([
    ['prepare', 'prepare', 'Prepare'],
    ['seal', 'seal', 'Seal'],
    ['layer-2-pour', 'pour', 'Pour 2'],
    ['layer-1-bubbles-2', 'bubbles', 'Bubbles'],
    ['coat-1', 'coat', 'Coat 1'],
  ] as const)('%s, a step of kind %s, is "%s" where there is little room', (step, kind, brief) => {
    expect(stepBrief({ step, kind })).toBe(brief);
  });

  test('every step around an application leads to it', () => {
    expect(['seal-mix', 'layer-2-mix', 'layer-2-scuff', 'coat-1-mix', 'coat-1'].map(applyStepOf)).toEqual([
      'seal',
      'layer-2-pour',
      'layer-2-pour',
      'coat-1',
      'coat-1',
    ]);
  });
});
