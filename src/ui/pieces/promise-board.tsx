/**
 * The promise of a piece not yet ordered: when it could be ready beside the plan that stands, and how early if other pieces give way, no other being
 * late for it. While the maker has typed no date, one is put there that holds.
 */
import { createEffect, createMemo, onCleanup, Show, type Accessor, type JSX } from 'solid-js';
import { movedSteps, type Piece, type Plan, type Shop } from '../../engine/index.ts';
import { durationText, minuteOf, type Minute } from '../clock/index.ts';
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
/** What is promised still holds when the sheet is saved so long after. */
const WRITING_MINUTES = 15;

type Asked = Pick<Piece, 'recipe' | 'size' | 'earliest' | 'forms'>;
type Found = Extract<PromiseAnswer, { ok: true }>;

interface Heard {
  readonly asked: Asked;
  /** The plan that stood. */
  readonly stood: Plan | undefined;
  readonly beside: PromiseAnswer;
  /** Null until it is known. */
  readonly moving: PromiseAnswer | null;
  /** Whether no finer answer follows. */
  readonly isLast: boolean;
}

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
  // On workers of its own: a promise takes as long as a plan, and the desk is for short questions.
  const engine = startEngine();
  onCleanup(() => engine.close());
  const question = createMemo<Asked | null>(
    () => {
      const { recipe, size, earliest, forms } = props.draft();
      return size.lengthMm > 0 && size.widthMm > 0 ? { recipe, size, earliest, forms } : null;
    },
    null,
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const promiseWith = (
    asked: Asked,
    standing: Plan | undefined,
    budget: number,
    mayMove: boolean,
  ): Promise<PromiseAnswer> => {
    const wished = asked.earliest === undefined ? null : session.clock().parse(asked.earliest);
    return engine.ask('promise', {
      ...asked,
      earliest: session.clock().iso(Math.max(wished ?? 0, session.now() + WRITING_MINUTES)),
      shop: props.shop,
      now: session.clock().iso(session.now()),
      seed: SEED,
      budget,
      standing,
      mayMove,
    });
  };
  const heard = createAnswer<Asked | null, Heard | null>(
    question,
    async (asked, early) => {
      if (!asked) return null;
      const stood = session.planned()?.plan;
      try {
        const beside = await promiseWith(asked, stood, BUDGET, false);
        const first: Heard = { asked, stood, beside, moving: null, isLast: isClash(beside) };
        if (first.isLast || !early(first)) return first;
        const moving = await promiseWith(asked, stood, BUDGET, true);
        const second: Heard = { ...first, moving, isLast: isLast(moving) };
        if (second.isLast || !early(second)) return second;
        await new Promise((rested) => setTimeout(rested, LONGER_AFTER_MS));
        if (!early(second)) return second;
        return { ...second, moving: await promiseWith(asked, stood, LONGER_BUDGET, true), isLast: true };
      } catch (error) {
        const clash = [error instanceof Error ? error.message : String(error)];
        return { asked, stood, beside: { ok: false, clash }, moving: null, isLast: true };
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
  /** What fits beside the plan that stands; where nothing was found so soon, what fits in place of some of it. */
  const promised = createMemo<Found | null>(() => {
    const { beside, moving } = answer() ?? {};
    return beside?.ok ? beside : moving?.ok ? moving : null;
  });
  /** What could be promised for an earlier hour. */
  const sooner = createMemo<Found | null>(() => {
    const found = promised();
    const moving = answer()?.moving;
    return found && moving?.ok && safely(moving.ready) < safely(found.ready) ? moving : null;
  });
  const refused = createMemo(() => {
    const known = answer();
    return known && !promised() && (known.moving !== null || known.isLast) ? clashOf(known.beside) : null;
  });
  const isAsking = (): boolean => question() !== null && answer()?.isLast !== true;
  const near = (minute: Minute): string => session.clock().near(minute, session.now());
  const dueMinute = (): Minute | null => {
    const { due } = props.draft();
    return session.clock().parse(due.includes('T') ? due : `${due}T23:59`);
  };
  const dueAt = (minute: Minute): string => session.clock().iso(minute).slice(0, 16);

  const first = props.draft().due;
  let proposed = first;
  createEffect(() => {
    const found = promised();
    if (!found || props.draft().due !== proposed) return;
    const holds = safely(found.ready);
    const next = holds > (session.clock().parse(first) ?? 0) ? dueAt(holds) : first;
    if (next === proposed) return;
    proposed = next;
    props.propose({ ...props.draft(), due: next });
  });
  createEffect(() => {
    const due = dueMinute();
    const [found, earlier] = [promised(), sooner()];
    const isSooner = found !== null && earlier !== null && due !== null && due < minuteOf(found.ready);
    props.promised(isSooner ? earlier : found);
  });

  const spare = (): number | null => {
    const due = dueMinute();
    const found = promised();
    return found && due !== null ? due - minuteOf(found.ready) : null;
  };
  const begins = (): string | null => {
    const known = promised();
    const first = known?.plan.steps
      .filter((step) => step.piece === known.piece)
      .map((step) => minuteOf(step.start))
      .sort((a, b) => a - b)[0];
    return first === undefined ? null : near(first);
  };
  const movedFor = ({ plan }: Found): number => {
    const stood = answer()?.stood;
    return stood ? movedSteps(stood, plan).length : 0;
  };
  const PromiseIt = (its: { readonly found: Found }): JSX.Element => (
    <button
      type="button"
      class="button"
      onClick={() => props.change({ ...props.draft(), due: dueAt(safely(its.found.ready)) })}
    >
      Promise it for {near(safely(its.found.ready))}
    </button>
  );
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
              Could be ready <strong>{near(minuteOf(known().ready))}</strong>
            </p>
            <p>
              <Show when={begins()}>{(at) => <>begun {at()}, </>}</Show>
              {movedText(movedFor(known()))}, and no other promise is missed for it.{' '}
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
            <PromiseIt found={known()} />
            <Show
              when={sooner()}
              fallback={
                <p>
                  {isProven(answer()?.moving)
                    ? 'It cannot be promised for earlier.'
                    : isAsking()
                      ? 'Looking for an earlier date…'
                      : 'An earlier date may be possible.'}
                </p>
              }
            >
              {(earlier) => (
                <>
                  <p>
                    As early as <strong>{near(minuteOf(earlier().ready))}</strong>,{' '}
                    {movedText(movedFor(earlier()))}; no other promise is missed for that either.{' '}
                    {isProven(earlier())
                      ? 'It cannot be ready before that.'
                      : isAsking()
                        ? 'Looking for a date before that…'
                        : ''}
                  </p>
                  <PromiseIt found={earlier()} />
                </>
              )}
            </Show>
          </>
        )}
      </Show>
    </div>
  );
};

/** The first full hour at which it is ready. */
const safely = (ready: string): Minute => Math.ceil(minuteOf(ready) / 60) * 60;

const movedText = (steps: number): string =>
  steps === 0
    ? 'with nothing else moved'
    : `with ${steps === 1 ? 'one step' : `${steps} steps`} of other pieces moved`;

const isProven = (answer: PromiseAnswer | null | undefined): boolean =>
  answer?.ok === true && answer.plan.levels.some(({ name, proven }) => name === 'promise' && proven);

const clashOf = (answer: PromiseAnswer): readonly string[] => (answer.ok ? [] : answer.clash);

/** A clash that was found is one that was proved: no longer search leads to more. */
const isClash = (answer: PromiseAnswer): boolean => clashOf(answer).length > 0;

/** Whether a longer search could tell nothing more. */
const isLast = (answer: PromiseAnswer): boolean => isProven(answer) || isClash(answer);
