/** The touched stretch of work in words, with what can be done to it; the way to move it without a pointer. */
import { Show, type JSX } from 'solid-js';
import { durationText } from '../clock/index.ts';
import { PinButton } from '../drag/index.ts';
import { Remarks, remarksOf } from '../remarks/index.ts';
import { useSession } from '../state/index.ts';
import type { Visit } from './visits.ts';

export const VisitCard = (props: {
  readonly visit: Visit;
  readonly window: string | null;
  readonly move: () => void;
  readonly close: () => void;
}): JSX.Element => {
  const session = useSession();
  const near = (minute: number): string => session.clock().near(minute, session.now());
  const until = (): string => {
    const { from, to } = props.visit;
    const clock = session.clock();
    return clock.dayOf(from).start === clock.dayOf(to).start ? clock.time(to) : near(to);
  };
  return (
    <section class="plate visit-card" aria-labelledby="visit-card-title">
      <p class="visit-card-time">
        {near(props.visit.from)} to {until()}
      </p>
      <h2 id="visit-card-title">
        {props.visit.title}, {props.visit.pieceName}
      </h2>
      <p>
        {durationText(props.visit.spreadMinutes ?? props.visit.to - props.visit.from)} of work
        {props.visit.people === '' ? '' : `, ${props.visit.people}`}
        {props.visit.state === 'planned' ? '' : props.visit.state === 'begun' ? ', under way' : ', done'}
        {props.visit.pinned ? ', pinned' : ''}
      </p>
      <Show when={props.window}>{(words) => <p>{words()}</p>}</Show>
      <Remarks remarks={remarksOf(session.planned()?.plan, props.visit.piece, props.visit.steps)} />
      <div class="week-acts">
        <Show when={props.visit.state === 'planned'}>
          <button type="button" class="button primary" onClick={() => props.move()}>
            Move it
          </button>
          <PinButton
            piece={props.visit.piece}
            step={props.visit.step}
            steps={props.visit.steps}
            at={session.clock().iso(props.visit.from)}
            pinned={props.visit.pinned}
            called={`“${props.visit.title}” of ${props.visit.pieceName}`}
          />
        </Show>
        <button type="button" class="button" onClick={() => props.close()}>
          Close
        </button>
      </div>
    </section>
  );
};
