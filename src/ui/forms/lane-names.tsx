/** At the lanes' left edge their names, at the right edge when a form frees up. */
import { Index, Show, type JSX } from 'solid-js';
import { useSession } from '../state/index.ts';
import type { Layout } from './model/index.ts';

export const LaneNames = (props: { readonly layout: Layout }): JSX.Element => {
  const session = useSession();
  return (
    <>
      <ul class="lane-names">
        <Index each={props.layout.boxes}>
          {(box) => (
            <li style={{ top: `${box().top}px`, height: `${box().height}px` }}>
              <strong>{box().lane.name}</strong>
              <span>{box().lane.detail}</span>
              <Show when={box().lane.capacity !== null}>
                <span class="lane-load">how full</span>
              </Show>
            </li>
          )}
        </Index>
      </ul>
      <ul class="lane-frees" aria-label="When forms free up">
        <Index each={session.planned() ? props.layout.boxes.filter((box) => box.lane.what === 'form') : []}>
          {(box) => (
            <li style={{ top: `${box().top}px`, height: `${box().height}px` }}>
              <span class="unseen">{box().lane.name} </span>
              <Show when={box().lane.freeAt !== null} fallback={<strong class="is-free">free now</strong>}>
                <FreeTime words={session.clock().near(box().lane.freeAt ?? 0, session.now())} />
              </Show>
            </li>
          )}
        </Index>
      </ul>
    </>
  );
};

/** "Thu 14:20" with the time on a line of its own, large. */
const FreeTime = (props: { readonly words: string }): JSX.Element => {
  const at = (): number => props.words.lastIndexOf(' ');
  return (
    <>
      <span>{props.words.slice(0, at())}</span>
      <strong>{props.words.slice(at() + 1)}</strong>
    </>
  );
};
