/** One cup on paper: A, then B, then tint, what the scale shows, and who gets how much. */
import { For, Show, type JSX } from 'solid-js';
import type { CupCard } from '../../engine/formats/index.ts';

export const CupBlock = (props: { readonly card: CupCard }): JSX.Element => (
  <section class="cup-block">
    <h3>
      Cup {props.card.number} <span>{props.card.resin}</span>
      <Show when={props.card.series !== ''}>
        <small>{props.card.series}</small>
      </Show>
    </h3>
    <p class="cup-times">
      mix <b>{props.card.mixFrom}</b> to {props.card.mixTo}, flows until <b>{props.card.worksUntil}</b>,{' '}
      {props.card.room}
    </p>
    <For each={props.card.warnings}>{(text) => <p class="cup-warning">{text}</p>}</For>
    <table>
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">part</span>
          </th>
          <th scope="col">by the cup</th>
          <th scope="col">or by weight</th>
          <th scope="col">scale shows</th>
        </tr>
      </thead>
      <tbody>
        <For each={props.card.lines}>
          {(line) => (
            <tr>
              <th scope="row">{line.what}</th>
              <td>{line.volume}</td>
              <td>{line.mass}</td>
              <td>
                <b>{line.scaleShows}</b>
              </td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
    <p class="cup-ratio">Tare the empty cup once. Ratio after rounding: {props.card.ratioError}</p>
    <ol class="portions">
      <For each={props.card.portions}>
        {(portion) => (
          <li>
            <b>
              {portion.from}-{portion.by}
            </b>{' '}
            {portion.piece}, {portion.surface}: {portion.amount}
            <Show when={portion.tint !== ''}>, with {portion.tint}</Show>
            <small>
              {portion.workingTimeLeft} to spare; {portion.air}
            </small>
          </li>
        )}
      </For>
    </ol>
  </section>
);
