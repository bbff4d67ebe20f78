/** A sheet on which something of the shop is written: kept only when the whole shop file stays right. */
import { Dialog } from '@kobalte/core/dialog';
import { createEffect, createSignal, on, onCleanup, Show, untrack, type Accessor, type JSX } from 'solid-js';
import type { Shop } from '../../../engine/shop/index.ts';
import { Modal } from '../../dialog/index.ts';
import type { Edit } from '../../edits/index.ts';
import type { FileFault } from '../../engine/index.ts';
import { SheetFoot, SheetOf } from '../../fields/index.ts';
import { useSession } from '../../state/index.ts';
import { judge, tryEdit } from '../model/sections.ts';

const JUDGE_AFTER_MS = 250;

export interface DraftSheetProps<T> {
  readonly title: string;
  readonly initial: T;
  /** Where what is written lies in the shop file, such as `forms[2]`. */
  readonly base: (draft: T, shop: Shop) => string;
  /** The shop as it would be. */
  readonly put: (draft: T, shop: Shop) => Shop;
  /** The edit, given the shop as the engine reads it with every default filled in. */
  readonly edit: (draft: T, read: Shop) => Edit;
  readonly saveWords: string;
  readonly close: () => void;
  readonly remove?: Edit;
  readonly another?: (draft: T) => void;
  /** Between the fields and the buttons. What is proposed counts as there from the beginning, not as written. */
  readonly below?: (draft: Accessor<T>, change: (next: T) => void, propose: (next: T) => void) => JSX.Element;
  readonly children: (draft: Accessor<T>, change: (next: T) => void) => JSX.Element;
}

export const DraftSheet = <T,>(props: DraftSheetProps<T>): JSX.Element => {
  const session = useSession();
  // Taken once: whoever hands it in may make it anew at every look.
  const initial = untrack(() => props.initial);
  const [draft, setDraft] = createSignal<T>(initial);
  const [faults, setFaults] = createSignal<readonly FileFault[]>([]);
  const [busy, setBusy] = createSignal(false);
  const [leaving, setLeaving] = createSignal(false);
  const base = (): string => {
    const shop = session.shop();
    return shop ? props.base(draft(), shop) : '';
  };

  // Once something was found wrong, mending it is seen at once.
  let judging: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(judging));
  createEffect(
    on(draft, () => {
      if (faults().length === 0) return;
      clearTimeout(judging);
      judging = setTimeout(() => {
        const shop = session.shop();
        if (!shop) return;
        judge(session.engine, props.put(draft(), shop))
          .then((judged) => setFaults(judged.faults))
          .catch(() => undefined);
      }, JUDGE_AFTER_MS);
    }),
  );

  const settle = async (act: () => Promise<readonly FileFault[]>): Promise<void> => {
    setBusy(true);
    try {
      const found = await act();
      setFaults(found);
      if (found.length === 0) props.close();
    } catch (error) {
      setFaults([{ path: '', found: '', message: error instanceof Error ? error.message : String(error) }]);
    } finally {
      setBusy(false);
    }
  };
  const save = (): Promise<void> =>
    settle(async () => {
      const shop = session.shop();
      if (!shop) return [];
      const judged = await judge(session.engine, props.put(draft(), shop));
      if (judged.shop) session.edit(props.edit(draft(), judged.shop));
      return judged.faults;
    });
  const change = (next: T): void => {
    setLeaving(false);
    setDraft(() => next);
  };
  let unwritten = initial;
  const propose = (next: T): void => {
    if (draft() === unwritten) unwritten = next;
    setDraft(() => next);
  };
  const leave = (): void => {
    if (draft() === unwritten) props.close();
    else setLeaving(true);
  };

  return (
    <Modal open close={leave} class="writing" staysOpen>
      <SheetOf units={session.shop()?.units ?? 'metric'} base={base()} faults={faults()}>
        <form
          class="sheet-form"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            void save();
          }}
        >
          <Dialog.Title class="dialog-title">{props.title}</Dialog.Title>
          <div class="sheet-fields">{props.children(draft, change)}</div>
          <div class="sheet-foot">
            <SheetFoot shop={session.shop()} />
            {props.below?.(draft, change, propose)}
            <Show
              when={leaving()}
              fallback={
                <div class="sheet-acts">
                  <button type="submit" class="button primary" disabled={busy()}>
                    {busy() ? 'One moment…' : props.saveWords}
                  </button>
                  <button type="button" class="button" onClick={leave}>
                    Back
                  </button>
                  <span class="sheet-apart">
                    <Show when={props.another}>
                      <button type="button" class="button plain" onClick={() => props.another?.(draft())}>
                        Another like this
                      </button>
                    </Show>
                    <Show when={props.remove}>
                      {(remove) => (
                        <button
                          type="button"
                          class="button plain"
                          disabled={busy()}
                          onClick={() => void settle(() => tryEdit(session, remove()))}
                        >
                          Remove
                        </button>
                      )}
                    </Show>
                  </span>
                </div>
              }
            >
              <div class="sheet-acts" role="group" aria-label="Leave without saving?">
                <strong role="alert">What you changed is not saved.</strong>
                <button type="button" class="button primary" onClick={() => setLeaving(false)}>
                  Go on with it
                </button>
                <button type="button" class="button" onClick={() => props.close()}>
                  Throw it away
                </button>
              </div>
            </Show>
          </div>
        </form>
      </SheetOf>
    </Modal>
  );
};
