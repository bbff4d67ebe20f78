/** Every rule of the shop. To add one: write its file here and its twin in `check/`, and name it in both lists. */
import { air } from './air.ts';
import { bench } from './bench.ts';
import { bubbles } from './bubbles.ts';
import { cure } from './cure.ts';
import { dust } from './dust.ts';
import { form } from './form.ts';
import { hands } from './hands.ts';
import { hours } from './hours.ts';
import { cups, dueTimes, early, visits } from './objective.ts';
import { order } from './order.ts';
import type { Rule } from './rule.ts';
import { tool } from './tool.ts';
import { warmBox } from './warm-box.ts';
import { window } from './window.ts';

export const RULES: readonly Rule[] = [
  order,
  hours,
  hands,
  bubbles,
  window,
  cure,
  air,
  form,
  bench,
  warmBox,
  tool,
  dust,
  dueTimes,
  visits,
  cups,
  early,
];
