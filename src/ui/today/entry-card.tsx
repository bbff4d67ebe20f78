/** One stretch of work: its time first, then what, where and how much, and the buttons that say it happened. */
import { createSignal, For, onCleanup, Show, type JSX } from 'solid-js';
import { durationText } from '../clock/index.ts';
import { useSession } from '../state/index.ts';
import { massText, stepTitle, volumeText } from '../words/index.ts';
import { begin, finish, startPouring, takeBack } from './acts.ts';
import { Cup } from './cup.tsx';
import type { Entry } from './entries.ts';
import { WindowBar } from './window-bar.tsx';

export const EntryCard = (props: {
  readonly entry: Entry;
  readonly mood: 'running' | 'due' | 'later';
}): JSX.Element => {
  const session = useSession();
  const iso = (minute: number): string => session.clock().iso(minute);
  const lateBy = (): number => (props.mood === 'due' ? session.now() - props.entry.start : 0);
  const isMixing = (): boolean => props.entry.running?.kind === 'mix';
  return (
    <article
      class="entry"
      classList={{ 'entry-running': props.mood === 'running', 'entry-due': props.mood === 'due' }}
    >
      <p class="entry-time">
        <time>{session.clock().time(props.entry.start)}</time>
        <span>{durationText(props.entry.handsOnMinutes)}</span>
        <Show when={lateBy() > 0}>
          <span class="entry-late">{durationText(lateBy())} late</span>
        </Show>
      </p>
      <div class="entry-what">
        <h4>{props.entry.title}</h4>
        <p>
          <strong>{props.entry.pieceName}</strong>, {props.entry.place}
          <Show when={props.entry.people.length > 0}>, {props.entry.people.join(' and ')}</Show>
        </p>
        <Show when={props.entry.mix}>{(mix) => <MixLine mix={mix()} />}</Show>
        <Show when={props.entry.way === 'scuff'}>
          <p class="entry-scuff">The window is missed: scuff first, wipe clean.</p>
        </Show>
        <Show when={props.entry.way !== 'scuff' && props.entry.window}>
          {(window) => <WindowBar opens={window().opens} closes={window().closes} at={props.entry.start} />}
        </Show>
        <Show when={props.mood === 'running' && props.entry.pourBy}>
          {(pourBy) => <WorkingTime entry={props.entry} pourBy={pourBy()} />}
        </Show>
      </div>
      <div class="entry-acts">
        <Show when={props.mood !== 'running'}>
          <button
            type="button"
            class="button act"
            classList={{ primary: props.mood === 'due' }}
            onClick={() => session.edit(begin(props.entry, session.now(), iso))}
          >
            Begin
            <span class="unseen">
              {' '}
              {props.entry.title}, {props.entry.pieceName}
            </span>
          </button>
        </Show>
        <Show when={isMixing()}>
          <button
            type="button"
            class="button act primary"
            onClick={() => session.edit(startPouring(props.entry, session.now(), iso))}
          >
            Mixed: {stepTitle(props.entry.steps[1]).toLowerCase()} now
          </button>
        </Show>
        <Show when={props.mood !== 'later'}>
          <button
            type="button"
            class="button act"
            classList={{ primary: props.mood === 'running' && !isMixing() }}
            onClick={() => session.edit(finish(props.entry, session.now(), iso))}
          >
            Done
            <span class="unseen">
              {' '}
              {props.entry.title}, {props.entry.pieceName}
            </span>
          </button>
        </Show>
        <Show when={props.mood === 'running'}>
          <button type="button" class="button" onClick={() => session.edit(takeBack(props.entry))}>
            Not begun after all
          </button>
        </Show>
      </div>
    </article>
  );
};

const MixLine = (props: { readonly mix: NonNullable<Entry['mix']> }): JSX.Element => {
  const session = useSession();
  const units = () => session.shop()?.units ?? 'metric';
  return (
    <p class="entry-mix">
      <Show when={props.mix.batch.cups > 1}>{props.mix.batch.cups} cups, each: </Show>
      <For each={props.mix.batch.parts}>
        {(part) => (
          <span class="part">
            <b>{part.name}</b> {volumeText(part.ml, units())} <small>{massText(part.g)}</small>
          </span>
        )}
      </For>
      <Show when={props.mix.tint}>
        <span class="part">{props.mix.tint}</span>
      </Show>
      <span class="resin-name">{props.mix.resin}</span>
    </p>
  );
};

/** How long the open mix still flows, to the second. */
const WorkingTime = (props: { readonly entry: Entry; readonly pourBy: number }): JSX.Element => {
  const session = useSession();
  const [seconds, setSeconds] = createSignal(session.clockMs() / 1000);
  const ticking = setInterval(() => setSeconds(session.clockMs() / 1000), 500);
  onCleanup(() => clearInterval(ticking));
  const left = (): number => props.pourBy * 60 - seconds();
  const total = (): number => Math.max(60, (props.pourBy - props.entry.start) * 60);
  return <Cup secondsLeft={left()} secondsInAll={total()} until={session.clock().time(props.pourBy)} />;
};
