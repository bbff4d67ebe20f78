/** What can hurt, in the words of the engine; each once. */
import { For, Show, type JSX } from 'solid-js';
import type { Caution } from '../../engine/mix/index.ts';

export const Cautions = (props: { readonly cautions: readonly Caution[] }): JSX.Element => (
  <Show when={props.cautions.length > 0}>
    <section class="cautions" aria-labelledby="cautions-title">
      <h3 id="cautions-title">Take care</h3>
      <ul>
        <For each={props.cautions}>
          {(caution) => (
            <li>
              <strong>{caution.title}.</strong> {caution.text}
            </li>
          )}
        </For>
      </ul>
    </section>
  </Show>
);
