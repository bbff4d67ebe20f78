/** Which form frees up when, the soonest first. */
import { Index, Show, type JSX } from 'solid-js';
import type { Minute } from '../clock/index.ts';
import { durationText } from '../clock/index.ts';
import { useSession } from '../state/index.ts';
import type { Lane } from './model/index.ts';

export const NextFree = (props: {
  readonly lanes: readonly Lane[];
  readonly show: (at: Minute) => void;
}): JSX.Element => {
  const session = useSession();
  const forms = (): readonly Lane[] =>
    props.lanes.filter((lane) => lane.what === 'form').sort((a, b) => (a.freeAt ?? 0) - (b.freeAt ?? 0));
  return (
    <section class="card" aria-labelledby="next-free">
      <h2 id="next-free">Next free</h2>
      <ol class="free-list">
        <Index each={forms()}>
          {(lane) => (
            <li>
              <button
                type="button"
                class="free-row"
                onClick={() => props.show(lane().freeAt ?? session.now())}
              >
                <strong class="free-time">
                  {lane().freeAt === null
                    ? 'free now'
                    : session.clock().near(lane().freeAt ?? 0, session.now())}
                </strong>
                <span class="free-name">{lane().name}</span>
                <span class="free-more">
                  <Show when={lane().freeAt !== null}>
                    in {durationText((lane().freeAt ?? 0) - session.now())}.{' '}
                  </Show>
                  <Show when={lane().next} fallback="Nothing after that.">
                    {(next) => (
                      <>
                        Then {next().name}, {session.clock().near(next().from, session.now())}.
                      </>
                    )}
                  </Show>
                </span>
              </button>
            </li>
          )}
        </Index>
      </ol>
    </section>
  );
};
