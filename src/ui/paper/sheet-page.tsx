/** The run sheet as a page: black on white, to hang where the work is. */
import { For, Show, type JSX } from 'solid-js';
import type { RunSheet, SheetDay } from '../../engine/formats/index.ts';
import { Cautions } from './cautions.tsx';
import { CupBlock } from './cup-block.tsx';

/** A sheet that weighs more than this is set smaller, so that a full day still is one page; measured on A4. */
const ROOMY = 15;
const FULL = 28;

/** In lines of text, about. */
const weightOf = ({ days, cautions, remarks }: RunSheet): number =>
  days.reduce(
    (sum, { lines, cups, frees }) =>
      sum + lines.length + frees.length + cups.reduce((all, { portions }) => all + 2 + portions.length, 0),
    cautions.length + remarks.length,
  );

/** A day on which everything happens; the many days of a piece may take more than one page. */
const isFull = (sheet: RunSheet): boolean => sheet.days.length === 1 && weightOf(sheet) > FULL;

export const SheetPage = (props: { readonly sheet: RunSheet }): JSX.Element => (
  <article class="page" classList={{ dense: weightOf(props.sheet) > ROOMY, full: isFull(props.sheet) }}>
    <header class="page-head">
      <h2>{props.sheet.title}</h2>
      <p>
        {props.sheet.shop}, plan of {props.sheet.asOf}
      </p>
    </header>
    <For each={props.sheet.days}>
      {(day) => <DayPart day={day} isOneOfSeveral={props.sheet.days.length > 1} />}
    </For>
    <Show when={props.sheet.remarks.length > 0}>
      <section class="see-to">
        <h3>See to</h3>
        <ul>
          <For each={props.sheet.remarks}>{(text) => <li>{text}</li>}</For>
        </ul>
      </section>
    </Show>
    <Cautions cautions={props.sheet.cautions} />
  </article>
);

const roomsOf = ({ cups }: SheetDay): number => new Set(cups.map(({ room }) => room)).size;

const DayPart = (props: { readonly day: SheetDay; readonly isOneOfSeveral: boolean }): JSX.Element => (
  <section class="day-part">
    <Show when={props.isOneOfSeveral}>
      <h3>{props.day.heading}</h3>
    </Show>
    <Show when={props.day.lines.length > 0} fallback={<p class="quiet">Nothing to do.</p>}>
      <table class="lines">
        <thead class="unseen">
          <tr>
            <th scope="col">done</th>
            <th scope="col">time</th>
            <th scope="col">what</th>
            <th scope="col">where</th>
            <th scope="col">hands-on</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.day.lines}>
            {(line) => (
              <tr>
                <td class="tick">
                  <span aria-hidden="true" />
                </td>
                <td class="line-time">{line.time}</td>
                <td>
                  <b>{line.piece}</b> <span class="line-what">{line.what}</span>{' '}
                  <Show when={line.window !== ''}>
                    <span class="line-window">window {line.window}</span>
                  </Show>
                </td>
                <td>{line.where}</td>
                <td class="line-hands">
                  {line.hands}
                  <Show when={line.who !== ''}>
                    <span>{line.who}</span>
                  </Show>
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </Show>
    <Show when={props.day.cups.length > 0}>
      <p class="tare">Tare the empty cup once: the scale counts on.</p>
      <div class="cup-blocks">
        <For each={props.day.cups}>
          {(card) => <CupBlock card={card} showsRoom={roomsOf(props.day) > 1} />}
        </For>
      </div>
    </Show>
    <For each={props.day.frees}>{(text) => <p class="frees">{text}</p>}</For>
  </section>
);
