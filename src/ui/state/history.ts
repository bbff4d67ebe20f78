/** Undo and redo as plain data: every state the document had, and where in them we are. */
export interface Entry<T> {
  readonly value: T;
  /** What led here, in words for "Undo: …". */
  readonly says: string;
}

export interface History<T> {
  readonly past: readonly Entry<T>[];
  readonly present: Entry<T>;
  readonly future: readonly Entry<T>[];
}

const KEPT = 200;

export const beginHistory = <T>(value: T): History<T> => ({
  past: [],
  present: { value, says: '' },
  future: [],
});

/** The history after an edit; what was undone is gone. The oldest states beyond 200 are let go. */
export const advance = <T>(history: History<T>, value: T, says: string): History<T> => ({
  past: [...history.past, history.present].slice(-KEPT),
  present: { value, says },
  future: [],
});

/** One step back; the same history when there is nothing to undo. */
export const stepBack = <T>(history: History<T>): History<T> => {
  const last = history.past.at(-1);
  if (!last) return history;
  return { past: history.past.slice(0, -1), present: last, future: [history.present, ...history.future] };
};

/** One step forward again; the same history when nothing was undone. */
export const stepForward = <T>(history: History<T>): History<T> => {
  const [next, ...rest] = history.future;
  if (!next) return history;
  return { past: [...history.past, history.present], present: next, future: rest };
};
