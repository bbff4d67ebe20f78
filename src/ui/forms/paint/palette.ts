/** The colours of the tokens, read once a theme for painting. */
const NAMES = [
  'ground',
  'panel',
  'sunk',
  'ink',
  'ink-soft',
  'line',
  'wood-pale',
  'wood',
  'wood-deep',
  'wood-dark',
  'wet-deep',
  'wet',
  'tacky',
  'tacky-pale',
  'hard',
  'hard-pale',
  'act',
  'act-ink',
  'late',
  'late-ground',
  'night',
  'closed',
  'air',
  'now',
  'open-place',
] as const;

type Name = (typeof NAMES)[number];
export type Palette = Readonly<Record<Name, string>> & { readonly type: string };

export const readPalette = (element: Element): Palette => {
  const style = getComputedStyle(element);
  const colours = Object.fromEntries(
    NAMES.map((name) => [name, style.getPropertyValue(`--${name}`).trim()]),
  ) as Record<Name, string>;
  return { ...colours, type: style.getPropertyValue('--type').trim() };
};
