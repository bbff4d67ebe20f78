/** Says that a newer app is on this device, and takes it by a tap: not while something is written that no plan knows yet. */
import { useLocation } from '@solidjs/router';
import { Show, type JSX } from 'solid-js';
import { createNewer } from '../offline/index.ts';
import { useSession } from '../state/index.ts';

export const NewerNote = (): JSX.Element => {
  const session = useSession();
  const location = useLocation();
  const isNewer = createNewer();
  const take = async (): Promise<void> => {
    // What the device does not keep would be lost; that was told already.
    if (await session.kept()) window.location.reload();
  };
  // A sheet lies over this note until it is answered; what is written at the first start does not.
  return (
    <div role="status">
      <Show when={isNewer() && location.pathname !== '/start'}>
        <p class="notice-line newer-note">
          <span>A newer version is ready. Your shop stays as it is.</span>
          <button type="button" class="button" onClick={() => void take()}>
            Use it now
          </button>
        </p>
      </Show>
    </div>
  );
};
