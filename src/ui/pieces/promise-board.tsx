/** The promise of a piece not yet ordered, as the maker reads it while writing. */
import { createMemo, For, Show, type Accessor, type JSX } from 'solid-js';
import type { Piece, Shop } from '../../engine/index.ts';
import { durationText, minuteOf, type Minute } from '../clock/index.ts';
import { useSession } from '../state/index.ts';
import { createAsking } from './ask-promise.ts';
import { clashIn, movedText, offersOf, type Offer } from './promise-offers.ts';
import type { Promised } from './promised-as.ts';
import { createPromisedDate } from './promised-date.ts';

export const PromiseBoard = (props: {
  readonly shop: Shop;
  readonly draft: Accessor<Piece>;
  readonly change: (next: Piece) => void;
  /** As `change`, for what the maker has not written. */
  readonly propose: (next: Piece) => void;
  /** Told of the promise that the date in the draft is of, and when there is none any more. */
  readonly promised: (found: Promised | null) => void;
}): JSX.Element => {
  const session = useSession();
  const { canAsk, heard } = createAsking(
    () => props.shop,
    () => props.draft(),
  );
  const offers = createMemo(() => offersOf(heard()?.searched ?? [], heard()?.stood));
  const { due, dueAt } = createPromisedDate(
    () => props.draft(),
    offers,
    (next) => props.propose(next),
    (offer) => props.promised(offer),
  );
  const isAsking = (): boolean => canAsk() && heard()?.isLast !== true;
  const near = (minute: Minute): string => session.clock().near(minute, session.now());
  const begins = ({ plan, piece }: Offer): Minute =>
    Math.min(...plan.steps.filter((step) => step.piece === piece).map((step) => minuteOf(step.start)));
  const refused = (): readonly string[] | null => {
    const known = heard();
    return known?.isLast ? clashIn(known.searched) : null;
  };

  const PromiseIt = (its: { readonly offer: Offer }): JSX.Element => (
    <button type="button" class="button" onClick={() => props.change(dueAt(its.offer.safe))}>
      Promise it for {near(its.offer.safe)}
    </button>
  );
  const Spare = (its: { readonly minutes: number }): JSX.Element => (
    <Show
      when={its.minutes >= 0}
      fallback={<strong class="promise-bad">That is {durationText(-its.minutes)} after it is due.</strong>}
    >
      That is {durationText(its.minutes)} before it is due.
    </Show>
  );
  const Refusal = (): JSX.Element => (
    <Show
      when={refused()}
      fallback={
        <p>
          {canAsk()
            ? 'Asking the plan when it could be ready…'
            : 'Once its size is known, the plan says when it could be ready.'}
        </p>
      }
    >
      {(clash) => (
        <>
          <p class="promise-bad">
            No date can be promised{clash().length === 0 ? ' in the time given.' : ':'}
          </p>
          <ul>
            <For each={clash()}>{(line) => <li>{line}</li>}</For>
          </ul>
        </>
      )}
    </Show>
  );
  return (
    <div class="promise" role="status" aria-busy={isAsking()}>
      <Show when={offers().calm} fallback={<Refusal />}>
        {(calm) => (
          <>
            <p class="promise-when">
              Could be ready <strong>{near(calm().ready)}</strong>
            </p>
            <p>
              begun {near(begins(calm()))}, {movedText(calm())}, and no other promise is missed for it.{' '}
              <Show when={due() !== null}>
                <Spare minutes={(due() ?? 0) - calm().ready} />
              </Show>
            </p>
            <PromiseIt offer={calm()} />
            <Show
              when={offers().sooner}
              fallback={
                <p>
                  {offers().isEarliest
                    ? 'It cannot be promised for earlier.'
                    : isAsking()
                      ? 'Looking for an earlier date…'
                      : 'An earlier date may be possible.'}
                </p>
              }
            >
              {(sooner) => (
                <>
                  <p>
                    As early as <strong>{near(sooner().ready)}</strong>, {movedText(sooner())}; no other
                    promise is missed for that either.{' '}
                    {offers().isEarliest
                      ? 'It cannot be ready before that.'
                      : isAsking()
                        ? 'Looking for a date before that…'
                        : ''}
                  </p>
                  <PromiseIt offer={sooner()} />
                </>
              )}
            </Show>
          </>
        )}
      </Show>
    </div>
  );
};
