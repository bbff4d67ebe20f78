/** The names of the steps that a recipe's pieces go through, in order. */
import type { Recipe } from './schema/shop.ts';

const numbered = <T>(items: readonly T[], names: (item: T, k: number) => readonly string[]): string[] =>
  items.flatMap((item, index) => names(item, index + 1));

/** Every step that a piece of this recipe may have; scuffs are among them wherever a window can be missed. */
export function stepNames(recipe: Recipe): readonly string[] {
  const { seal, layers, coats } = recipe;
  const liesOver = (k: number): boolean => k > 1 || seal !== undefined;
  const flips = (k: number): boolean => k > 1 && coats[k - 1].face !== coats[k - 2].face;
  return [
    'prepare',
    ...(seal ? ['seal-mix', 'seal', 'seal-set'] : []),
    ...numbered(layers, (layer, k) => [
      ...(liesOver(k) ? [`layer-${k}-scuff`] : []),
      `layer-${k}-mix`,
      `layer-${k}-pour`,
      ...layer.bubblePasses.map((_, pass) => `layer-${k}-bubbles-${pass + 1}`),
      ...(k < layers.length ? [`layer-${k}-set`] : []),
    ]),
    'cure',
    'demold',
    'turnaround',
    'rest',
    ...(recipe.flatten ? ['flatten'] : []),
    ...(recipe.sand ? ['sand'] : []),
    ...numbered(coats, (_, k) => [
      ...(flips(k) ? [`flip-${k}`] : k > 1 ? [`coat-${k}-scuff`] : []),
      `coat-${k}-mix`,
      `coat-${k}`,
      ...(k < coats.length ? [`coat-${k}-set`] : []),
    ]),
    'full-cure',
    ...(recipe.finish ? ['finish'] : []),
    'ready',
  ];
}

const UNATTENDED = /^(seal-set|layer-\d+-set|coat-\d+-set|cure|rest|full-cure|ready)$/;

/** Whether hands are needed for the step; what needs none cannot be pinned. */
export const isAttended = (step: string): boolean => !UNATTENDED.test(step);

/** Whether the step lays resin on: only there can a finger tell how far the cure is. */
export const isApplication = (step: string): boolean => /^(seal|layer-\d+-pour|coat-\d+)$/.test(step);

/** Whether the step belongs to an application that may lie over another, met by recoat or by scuff. */
export function isOver(recipe: Recipe, step: string): boolean {
  const [, kind, number] = /^(layer|coat)-(\d+)(-|$)/.exec(step) ?? [];
  return kind !== undefined && stepNames(recipe).includes(`${kind}-${number}-scuff`);
}
