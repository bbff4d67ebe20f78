/** Above the screens while an untouched example is shown: what it is, and the way to one's own shop. */
import { A, useLocation } from '@solidjs/router';
import { Show, type JSX } from 'solid-js';
import { useSession } from '../state/index.ts';

export const ExampleNote = (): JSX.Element => {
  const session = useSession();
  const location = useLocation();
  return (
    <Show when={session.isExample() && location.pathname !== '/start'}>
      <p class="notice-line">
        <span>An example: try everything, nothing can break.</span>
        <A class="button" href="/start">
          Start your own
        </A>
      </p>
    </Show>
  );
};
