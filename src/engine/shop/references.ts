/** Names that point at other entries of the file, and names given twice. */
import type { Draft, Section } from './draft.ts';
import { fault, listOf, nearest, type Fault, type PathKey } from './faults.ts';

/** What one entry of each list is called. */
export const ENTRY_NAMES: Readonly<Record<Section, string>> = {
  rooms: 'room',
  people: 'person',
  closures: 'closure',
  forms: 'form',
  benches: 'bench',
  warmBoxes: 'warm box',
  tools: 'tool',
  resins: 'resin',
  recipes: 'recipe',
  pieces: 'piece',
};

const NAMED: readonly Section[] = [
  'rooms',
  'people',
  'forms',
  'benches',
  'warmBoxes',
  'tools',
  'resins',
  'recipes',
  'pieces',
];

/** Every id given twice, and every reference to an id that the file does not have. */
export function referenceFaults(draft: Draft): Fault[] {
  return [...NAMED.flatMap((section) => doubles(draft, section)), ...dangling(draft)];
}

function doubles(draft: Draft, section: Section): Fault[] {
  const first = new Map<string, number>();
  return draft[section].flatMap(({ index, entry }) => {
    if (!('id' in entry)) return [];
    const earlier = first.get(entry.id);
    if (earlier === undefined) {
      first.set(entry.id, index);
      return [];
    }
    const message = `${section}[${earlier}] has this id already; every ${ENTRY_NAMES[section]} needs an id of its own`;
    return [fault([section, index, 'id'], entry.id, message)];
  });
}

function dangling(draft: Draft): Fault[] {
  const faults: Fault[] = [];
  const refer = (section: Section, id: string | undefined, ...path: PathKey[]): void => {
    const ids = draft.ids(section);
    if (id === undefined || ids.includes(id)) return;
    const meant = nearest(id, ids);
    const there = ids.length > 0 ? `the file has ${listOf(ids)}` : `the file lists no ${section}`;
    const suggestion = meant === undefined ? '' : `; did you mean "${meant}"?`;
    faults.push(fault(path, id, `no ${ENTRY_NAMES[section]} has this id; ${there}${suggestion}`));
  };

  for (const section of ['benches', 'warmBoxes', 'tools'] as const) {
    for (const { index, entry } of draft[section]) refer('rooms', entry.room, section, index, 'room');
  }
  for (const { index, entry: recipe } of draft.recipes) {
    refer('resins', recipe.seal?.resin, 'recipes', index, 'seal', 'resin');
    recipe.layers.forEach((layer, k) => refer('resins', layer.resin, 'recipes', index, 'layers', k, 'resin'));
    recipe.coats.forEach((coat, k) => refer('resins', coat.resin, 'recipes', index, 'coats', k, 'resin'));
    refer('tools', recipe.flatten?.tool, 'recipes', index, 'flatten', 'tool');
    refer('tools', recipe.sand?.tool, 'recipes', index, 'sand', 'tool');
  }
  for (const { index, entry: piece } of draft.pieces) {
    refer('recipes', piece.recipe, 'pieces', index, 'recipe');
    piece.forms?.forEach((form, k) => refer('forms', form, 'pieces', index, 'forms', k));
    piece.actuals.forEach((actual, k) => {
      const at = ['pieces', index, 'actuals', k] as const;
      refer('people', actual.person, ...at, 'person');
      refer('forms', actual.form, ...at, 'form');
      refer('benches', actual.bench, ...at, 'bench');
      refer('warmBoxes', actual.warmBox, ...at, 'warmBox');
    });
  }
  return faults;
}
