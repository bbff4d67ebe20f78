/** After a change: what it makes late and what it moved, with its undo. */
import { Toast, toaster } from '@kobalte/core/toast';
import { createEffect, For, on, Show, type JSX } from 'solid-js';
import { Portal } from 'solid-js/web';
import { durationText } from '../clock/index.ts';
import { useSession, type Change } from '../state/index.ts';
import { stepTitle } from '../words/index.ts';
import { movedWords, sortedByReach, type Sorted } from './change-words.ts';

/** Moved steps, and late pieces, that are named: on a phone so few that the note leaves the work in sight. */
const SHOWN = 4;
const SHOWN_ON_PHONE = 2;
const SHOWN_LATE = 3;
const PHONE = 700;

export const ChangeToasts = (): JSX.Element => {
  const session = useSession();
  let showing: { id: number; number: number } | null = null;
  createEffect(
    on(session.change, (change) => {
      if (!change || change.says === '') return;
      // Better plans after the same change refresh the same note.
      if (showing) toaster.dismiss(showing.id);
      const id = toaster.show((props) => (
        <Toast toastId={props.toastId} as="div" class="toast" duration={12_000}>
          <ChangeNote change={change} close={() => toaster.dismiss(props.toastId)} />
        </Toast>
      ));
      showing = { id, number: change.number };
    }),
  );
  return (
    <Portal>
      <Toast.Region limit={1}>
        <Toast.List as="div" class="toasts" />
      </Toast.Region>
    </Portal>
  );
};

const ChangeNote = (props: { readonly change: Change; readonly close: () => void }): JSX.Element => {
  const session = useSession();
  const sorted = (): Sorted => sortedByReach(props.change.moved, session.clock());
  const shown = window.innerWidth < PHONE ? SHOWN_ON_PHONE : SHOWN;
  const nameOf = (piece: string): string =>
    session.shop()?.pieces.find((one) => one.id === piece)?.name ?? piece;
  const titleOf = (piece: string, step: string): string => {
    const found = session.planned()?.plan.steps.find((one) => one.piece === piece && one.step === step);
    return found ? stepTitle(found) : step;
  };
  return (
    <>
      <Toast.Title class="toast-title">{capital(props.change.says)}</Toast.Title>
      <Toast.Description class="toast-lines" as="div">
        <For each={props.change.later.slice(0, SHOWN_LATE)}>
          {({ piece, lateMinutes }) => (
            <p class="toast-late">
              ▲ <strong>{durationText(lateMinutes)} late</strong>: {nameOf(piece)}
            </p>
          )}
        </For>
        <Show when={props.change.later.length > SHOWN_LATE}>
          <p class="toast-late">
            and {props.change.later.length - SHOWN_LATE} more pieces later than promised
          </p>
        </Show>
        <Show when={props.change.later.length === 0 && sorted().far.length > 0}>
          <p>No promised date is missed for it.</p>
        </Show>
        <p>{movedWords(sorted())}</p>
        <Show when={sorted().far.length > 0}>
          <ul>
            <For each={sorted().far.slice(0, shown)}>
              {(moved) => (
                <li>
                  <strong>{session.clock().near(moved.to, session.now())}</strong>, was{' '}
                  {session.clock().near(moved.from, session.now())}: {titleOf(moved.piece, moved.step)},{' '}
                  {nameOf(moved.piece)}
                </li>
              )}
            </For>
          </ul>
        </Show>
        <Show when={sorted().far.length > shown}>
          <p>and {sorted().far.length - shown} more</p>
        </Show>
      </Toast.Description>
      <div class="toast-acts">
        <Show when={session.undoSays() === props.change.says}>
          <button
            type="button"
            class="button primary"
            onClick={() => {
              props.close();
              session.undo();
            }}
          >
            Undo
          </button>
        </Show>
        <Toast.CloseButton class="button" aria-label="Close this note">
          Close
        </Toast.CloseButton>
      </div>
    </>
  );
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
