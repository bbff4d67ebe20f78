/** The maker's word that a stretch of work stays where it is, and that word taken back. */
import { Show, type JSX } from 'solid-js';
import { pinStep, together, unpinStep } from '../edits/index.ts';
import { useSession } from '../state/index.ts';

export const PinButton = (props: {
  readonly piece: string;
  /** The step that is pinned, and all that are let go. */
  readonly step: string;
  readonly steps: readonly string[];
  /** Where it is. */
  readonly at: string;
  readonly pinned: boolean;
  /** The step and its piece in words: "“Pour layer 2” of Wren". */
  readonly called: string;
}): JSX.Element => {
  const session = useSession();
  const pin = () => session.edit(pinStep(props.piece, props.step, props.at, `pin ${props.called}`));
  const unpin = () =>
    session.edit(
      together(
        props.steps.map((step) => unpinStep(props.piece, step, '')),
        `unpin ${props.called}`,
      ),
    );
  return (
    <Show
      when={props.pinned}
      fallback={
        <button type="button" class="button" onClick={() => pin()}>
          Pin it here
        </button>
      }
    >
      <button type="button" class="button" onClick={() => unpin()}>
        Unpin
      </button>
    </Show>
  );
};
