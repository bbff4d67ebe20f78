/**
 * What can be read of a shop file that may still have faults: every entry that has its right shape, at its place.
 * So the meaning of the sound entries is judged in the same round as the shape of the others.
 */
import * as v from 'valibot';
import { isKeyed } from './schema-node.ts';
import { timeOff, type Frozen } from './schema/basics.ts';
import { person } from './schema/person.ts';
import { piece } from './schema/piece.ts';
import { bench, form, room, tool, warmBox } from './schema/place.ts';
import { recipe } from './schema/recipe.ts';
import { resin } from './schema/resin.ts';

const ENTRIES = {
  rooms: room,
  people: person,
  closures: timeOff,
  forms: form,
  benches: bench,
  warmBoxes: warmBox,
  tools: tool,
  resins: resin,
  recipes: recipe,
  pieces: piece,
} as const;

export type Section = keyof typeof ENTRIES;
export type EntryOf<S extends Section> = Frozen<v.InferOutput<(typeof ENTRIES)[S]>>;

/** An entry and its index in the file's list. */
export interface Placed<T> {
  readonly index: number;
  readonly entry: T;
}

export type Draft = { readonly [S in Section]: readonly Placed<EntryOf<S>>[] } & {
  /** The zone as written; undefined when it is no text. */
  readonly zone: string | undefined;
  /** The ids of a section, those of faulty entries as well, so that one fault does not bring forth others. */
  readonly ids: (section: Section) => readonly string[];
  /** Whether every entry of the section could be read: only then is it known what it lacks. */
  readonly whole: (section: Section) => boolean;
};

/** Reads what can be read of `value`. */
export function draftOf(value: unknown): Draft {
  const listed = (section: Section): readonly unknown[] => {
    const list = isKeyed(value) ? value[section] : undefined;
    return Array.isArray(list) ? list : [];
  };
  const sound = <S extends Section>(section: S, schema: (typeof ENTRIES)[S]): Placed<EntryOf<S>>[] =>
    listed(section).flatMap((each, index) => {
      const read = v.safeParse<(typeof ENTRIES)[S]>(schema, each);
      return read.success ? [{ index, entry: read.output as EntryOf<S> }] : [];
    });
  const draft = {
    rooms: sound('rooms', ENTRIES.rooms),
    people: sound('people', ENTRIES.people),
    closures: sound('closures', ENTRIES.closures),
    forms: sound('forms', ENTRIES.forms),
    benches: sound('benches', ENTRIES.benches),
    warmBoxes: sound('warmBoxes', ENTRIES.warmBoxes),
    tools: sound('tools', ENTRIES.tools),
    resins: sound('resins', ENTRIES.resins),
    recipes: sound('recipes', ENTRIES.recipes),
    pieces: sound('pieces', ENTRIES.pieces),
  };
  return {
    ...draft,
    zone: isKeyed(value) && typeof value.zone === 'string' ? value.zone : undefined,
    ids: (section) =>
      listed(section).flatMap((each) => (isKeyed(each) && typeof each.id === 'string' ? [each.id] : [])),
    whole: (section) => draft[section].length === listed(section).length,
  };
}

/** The first sound entry with this id. */
export const entryOf = <T extends { readonly id: string }>(
  entries: readonly Placed<T>[],
  id: string,
): T | undefined => entries.find(({ entry }) => entry.id === id)?.entry;
