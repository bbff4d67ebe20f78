/** The lists of a shop and the edits that put, add and take away their entries. */
import type { Shop } from '../../../engine/shop/index.ts';
import type { Edit } from '../../edits/index.ts';
import type { Engine, FileFault } from '../../engine/index.ts';
import type { Session } from '../../state/index.ts';

export type Section =
  'rooms' | 'people' | 'forms' | 'benches' | 'warmBoxes' | 'tools' | 'resins' | 'recipes' | 'pieces';
export type EntryOf<S extends Section> = Shop[S][number];

/** The shop with the entry of this id exchanged, or added when there is none yet. */
export const putEntry = <S extends Section>(shop: Shop, section: S, entry: EntryOf<S>): Shop => {
  const list: readonly EntryOf<Section>[] = shop[section];
  const at = list.findIndex(({ id }) => id === entry.id);
  const next = at < 0 ? [...list, entry] : list.map((known, n) => (n === at ? entry : known));
  return { ...shop, [section]: next };
};

export const withoutEntry = (shop: Shop, section: Section, id: string): Shop => {
  const list: readonly EntryOf<Section>[] = shop[section];
  return { ...shop, [section]: list.filter((entry) => entry.id !== id) };
};

export const entryIn = <S extends Section>(shop: Shop, section: S, id: string): EntryOf<S> | undefined => {
  const list: readonly EntryOf<S>[] = shop[section];
  return list.find((entry) => entry.id === id);
};

/** Where the entry lies in the file: `forms[2]`; for a new one, behind the last. */
export const pathOf = (shop: Shop, section: Section, id: string): string => {
  const list: readonly EntryOf<Section>[] = shop[section];
  const at = list.findIndex((entry) => entry.id === id);
  return `${section}[${at < 0 ? list.length : at}]`;
};

/** What the engine says of the shop as the edit would leave it. */
export const judge = async (
  engine: Engine,
  shop: Shop,
): Promise<{ readonly faults: readonly FileFault[]; readonly shop: Shop | null }> => {
  const read = await engine.ask('open', { text: JSON.stringify(shop) });
  return read.ok ? { faults: [], shop: read.shop } : { faults: read.faults, shop: null };
};

/** Does the edit when the shop file stays whole; else does nothing and tells every fault. */
export const tryEdit = async (session: Session, edit: Edit): Promise<readonly FileFault[]> => {
  const shop = session.shop();
  if (!shop) return [];
  const { faults } = await judge(session.engine, edit.apply(shop));
  if (faults.length === 0) session.edit(edit);
  return faults;
};
