/** One cup on paper: A, then B, then tint, what the scale shows, and who gets how much. */
import { For, Show, type JSX } from 'solid-js';
import type { CupCard } from '../../engine/formats/index.ts';

export const CupBlock = (props: { readonly card: CupCard; readonly showsRoom: boolean }): JSX.Element => (
  <section class="cup-block">
    <h3>
      Cup {props.card.number} <span>{props.card.resin}</span>
      <Show when={props.card.series !== ''}>
        <small>{props.card.series}</small>
      </Show>
    </h3>
    <p class="cup-times">
      mix <b>{props.card.mixFrom}</b> to {props.card.mixTo}, flows until <b>{props.card.worksUntil}</b>
      <Show when={props.showsRoom}>, {props.card.room}</Show>
    </p>
    <For each={props.card.warnings}>{(text) => <p class="cup-warning">{text}</p>}</For>
    <table>
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">part</span>
          </th>
          <th scope="col">by the cup</th>
          <th scope="col">by weight</th>
          <th scope="col">scale shows</th>
        </tr>
      </thead>
      <tbody>
        <For each={props.card.lines}>
          {(line) => (
            <tr>
              <th scope="row" colSpan={line.volume === '' ? 2 : 1}>
                {line.what}
              </th>
              <Show when={line.volume !== ''}>
                <td>{line.volume}</td>
              </Show>
              <td>{line.mass}</td>
              <td>
                <b>{line.scaleShows}</b>
              </td>
            </tr>
          )}
        </For>
        <tr class="cup-ratio">
          <th scope="row">ratio off</th>
          <td>{props.card.ratioOff.byCup}</td>
          <td>{props.card.ratioOff.byScale}</td>
          <td />
        </tr>
      </tbody>
    </table>
    <ol class="portions">
      <For each={props.card.portions}>
        {(portion) => (
          <li>
            <b>
              {portion.from}-{portion.by}
            </b>{' '}
            {portion.piece}, {portion.surface}
            <Show when={props.card.portions.length > 1}>: {portion.amount}</Show>
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
