/** The sheet of one entry of the shop's lists. */
import type { Accessor, JSX } from 'solid-js';
import type { Plan } from '../../../engine/plan/document.ts';
import type { Shop } from '../../../engine/shop/index.ts';
import { idFor } from '../../fields/index.ts';
import { entryIn, pathOf, putEntry, withoutEntry, type EntryOf, type Section } from '../model/sections.ts';
import { DraftSheet, type DraftSheetProps } from './draft-sheet.tsx';

export interface Opened<S extends Section> {
  readonly entry: EntryOf<S>;
  /** Not yet in the shop. */
  readonly fresh: boolean;
}

export const EntrySheet = <S extends Section>(props: {
  readonly section: S;
  readonly opened: Opened<S>;
  /** What one of them is called: `form`. */
  readonly noun: string;
  readonly close: () => void;
  /** Opens a new sheet that begins with this entry. */
  readonly another?: (entry: EntryOf<S>) => void;
  /** A plan found for the shop with this entry, if there is one. */
  readonly known?: (entry: EntryOf<S>) => Plan | undefined;
  readonly below?: DraftSheetProps<EntryOf<S>>['below'];
  readonly children: (draft: Accessor<EntryOf<S>>, change: (next: EntryOf<S>) => void) => JSX.Element;
}): JSX.Element => {
  /** A new entry gets its short name from what it is called. */
  const named = (entry: EntryOf<S>, shop: Shop): EntryOf<S> => {
    if (!props.opened.fresh) return entry;
    const list: readonly EntryOf<Section>[] = shop[props.section];
    return {
      ...entry,
      id: idFor(
        entry.name,
        list.map(({ id }) => id),
        props.noun.replace(/\s+/g, '-'),
      ),
    };
  };
  return (
    <DraftSheet<EntryOf<S>>
      title={props.opened.fresh ? `A new ${props.noun}` : props.opened.entry.name}
      initial={props.opened.entry}
      base={(draft, shop) => pathOf(shop, props.section, named(draft, shop).id)}
      put={(draft, shop) => putEntry(shop, props.section, named(draft, shop))}
      edit={(draft, read) => {
        // The new one is the last: the file keeps its order.
        const list: readonly EntryOf<S>[] = read[props.section];
        const entry = props.opened.fresh
          ? list[list.length - 1]
          : (entryIn(read, props.section, draft.id) ?? draft);
        return {
          says: `${props.opened.fresh ? 'add' : 'change'} the ${props.noun} “${entry.name}”`,
          apply: (shop) => putEntry(shop, props.section, entry),
          known: props.known?.(entry),
        };
      }}
      saveWords={props.opened.fresh ? `Add the ${props.noun}` : 'Save'}
      close={props.close}
      another={props.opened.fresh ? undefined : props.another}
      below={props.below}
      remove={
        props.opened.fresh
          ? undefined
          : {
              says: `remove the ${props.noun} “${props.opened.entry.name}”`,
              apply: (shop) => withoutEntry(shop, props.section, props.opened.entry.id),
            }
      }
    >
      {props.children}
    </DraftSheet>
  );
};
