/** Why a file was not opened: every fault with its place, what stands there and what would be right. */
import { Dialog } from '@kobalte/core/dialog';
import { For, Show, type JSX } from 'solid-js';
import { Modal } from '../dialog/index.ts';
import type { FileFault } from '../engine/index.ts';

export const FaultDialog = (props: {
  readonly faults: readonly FileFault[];
  readonly close: () => void;
}): JSX.Element => (
  <Modal open={props.faults.length > 0} close={props.close}>
    <Dialog.Title class="dialog-title">The file was not opened</Dialog.Title>
    <Dialog.Description>
      {props.faults.length === 1
        ? 'One thing in it is not right.'
        : `${props.faults.length} things in it are not right.`}{' '}
      Your shop is as it was.
    </Dialog.Description>
    <ul class="faults">
      <For each={props.faults}>
        {(fault) => (
          <li>
            <code>{fault.path || 'the file'}</code>
            <Show when={fault.found !== ''}>
              <span> has {fault.found}</span>
            </Show>
            <p>{fault.message}</p>
          </li>
        )}
      </For>
    </ul>
    <Dialog.CloseButton class="button primary" aria-label="Back to the shop">
      Back to the shop
    </Dialog.CloseButton>
  </Modal>
);
