/** The promise of a piece not yet ordered: when it could be ready without making another late. */
import { createEffect, createMemo, createSignal, onCleanup, Show, type Accessor, type JSX } from 'solid-js';
import type { Piece, Shop } from '../../engine/index.ts';
import { durationText, minuteOf } from '../clock/index.ts';
import { startEngine, type PromiseAnswer } from '../engine/index.ts';
import { createAnswer, useSession } from '../state/index.ts';
import type { Promised } from './promised-as.ts';

const SEED = 1;
const BUDGET = 150_000;
const ASK_AFTER_MS = 350;

export const PromiseBoard = (props: {
  readonly shop: Shop;
  readonly draft: Accessor<Piece>;
  readonly change: (next: Piece) => void;
  /** Told of each promise, and when there is none any more. */
  readonly promised: (found: Promised | null) => void;
}): JSX.Element => {
  const session = useSession();
  // On workers of its own: a promise takes as long as a plan, and the desk is for short questions.
  const engine = startEngine();
  onCleanup(() => engine.close());
  const [asking, setAsking] = createSignal(false);
  const question = createMemo(
    () => {
      const { recipe, size } = props.draft();
      return size.lengthMm > 0 && size.widthMm > 0 ? { recipe, size } : null;
    },
    null,
    {
      equals: (a, b) =>
        a?.recipe === b?.recipe &&
        a?.size.lengthMm === b?.size.lengthMm &&
        a?.size.widthMm === b?.size.widthMm,
    },
  );
  const answer = createAnswer(
    question,
    async (asked): Promise<PromiseAnswer | null> => {
      if (!asked) return null;
      setAsking(true);
      try {
        return await engine.ask('promise', {
          ...asked,
          shop: props.shop,
          now: session.clock().iso(session.now()),
          seed: SEED,
          budget: BUDGET,
          standing: session.planned()?.plan,
        });
      } catch (error) {
        return { ok: false, clash: [error instanceof Error ? error.message : String(error)] };
      } finally {
        setAsking(false);
      }
    },
    null,
    ASK_AFTER_MS,
  );
  const promised = createMemo(() => {
    const known = answer();
    return known?.ok ? known : null;
  });
  createEffect(() => props.promised(promised()));
  const refused = createMemo(() => {
    const known = answer();
    return known && !known.ok ? known.clash : null;
  });
  const near = (iso: string): string => session.clock().near(minuteOf(iso), session.now());
  const spare = (): number | null => {
    const known = promised();
    const { due } = props.draft();
    const at = session.clock().parse(due.includes('T') ? due : `${due}T23:59`);
    return known && at !== null ? at - minuteOf(known.ready) : null;
  };
  /** The first full hour at which it is ready. */
  const safely = (ready: string): number => Math.ceil(minuteOf(ready) / 60) * 60;
  const begins = (): string | null => {
    const known = promised();
    const first = known?.plan.steps
      .filter((step) => step.piece === known.piece)
      .map((step) => step.start)
      .sort((a, b) => minuteOf(a) - minuteOf(b))[0];
    return first === undefined ? null : near(first);
  };
  return (
    <div class="promise" role="status" aria-busy={asking()}>
      <Show
        when={promised()}
        fallback={
          <Show
            when={refused()}
            fallback={
              <p>
                {question()
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
                  {clash().map((line) => (
                    <li>{line}</li>
                  ))}
                </ul>
              </>
            )}
          </Show>
        }
      >
        {(known) => (
          <>
            <p class="promise-when">
              Could be ready <strong>{near(known().ready)}</strong>
            </p>
            <p>
              <Show when={begins()}>{(at) => <>begun {at()}, </>}</Show>
              and no other piece gets later for it.{' '}
              <Show when={spare() !== null}>
                {(spare() ?? 0) >= 0 ? (
                  <>That is {durationText(spare() ?? 0)} before it is due.</>
                ) : (
                  <strong class="promise-bad">
                    That is {durationText(-(spare() ?? 0))} after it is due.
                  </strong>
                )}
              </Show>
            </p>
            <button
              type="button"
              class="button"
              onClick={() =>
                props.change({
                  ...props.draft(),
                  due: session.clock().iso(safely(known().ready)).slice(0, 16),
                })
              }
            >
              Promise it for {session.clock().near(safely(known().ready), session.now())}
            </button>
          </>
        )}
      </Show>
    </div>
  );
};
