/** One stretch of work: its time first, then what, where and how much, and the buttons that say it happened. */
import { createSignal, For, onCleanup, Show, type JSX } from 'solid-js';
import type { CupCard } from '../../engine/formats/index.ts';
import { durationText } from '../clock/index.ts';
import { Remarks, remarksOf, unpinPassed } from '../remarks/index.ts';
import { useSession } from '../state/index.ts';
import { stepTitle } from '../words/index.ts';
import { begin, finish, startPouring, takeBack } from './acts.ts';
import { Cup } from './cup.tsx';
import type { Entry } from './entries.ts';
import { WindowBar } from './window-bar.tsx';

export const EntryCard = (props: {
  readonly entry: Entry;
  readonly mood: 'running' | 'due' | 'later';
  /** What is mixed for it, as measured out; empty until the engine has told. */
  readonly cups: readonly CupCard[];
}): JSX.Element => {
  const session = useSession();
  const iso = (minute: number): string => session.clock().iso(minute);
  const lateBy = (): number => (props.mood === 'due' ? session.now() - props.entry.start : 0);
  const remarks = () =>
    remarksOf(
      session.planned()?.plan,
      props.entry.piece,
      props.entry.steps.map(({ step }) => step),
    );
  const passedPin = () => remarks().find(({ kind }) => kind === 'passed-pin');
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
        <Show when={props.mood === 'later'} fallback={<h3>{props.entry.title}</h3>}>
          {/* Later work stands under the heading of its day. */}
          <h4>{props.entry.title}</h4>
        </Show>
        <p>
          <strong>{props.entry.pieceName}</strong>, {props.entry.place}
          <Show when={props.entry.people.length > 0}>, {props.entry.people.join(' and ')}</Show>
        </p>
        <Show when={props.entry.isMixed && props.entry.state !== 'done'}>
          <For each={props.cups}>{(card) => <CupLine card={card} pieceName={props.entry.pieceName} />}</For>
        </Show>
        <Show when={props.entry.way === 'scuff'}>
          <p class="entry-scuff">The window is missed: scuff first, wipe clean.</p>
        </Show>
        <Show when={props.entry.way !== 'scuff' && props.entry.window}>
          {(window) => <WindowBar opens={window().opens} closes={window().closes} at={props.entry.start} />}
        </Show>
        <Remarks remarks={remarks()} />
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
            <OfEntry entry={props.entry} />
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
            <OfEntry entry={props.entry} />
          </button>
        </Show>
        <Show when={passedPin()}>
          {(remark) => (
            <button
              type="button"
              class="button"
              onClick={() =>
                session.edit(
                  unpinPassed(
                    props.entry.piece,
                    remark(),
                    `unpin “${props.entry.title}” of ${props.entry.pieceName}`,
                  ),
                )
              }
            >
              Unpin
              <OfEntry entry={props.entry} />
            </button>
          )}
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

/** What a button of the card is about, for those who only hear it. */
const OfEntry = (props: { readonly entry: Entry }): JSX.Element => (
  <span class="unseen">
    {' '}
    {props.entry.title}, {props.entry.pieceName}
  </span>
);

const CupLine = (props: { readonly card: CupCard; readonly pieceName: string }): JSX.Element => {
  const own = () => props.card.portions.find((portion) => portion.piece === props.pieceName);
  return (
    <>
      <p class="entry-mix">
        <span class="part">
          <b>Cup {props.card.number}</b>
          <Show when={props.card.series !== ''}>
            <small>{props.card.series}</small>
          </Show>
        </span>
        <For each={props.card.lines}>
          {(line) => (
            <span class="part">
              <b>{line.what}</b> {line.volume} <small>{line.mass}</small>
            </span>
          )}
        </For>
        <span class="resin-name">{props.card.resin}</span>
      </p>
      <Show when={props.card.portions.length > 1}>
        <p class="entry-portion">
          One cup for {props.card.portions.length} pieces; this one gets {own()?.amount}
          <Show when={own()?.tint}>, with {own()?.tint}</Show>.
        </p>
      </Show>
      <For each={props.card.warnings}>{(text) => <p class="entry-warning">{text}</p>}</For>
    </>
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
