/** A dialog over everything. When it goes, the focus is where it was before it came. */
import { Dialog } from '@kobalte/core/dialog';
import { createRenderEffect, type JSX } from 'solid-js';

export const Modal = (props: {
  readonly open: boolean;
  readonly close: () => void;
  /** Whether it is answered only by its own buttons and Escape, so that a slip of the hand beside it loses nothing. */
  readonly staysOpen?: boolean;
  readonly class?: string;
  /** Holds a `Dialog.Title`. */
  readonly children: JSX.Element;
}): JSX.Element => {
  let before: Element | null = null;
  createRenderEffect(() => {
    if (props.open) before = document.activeElement;
  });
  return (
    <Dialog open={props.open} onOpenChange={(open) => !open && props.close()}>
      <Dialog.Portal>
        <Dialog.Overlay class="dialog-shade" />
        <div class="dialog-place">
          <Dialog.Content
            class={`dialog ${props.class ?? ''}`}
            onInteractOutside={(event) => props.staysOpen && event.preventDefault()}
            onCloseAutoFocus={(event) => !event.defaultPrevented && giveBack(before)}
          >
            {props.children}
          </Dialog.Content>
        </div>
      </Dialog.Portal>
    </Dialog>
  );
};

/** Kobalte gives the focus back to a dialog's own trigger only; ours are opened by what happens, too. */
const giveBack = (before: Element | null): void => {
  const isThere = before instanceof HTMLElement && before.isConnected && before !== document.body;
  const to = isThere ? before : document.getElementById('main');
  to?.focus({ preventScroll: true });
};
