/** The words that go with what is held: its time, and whether and why not. Beside the pointer, or at the foot for keys. */
import { Show, type JSX } from 'solid-js';
import { useSession } from '../state/index.ts';
import './drag.css';
import type { Hand } from './hand.ts';
import { reasonText } from './reasons.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export const verdictWords = (hand: Hand): string => {
  const said = hand.verdict();
  if (said.kind === 'open') return 'may go here';
  return said.kind === 'shut' ? reasonText(said.why) : 'looking where it may go…';
};

export const HeldNote = (props: { readonly hand: Hand; readonly spot: Spot | null }): JSX.Element => {
  const session = useSession();
  const place = (): JSX.CSSProperties => {
    const spot = props.spot;
    if (!spot) return {};
    // Above the finger, and never over the edge.
    const left = Math.min(window.innerWidth - 290, Math.max(8, spot.x + 18));
    const top = spot.y > 150 ? spot.y - 104 : spot.y + 40;
    return { transform: `translate(${left}px, ${top}px)` };
  };
  return (
    <Show when={props.hand.held()}>
      {(held) => (
        <div
          class="held-note"
          classList={{
            'held-at-foot': props.spot === null,
            'held-shut': props.hand.verdict().kind === 'shut',
            'held-open': props.hand.verdict().kind === 'open',
          }}
          style={place()}
        >
          <strong class="held-time">{session.clock().near(props.hand.at(), session.now())}</strong>
          <span class="held-what">
            {held().title}, {held().pieceName}
          </span>
          <span class="held-says">{verdictWords(props.hand)}</span>
          <Show when={props.spot === null}>
            <HandKeys hand={props.hand} />
          </Show>
        </div>
      )}
    </Show>
  );
};

const MOVES = [
  { by: -60, name: '−1 h, earlier', text: '−1 h' },
  { by: -5, name: '−5 min, earlier', text: '−5 min' },
  { by: 5, name: '+5 min, later', text: '+5 min' },
  { by: 60, name: '+1 h, later', text: '+1 h' },
] as const;

/** The keys' moves as buttons, for a thumb. */
const HandKeys = (props: { readonly hand: Hand }): JSX.Element => (
  <div class="held-keys">
    {MOVES.map(({ by, name, text }) => (
      <button
        type="button"
        class="button"
        aria-label={name}
        onClick={() => props.hand.aim(props.hand.at() + by, props.hand.form())}
      >
        {text}
      </button>
    ))}
    <button type="button" class="button" onClick={() => props.hand.jump(-1)}>
      Place before
    </button>
    <button type="button" class="button" onClick={() => props.hand.jump(1)}>
      Next place
    </button>
    <button type="button" class="button primary" onClick={() => props.hand.letGo()}>
      Put it here
    </button>
    <button type="button" class="button" onClick={() => props.hand.putBack()}>
      Put it back
    </button>
  </div>
);
