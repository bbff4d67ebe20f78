/** One piece: its promise first, then how it stands, in words and as a row of marks. */
import { useNavigate } from '@solidjs/router';
import { createSignal, For, Show, type JSX } from 'solid-js';
import type { Plan, Shop } from '../../engine/index.ts';
import { durationText, minuteOf } from '../clock/index.ts';
import { toggleWholePin } from '../edits/index.ts';
import { sizeText } from '../fields/index.ts';
import { Remarks, remarksOf } from '../remarks/index.ts';
import { useSession, useView } from '../state/index.ts';
import { stepTitle } from '../words/index.ts';
import { HelpBoard } from './help-board.tsx';
import type { PieceStanding } from './standing.ts';

export const PieceCard = (props: {
  readonly standing: PieceStanding;
  readonly shop: Shop;
  readonly plan: Plan | null;
  readonly change: () => void;
}): JSX.Element => {
  const session = useSession();
  const view = useView();
  const navigate = useNavigate();
  const [helping, setHelping] = createSignal(false);
  const near = (minute: number): string => session.clock().near(minute, session.now());
  const standing = (): PieceStanding => props.standing;
  const piece = () => standing().piece;
  const isLate = (): boolean => standing().lateMinutes > 0;
  const recipeName = (): string =>
    props.shop.recipes.find(({ id }) => id === piece().recipe)?.name ?? piece().recipe;
  const spare = (): string | null => {
    const { ready, due } = standing();
    return ready === null || due === null || due < ready ? null : durationText(due - ready);
  };
  const togglePins = (): void => session.edit(toggleWholePin(piece(), props.plan));
  return (
    <li class="plate piece" classList={{ 'piece-late': isLate() }}>
      <div class="piece-times">
        <Show when={standing().due} fallback={<p class="piece-when">…</p>}>
          {(due) => (
            <>
              <p class="piece-label">promised for</p>
              <p class="piece-when">{near(due())}</p>
            </>
          )}
        </Show>
        <Show when={standing().ready}>
          {(ready) => (
            <p>
              {standing().stage === 'ready' ? 'ready since' : 'ready'} <strong>{near(ready())}</strong>
            </p>
          )}
        </Show>
        <Show
          when={isLate()}
          fallback={<Show when={spare()}>{(text) => <p class="piece-good">✓ {text()} to spare</p>}</Show>}
        >
          <p class="piece-bad">▲ {durationText(standing().lateMinutes)} late</p>
        </Show>
      </div>
      <div class="piece-body">
        <h3>{piece().name}</h3>
        <p class="piece-what">
          {recipeName()}, {sizeText(piece().size, props.shop.units)}
        </p>
        <Marks standing={standing()} />
        <p class="piece-stands">
          {stageText(standing())}
          <Show when={standing().now}>
            {(now) => (
              <>
                . Now: <strong>{stepTitle(now())}</strong>, until {near(minuteOf(now().end))}
              </>
            )}
          </Show>
          <Show when={standing().next}>
            {(next) => (
              <>
                . Next: <strong>{stepTitle(next())}</strong>, {near(minuteOf(next().start))}
              </>
            )}
          </Show>
          <Show when={standing().pins > 0}>
            . {standing().pins === 1 ? 'One step is' : `${standing().pins} steps are`} pinned
          </Show>
          .
        </p>
        <Remarks remarks={remarksOf(props.plan, piece().id)} />
        <div class="sheet-acts">
          <Show when={isLate() && props.plan}>
            <button
              type="button"
              class="button primary"
              aria-expanded={helping()}
              onClick={() => setHelping((open) => !open)}
            >
              {helping() ? 'Close the help' : 'What would help?'}
            </button>
          </Show>
          <button
            type="button"
            class="button"
            aria-label={`Change ${piece().name}`}
            onClick={() => props.change()}
          >
            Change
          </button>
          <Show when={standing().next}>
            {(next) => (
              <>
                <button
                  type="button"
                  class="button"
                  aria-label={
                    standing().pins > 0 ? `Unpin: ${piece().name}` : `Pin all of it: ${piece().name}`
                  }
                  onClick={togglePins}
                >
                  {standing().pins > 0 ? 'Unpin' : 'Pin all of it'}
                </button>
                <button
                  type="button"
                  class="button"
                  aria-label={`Show on Forms: ${piece().name}`}
                  onClick={() => {
                    view.pick({ piece: piece().id, step: next().step });
                    navigate('/forms');
                  }}
                >
                  Show on Forms
                </button>
              </>
            )}
          </Show>
        </div>
        <Show when={helping() && isLate() ? props.plan : null}>
          {(plan) => (
            <HelpBoard piece={piece()} shop={props.shop} plan={plan()} lateMinutes={standing().lateMinutes} />
          )}
        </Show>
      </div>
    </li>
  );
};

const stageText = ({ piece, stage, doneSteps, marks }: PieceStanding): string => {
  // Without a plan the file alone tells.
  if (marks.length === 0 && piece.actuals.length > 0) return 'Begun';
  if (stage === 'ready') return 'All steps are done';
  if (stage === 'waiting') return 'Not begun';
  return `${doneSteps} of ${marks.length} steps done`;
};

const MARK = 14;

/** Done steps are full, the present one half, those ahead open. */
const Marks = (props: { readonly standing: PieceStanding }): JSX.Element => (
  <svg
    class="marks"
    viewBox={`0 0 ${Math.max(1, props.standing.marks.length) * MARK} ${MARK}`}
    style={{ width: `${Math.max(1, props.standing.marks.length) * MARK}px` }}
    aria-hidden="true"
  >
    <For each={props.standing.marks}>
      {(mark, at) => (
        <g transform={`translate(${at() * MARK} 0)`}>
          <rect class={`mark mark-${mark.state}`} x="1" y="2" width={MARK - 3} height={MARK - 4} />
          <Show when={mark.state === 'now'}>
            <rect class="mark-half" x="1" y={MARK / 2} width={MARK - 3} height={MARK / 2 - 2} />
          </Show>
        </g>
      )}
    </For>
  </svg>
);
