/**
 * The states of the shop, one edit after the other. Of an earlier visit only the words are known at first: the shop as
 * it was is read from the device once it is wanted.
 */
import type { Shop } from '../../engine/shop/index.ts';
import { KEPT_STATES, type StateName } from '../storage/index.ts';
import { advance, beginHistory, type Entry, type History } from './history.ts';

export interface State {
  /** Counted from the first state; neighbours differ by one. */
  readonly position: number;
  /** null: on the device, and not read yet. */
  readonly shop: Shop | null;
}

export type Line = History<State>;

export const beginLine = (shop: Shop): Line => beginHistory({ position: 0, shop });

export const lengthen = (line: Line, shop: Shop, says: string): Line =>
  advance(line, { position: line.present.value.position + 1, shop }, says);

export const nameOf = ({ value, says }: Entry<State>): StateName => ({ position: value.position, says });

/** The line with its present state read. */
export const withShop = (line: Line, shop: Shop): Line => ({
  ...line,
  present: { ...line.present, value: { ...line.present.value, shop } },
});

/** The line as it is kept: no more states than the device has room for. */
export const lineText = ({ past, present, future }: Line): string => {
  const saying = (entries: readonly Entry<State>[]): string[] => entries.map(({ says }) => says);
  const after = future.slice(0, KEPT_STATES - 1);
  const room = KEPT_STATES - 1 - after.length;
  return JSON.stringify({
    position: present.value.position,
    past: saying(past.slice(past.length - Math.min(room, past.length))),
    says: present.says,
    future: saying(after),
  });
};

/** The line that a kept text tells of, with `shop` as its present state; nothing but that where it cannot be read. */
export const readLine = (text: string | null, shop: Shop): Line => {
  const kept = text === null ? null : parsed(text);
  if (!kept) return beginLine(shop);
  const { position, past, says, future } = kept;
  const unread = (words: readonly string[], first: number): Entry<State>[] =>
    words.map((word, k) => ({ value: { position: first + k, shop: null }, says: word }));
  return {
    past: unread(past, position - past.length),
    present: { value: { position, shop }, says },
    future: unread(future, position + 1),
  };
};

interface KeptLine {
  readonly position: number;
  readonly past: readonly string[];
  readonly says: string;
  readonly future: readonly string[];
}

const parsed = (text: string): KeptLine | null => {
  try {
    const read: unknown = JSON.parse(text);
    return isKeptLine(read) ? read : null;
  } catch {
    return null;
  }
};

const isKeptLine = (read: unknown): read is KeptLine => {
  if (typeof read !== 'object' || read === null) return false;
  const { position, past, says, future } = read as Partial<Record<keyof KeptLine, unknown>>;
  return (
    Number.isSafeInteger(position) &&
    typeof says === 'string' &&
    areWords(past) &&
    areWords(future) &&
    past.length <= Number(position) &&
    past.length + future.length < KEPT_STATES
  );
};

const areWords = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((each) => typeof each === 'string');
