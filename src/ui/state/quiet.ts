/** A signal that follows another one only once that has stood still: for questions not worth asking of every better plan. */
import { createEffect, createSignal, on, onCleanup, type Accessor } from 'solid-js';

/** What `source` holds once it has not changed for `quietMs`; undefined until then. */
export const createQuiet = <T>(source: Accessor<T>, quietMs: number): Accessor<T | undefined> => {
  const [value, setValue] = createSignal<T>();
  let waiting: ReturnType<typeof setTimeout> | undefined;
  createEffect(
    on(source, (latest) => {
      clearTimeout(waiting);
      waiting = setTimeout(() => setValue(() => latest), quietMs);
    }),
  );
  onCleanup(() => clearTimeout(waiting));
  return value;
};
