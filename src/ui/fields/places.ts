/** Where in the shop file a fault lies, matched to the field that holds it, or said in words when none does. */
import { ENTRY_NAMES, type Shop } from '../../engine/shop/index.ts';
import type { FileFault } from '../engine/index.ts';

/** The path of a field below its entry: `join('forms[2]', 'inside.lengthMm')`. */
export const joinPath = (base: string, path: string): string => {
  if (base === '' || path === '') return base + path;
  return path.startsWith('[') ? `${base}${path}` : `${base}.${path}`;
};

/** The faults that lie at the path itself. */
export const faultsAt = (faults: readonly FileFault[], path: string): readonly FileFault[] =>
  faults.filter((fault) => fault.path === path);

/** Whether a fault lies at the path or anywhere below it. */
export const isUnder = (fault: FileFault, path: string): boolean =>
  fault.path === path || fault.path.startsWith(`${path}.`) || fault.path.startsWith(`${path}[`);

/** A message of the file's reader as it fits a field: nobody types quotes there. */
export const fieldMessage = (message: string): string =>
  message.replace(/, without quotes\b/, '').replace(/ in quotes\b/, '');

const SECTION_WORDS: Readonly<Record<string, string>> = { ...ENTRY_NAMES, closures: 'closed days' };

type Named = { readonly name: string };

/** `forms[1].inside.depthMm` as `form "Tray form", inside, depth`: how a person would find it. */
export const pathWords = (path: string, shop: Shop | null): string => {
  const found = /^([a-zA-Z]+)\[(\d+)\](.*)$/.exec(path);
  if (!found) return fieldWords(path);
  const [, section, index, rest] = found;
  const entry = listOf(shop, section)[Number(index)];
  const kind = SECTION_WORDS[section] ?? section;
  const name = entry === undefined ? `${kind} ${Number(index) + 1}` : `${kind} “${entry.name}”`;
  const where = fieldWords(rest.replace(/^\./, ''));
  return where === '' ? name : `${name}, ${where}`;
};

const listOf = (shop: Shop | null, section: string): readonly Named[] => {
  if (!shop) return [];
  const { rooms, people, forms, benches, warmBoxes, tools, resins, recipes, pieces } = shop;
  const lists: Readonly<Record<string, readonly Named[]>> = {
    rooms,
    people,
    forms,
    benches,
    warmBoxes,
    tools,
    resins,
    recipes,
    pieces,
  };
  return lists[section] ?? [];
};

/** `layers[0].largestDepthMm` as `layer 1, largest depth`; units are left out. */
const fieldWords = (path: string): string =>
  path
    .split(/\.|(?=\[)/)
    .filter((part) => part !== '')
    .reduce<string[]>((words, part) => {
      const index = /^\[(\d+)\]$/.exec(part);
      const last = words.at(-1);
      if (index && last !== undefined)
        return [...words.slice(0, -1), `${last.replace(/s$/, '')} ${Number(index[1]) + 1}`];
      return [...words, spaced(part)];
    }, [])
    .join(', ');

const spaced = (key: string): string =>
  key
    .replace(/(KJPerMol|GPerMl|PerM2|Mm|DegC|Ml|CM2|Cm2|Percent|Minutes|MinutesPerM2)$/, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();
