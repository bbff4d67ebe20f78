/** Keeps what is on the screen on this device: what the maker changed at once, plans, which can be made again, a moment later. */

/** Plans come one after the other. */
const SOON_MS = 250;

export interface Keeping {
  now(): void;
  soon(): void;
  /** Whether what is on the screen is kept, once that is known. */
  done(): Promise<boolean>;
  close(): void;
}

/**
 * `keep` keeps all of it as it is now, null where there is nothing yet; `failed` is told why the device did not.
 */
export const makeKeeping = (keep: () => Promise<void> | null, failed: (error: unknown) => void): Keeping => {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let keeping = Promise.resolve(true);

  const close = (): void => {
    clearTimeout(waiting);
    waiting = undefined;
  };
  const now = (): void => {
    close();
    const kept = keep();
    if (!kept) return;
    keeping = kept.then(
      () => true,
      (error: unknown) => {
        failed(error);
        return false;
      },
    );
  };
  return {
    now,
    soon() {
      waiting ??= setTimeout(now, SOON_MS);
    },
    done() {
      if (waiting !== undefined) now();
      return keeping;
    },
    close,
  };
};
