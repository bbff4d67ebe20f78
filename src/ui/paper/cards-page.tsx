/** A card for each form in use, to lay beside it. */
import { For, Show, type JSX } from 'solid-js';
import type { FormCard } from '../../engine/formats/index.ts';

export const CardsPage = (props: { readonly cards: readonly FormCard[] }): JSX.Element => (
  <Show when={props.cards.length > 0} fallback={<p class="quiet">Every form is free.</p>}>
    <div class="form-cards">
      <For each={props.cards}>
        {(card) => (
          <article class="form-card">
            <p class="form-card-form">{card.form}</p>
            <h2>{card.order}</h2>
            <p class="form-card-piece">{card.piece}</p>
            <p class="form-card-frees">{card.frees}</p>
            <ul>
              <For each={card.next}>{(text) => <li>{text}</li>}</For>
            </ul>
          </article>
        )}
      </For>
    </div>
  </Show>
);
