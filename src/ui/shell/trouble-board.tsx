/** What went wrong, in words, with what can be done about it. */
import { For, Show, type JSX } from 'solid-js';
import type { WrittenAhead } from '../../engine/plan/index.ts';
import { forgetAhead } from '../edits/index.ts';
import { useSession } from '../state/index.ts';

export const TroubleBoard = (): JSX.Element => {
  const session = useSession();
  const takeBack = (steps: readonly WrittenAhead[]): void => {
    const isAhead = (moment: string): boolean =>
      (session.clock().parse(moment) ?? session.now()) > session.now();
    session.edit(forgetAhead(steps, isAhead, 'take back what was written down ahead'));
  };
  return (
    <Show when={session.trouble()}>
      {(trouble) => (
        <section class="trouble" role="alert">
          <h2>{trouble().title}</h2>
          <ul>
            <For each={trouble().lines.slice(0, 8)}>{(line) => <li>{line}</li>}</For>
          </ul>
          <Show when={trouble().lines.length > 8}>
            <p>and {trouble().lines.length - 8} more</p>
          </Show>
          <div class="trouble-acts">
            <Show when={session.undoSays()}>
              <button type="button" class="button" onClick={() => session.undo()}>
                Undo: {session.undoSays()}
              </button>
            </Show>
            <Show when={trouble().ahead}>
              {(steps) => (
                <button type="button" class="button" onClick={() => takeBack(steps())}>
                  Take it back
                </button>
              )}
            </Show>
            <button type="button" class="button" onClick={() => session.planAgain()}>
              Plan again
            </button>
            <button type="button" class="button" onClick={() => session.dismissTrouble()}>
              Close this note
            </button>
          </div>
        </section>
      )}
    </Show>
  );
};
