/** The steps of a piece in plain words. */
import type { StepKind } from '../../engine/plan/document.ts';

interface StepName {
  readonly step: string;
  readonly kind: StepKind;
}

/** The number in a step's name: 2 for "layer-2-pour", null when there is none. */
export const numberOf = (step: string): number | null => {
  const found = /-(\d+)/.exec(step);
  return found ? Number(found[1]) : null;
};

const onto = (step: string): string => {
  if (step.startsWith('seal')) return 'the seal';
  const number = numberOf(step);
  return step.startsWith('coat') ? `coat ${number}` : `layer ${number}`;
};

const passOf = (step: string): string => {
  const pass = /-bubbles-(\d+)$/.exec(step)?.[1];
  return pass === undefined || pass === '1' ? '' : `, pass ${pass}`;
};

const SAY: Readonly<Record<StepKind, (step: string) => string>> = {
  prepare: () => 'Prepare wood and form',
  mix: (step) => `Mix ${onto(step)}`,
  seal: () => 'Brush on the seal',
  pour: (step) => `Pour ${onto(step)}`,
  bubbles: (step) => `Bubbles out of ${onto(step)}${passOf(step)}`,
  coat: (step) => `Put on ${onto(step)}`,
  scuff: (step) => `Scuff before ${onto(step)}`,
  set: (step) => `${capital(onto(step))} sets`,
  cure: (step) => (step === 'full-cure' ? 'Cures fully' : 'Cures in the form'),
  demold: () => 'Demold',
  turnaround: () => 'Clean the form',
  rest: () => 'Rests until it can be machined',
  flatten: () => 'Flatten',
  sand: () => 'Sand',
  flip: (step) => `Flip for coat ${numberOf(step)}`,
  finish: () => 'Finish',
  ready: () => 'Ready',
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "Pour layer 2", "Brush on the seal", "Cures in the form". */
export const stepTitle = ({ step, kind }: StepName): string => SAY[kind](step);

const BRIEF: Readonly<Record<StepKind, string>> = {
  prepare: 'Prepare',
  mix: 'Mix',
  seal: 'Seal',
  pour: 'Pour',
  bubbles: 'Bubbles',
  coat: 'Coat',
  scuff: 'Scuff',
  set: 'Set',
  cure: 'Cure',
  demold: 'Demold',
  turnaround: 'Clean',
  rest: 'Rest',
  flatten: 'Flatten',
  sand: 'Sand',
  flip: 'Flip',
  finish: 'Finish',
  ready: 'Ready',
};

/** "Pour 2", "Coat 1", "Bubbles": where there is room for a word and the number of what goes on. */
export const stepBrief = ({ step, kind }: StepName): string =>
  kind === 'pour' || kind === 'coat' || kind === 'mix'
    ? `${BRIEF[kind]} ${numberOf(step) ?? ''}`.trim()
    : BRIEF[kind];

/** The application whose window a step needs or that a mix is for: "layer-2-pour" for "layer-2-mix". */
export const applyStepOf = (step: string): string => {
  if (step.startsWith('seal')) return 'seal';
  const coat = /^coat-\d+/.exec(step);
  if (coat) return coat[0];
  const layer = /^layer-\d+/.exec(step);
  return layer ? `${layer[0]}-pour` : step;
};

/** The mix that an application needs: "layer-2-mix" for "layer-2-pour". */
export const mixStepOf = (apply: string): string => `${apply.replace(/-pour$/, '')}-mix`;

/** "the seal", "layer 2", "coat 1" for an apply step or any step around it. */
export const applicationWords = (step: string): string => onto(step);
