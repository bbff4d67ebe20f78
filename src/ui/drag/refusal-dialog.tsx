/** Let go where it may not lie: why, and what would make it possible. */
import { Dialog } from '@kobalte/core/dialog';
import { For, Show, type JSX } from 'solid-js';
import { Modal } from '../dialog/index.ts';
import { useSession } from '../state/index.ts';
import './drag.css';
import type { Hand } from './hand.ts';
import { waysOut, type WayOut } from './ways-out.ts';

export const RefusalDialog = (props: { readonly hand: Hand }): JSX.Element => {
  const session = useSession();
  const near = (minute: number): string => session.clock().near(minute, session.now());
  const ways = (): readonly WayOut[] => {
    const refusal = props.hand.refusal();
    const shop = session.shop();
    return refusal && shop ? waysOut(refusal, shop, { near, iso: session.clock().iso }) : [];
  };
  return (
    <Modal open={props.hand.refusal() !== null} close={() => props.hand.putBack()}>
      <Show when={props.hand.refusal()}>
        {(refusal) => (
          <>
            <Dialog.Title class="dialog-title">
              {refusal().held.title}, {refusal().held.pieceName}: not at {near(refusal().at)}
            </Dialog.Title>
            <Dialog.Description as="ul" class="refusal-why">
              <For each={refusal().why.slice(0, 4)} fallback={<li>This far out nothing is known yet.</li>}>
                {(obstacle) => <li>{obstacle.text}</li>}
              </For>
            </Dialog.Description>
          </>
        )}
      </Show>
      <div class="refusal-ways">
        <For each={ways()}>
          {(way) => (
            <button type="button" class="button refusal-way" onClick={() => props.hand.choose(way)}>
              <strong>{way.name}</strong>
              <span>{way.says}</span>
            </button>
          )}
        </For>
        <button type="button" class="button refusal-way primary" onClick={() => props.hand.putBack()}>
          <strong>Put it back</strong>
          <span>Everything stays as it was.</span>
        </button>
      </div>
    </Modal>
  );
};
