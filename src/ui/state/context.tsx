/** Hands the session and the view to every screen. */
import { createContext, useContext, type JSX } from 'solid-js';
import type { Session } from './session.ts';
import type { View } from './view.ts';

interface Bench {
  readonly session: Session;
  readonly view: View;
}

const Context = createContext<Bench>();

export const Provide = (props: Bench & { readonly children: JSX.Element }): JSX.Element => (
  <Context.Provider value={{ session: props.session, view: props.view }}>{props.children}</Context.Provider>
);

const useBench = (): Bench => {
  const bench = useContext(Context);
  if (!bench) throw new Error('a screen is used outside <Provide>');
  return bench;
};

export const useSession = (): Session => useBench().session;
export const useView = (): View => useBench().view;
