/** The promise of a piece not yet ordered: when it could be ready without making another late. */
import { createEffect, createMemo, onCleanup, Show, type Accessor, type JSX } from 'solid-js';
import type { Piece, Plan, Shop } from '../../engine/index.ts';
import { durationText, minuteOf } from '../clock/index.ts';
import { startEngine, type PromiseAnswer } from '../engine/index.ts';
import { createAnswer, useSession } from '../state/index.ts';
import type { Promised } from './promised-as.ts';

const SEED = 1;
/** Counted steps of search: for an answer while one is still writing, then for one that is as good as proved. */
const BUDGET = 150_000;
const LONGER_BUDGET = 2_000_000;
const ASK_AFTER_MS = 350;
/** A longer search is begun only once what is asked has rested: a question that follows would wait for its end. */
const LONGER_AFTER_MS = 1_000;

interface Asked {
  readonly recipe: string;
  readonly size: Piece['size'];
}

interface Heard {
  readonly asked: Asked;
  readonly found: PromiseAnswer;
  /** Whether no finer answer follows. */
  readonly isLast: boolean;
}

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
  const question = createMemo<Asked | null>(
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
  const promiseWith = (asked: Asked, budget: number): Promise<PromiseAnswer> =>
    engine.ask('promise', {
      ...asked,
      shop: props.shop,
      now: session.clock().iso(session.now()),
      seed: SEED,
      budget,
      standing: session.planned()?.plan,
    });
  const heard = createAnswer<Asked | null, Heard | null>(
    question,
    async (asked, early) => {
      if (!asked) return null;
      try {
        const found = await promiseWith(asked, BUDGET);
        const first: Heard = { asked, found, isLast: isLast(found) };
        if (first.isLast || !early(first)) return first;
        await new Promise((rested) => setTimeout(rested, LONGER_AFTER_MS));
        if (!early(first)) return first;
        return { asked, found: await promiseWith(asked, LONGER_BUDGET), isLast: true };
      } catch (error) {
        const clash = [error instanceof Error ? error.message : String(error)];
        return { asked, found: { ok: false, clash }, isLast: true };
      }
    },
    null,
    ASK_AFTER_MS,
  );
  /** Only of what is written now: a promise for another size is none. */
  const answer = createMemo(() => {
    const known = heard();
    return known && known.asked === question() ? known : null;
  });
  const promised = createMemo(() => {
    const found = answer()?.found;
    return found?.ok ? found : null;
  });
  createEffect(() => props.promised(promised()));
  const refused = createMemo(() => {
    const found = answer()?.found;
    return found && !found.ok ? found.clash : null;
  });
  const isAsking = (): boolean => question() !== null && answer()?.isLast !== true;
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
    <div class="promise" role="status" aria-busy={isAsking()}>
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
              and no other promise is missed for it.{' '}
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
            <p>
              {isProven(known().plan)
                ? 'It cannot be ready earlier.'
                : isAsking()
                  ? 'Looking for an earlier date…'
                  : 'An earlier date may be possible.'}
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

const isProven = ({ levels }: Plan): boolean =>
  levels.some(({ name, proven }) => name === 'promise' && proven);

/** Whether a longer search could tell nothing more. A clash that was found is one that was proved. */
const isLast = (answer: PromiseAnswer): boolean =>
  answer.ok ? isProven(answer.plan) : answer.clash.length > 0;
