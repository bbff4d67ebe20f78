/** The picked step in words: when, where, who, its window, and why it stands where it stands. */
import { createMemo, For, Show, type JSX } from 'solid-js';
import type { Plan, PlanStep } from '../../engine/plan/document.ts';
import type { Piece } from '../../engine/shop/index.ts';
import { durationText, minuteOf } from '../clock/index.ts';
import { PinButton } from '../drag/index.ts';
import { isHeldInPlace, toggleWholePin } from '../edits/index.ts';
import { Remarks, remarksOf } from '../remarks/index.ts';
import { createAnswer, useSession, useView, type Picked } from '../state/index.ts';
import { applyStepOf, stepTitle } from '../words/index.ts';
import { SwapMenu } from './swap-menu.tsx';

/** The step, what it is mixed for, and the layer or coat below, whose cure it waits for. */
const aboutStep = ({ steps }: Plan, { piece, kind, step }: PlanStep): readonly string[] => {
  const own = kind === 'mix' ? [step, applyStepOf(step)] : [step];
  const below = steps.find((one) => one.piece === piece && own.includes(one.step) && one.window)?.window;
  return below ? [...own, applyStepOf(below.of)] : own;
};

export const PickedCard = (props: { readonly picked: Picked; readonly move: () => void }): JSX.Element => {
  const session = useSession();
  const view = useView();
  const step = (): PlanStep | undefined =>
    session
      .planned()
      ?.plan.steps.find((one) => one.piece === props.picked.piece && one.step === props.picked.step);
  const piece = createMemo((): Piece | undefined =>
    session.shop()?.pieces.find((one) => one.id === props.picked.piece),
  );
  const pieceName = (): string => piece()?.name ?? props.picked.piece;
  const people = (): string =>
    (step()?.people ?? [])
      .map((id) => session.shop()?.people.find((one) => one.id === id)?.name ?? id)
      .join(' and ');
  const why = createAnswer(
    () => ({ ...props.picked, plan: session.planned() }),
    async ({ piece, step: id }) => {
      await session.ready();
      return session.engine.ask('why', { piece, step: id });
    },
    [] as readonly string[],
  );
  const remarks = (found: PlanStep) => {
    const plan = session.planned()?.plan;
    return plan ? remarksOf(plan, found.piece, aboutStep(plan, found)) : [];
  };
  const near = (iso: string): string => session.clock().near(minuteOf(iso), session.now());
  return (
    <Show when={step()}>
      {(found) => (
        <section class="card picked" aria-labelledby="picked-title">
          <p class="picked-time">{near(found().start)}</p>
          <h2 id="picked-title">
            {stepTitle(found())}, {pieceName()}
          </h2>
          <p>
            {durationText(found().handsOnMinutes)} of work{people() === '' ? '' : `, ${people()}`}
            {found().state === 'planned' ? '' : found().state === 'begun' ? ', under way' : ', done'}
          </p>
          <Show when={found().window}>
            {(window) => (
              <p>
                Window <strong>{near(window().opens)}</strong> to <strong>{near(window().closes)}</strong>
              </p>
            )}
          </Show>
          <Remarks remarks={remarks(found())} />
          <Show when={why().length > 0}>
            <h3>Why then</h3>
            <ul class="why">
              <For each={why()}>{(line) => <li>{line}</li>}</For>
            </ul>
          </Show>
          <div class="picked-acts">
            <Show when={found().state === 'planned'}>
              <button type="button" class="button primary" onClick={() => props.move()}>
                Move it
              </button>
              <PinButton
                piece={found().piece}
                step={found().step}
                steps={[found().step]}
                at={found().start}
                pinned={found().pinned}
                called={`“${stepTitle(found())}” of ${pieceName()}`}
              />
              <Show when={piece()}>
                {(whole) => (
                  <button
                    type="button"
                    class="button"
                    onClick={() => session.edit(toggleWholePin(whole(), session.planned()?.plan ?? null))}
                  >
                    {isHeldInPlace(whole()) ? `Unpin all of ${pieceName()}` : `Pin all of ${pieceName()}`}
                  </button>
                )}
              </Show>
              <SwapMenu piece={props.picked.piece} />
            </Show>
            <button type="button" class="button" onClick={() => view.pick(null)}>
              Close
            </button>
          </div>
        </section>
      )}
    </Show>
  );
};
