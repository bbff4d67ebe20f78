/** A sheet of fields: its units, the faults found in what it holds, and where in the shop file it lies. */
import {
  createContext,
  createMemo,
  createSignal,
  onCleanup,
  useContext,
  type Accessor,
  type JSX,
} from 'solid-js';
import type { Units } from '../../engine/shop/index.ts';
import type { FileFault } from '../engine/index.ts';
import { faultsAt, joinPath } from './places.ts';

interface Sheet {
  readonly units: Accessor<Units>;
  readonly base: Accessor<string>;
  readonly faults: Accessor<readonly FileFault[]>;
  /** A field shows the faults of this path; what no field shows stands at the sheet's foot. */
  claim(path: string): void;
  readonly unclaimed: Accessor<readonly FileFault[]>;
}

const Context = createContext<Sheet>();

export const SheetOf = (props: {
  readonly units: Units;
  /** Path of the sheet's entry in the shop file, such as `forms[2]`; empty for the whole file. */
  readonly base: string;
  readonly faults: readonly FileFault[];
  readonly children: JSX.Element;
}): JSX.Element => {
  const [claims, setClaims] = createSignal<readonly string[]>([]);
  const sheet: Sheet = {
    units: () => props.units,
    base: () => props.base,
    faults: () => props.faults,
    claim(path) {
      setClaims((known) => [...known, path]);
      onCleanup(() =>
        setClaims((known) => {
          const at = known.indexOf(path);
          return known.filter((_, index) => index !== at);
        }),
      );
    },
    unclaimed: createMemo(() => props.faults.filter((fault) => !claims().includes(fault.path))),
  };
  return <Context.Provider value={sheet}>{props.children}</Context.Provider>;
};

export const useSheet = (): Sheet => {
  const sheet = useContext(Context);
  if (!sheet) throw new Error('a field is used outside <SheetOf>');
  return sheet;
};

/** The same sheet, its fields' paths counted from `path` below it. */
export const Below = (props: { readonly path: string; readonly children: JSX.Element }): JSX.Element => {
  const sheet = useSheet();
  return (
    <Context.Provider value={{ ...sheet, base: () => joinPath(sheet.base(), props.path) }}>
      {props.children}
    </Context.Provider>
  );
};

/** The messages for one field, in the file's words. */
export const useFaults = (path: () => string): Accessor<readonly FileFault[]> => {
  const sheet = useSheet();
  const whole = createMemo(() => joinPath(sheet.base(), path()));
  sheet.claim(whole());
  return createMemo(() => faultsAt(sheet.faults(), whole()));
};
