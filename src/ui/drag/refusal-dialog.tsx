/** Let go where it may not lie: why, and what would make it possible. */
import { Dialog } from '@kobalte/core/dialog';
import { For, Match, Show, Switch, type JSX } from 'solid-js';
import { Modal } from '../dialog/index.ts';
import { useSession } from '../state/index.ts';
import './drag.css';
import type { Hand } from './hand.ts';
import { createTrials, editOf, saysOf } from './trials.ts';
import { waysOut, type WayOut } from './ways-out.ts';

/** So many lines of what clashes are told. */
const SAID = 3;

export const RefusalDialog = (props: { readonly hand: Hand }): JSX.Element => {
  const session = useSession();
  const near = (minute: number): string => session.clock().near(minute, session.now());
  const ways = (): readonly WayOut[] => {
    const refusal = props.hand.refusal();
    const shop = session.shop();
    return refusal && shop ? waysOut(refusal, shop, { near, iso: session.clock().iso }) : [];
  };
  const tried = createTrials(session, () => props.hand.refusal()?.held.piece ?? null, ways);
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
        <For each={tried()}>
          {(one) => (
            <Switch>
              <Match when={one.trial?.kind === 'clash' && one.trial}>
                {(trial) => (
                  <div class="refusal-no">
                    <strong>{one.way.name}: no plan can exist with it</strong>
                    <For each={trial().clash.slice(0, SAID)}>{(line) => <span>{line}</span>}</For>
                  </div>
                )}
              </Match>
              <Match when={one.trial?.kind !== 'clash'}>
                <button
                  type="button"
                  class="button refusal-way"
                  disabled={one.trial === null}
                  onClick={() => props.hand.choose({ ...one.way, edit: editOf(one) })}
                >
                  <strong>{one.way.name}</strong>
                  <span>{saysOf(one)}</span>
                </button>
              </Match>
            </Switch>
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
