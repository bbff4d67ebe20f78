/** What would help a late piece: the engine plans every way on workers of its own, and says which one does what. */
import { createSignal, For, onCleanup, onMount, Show, type JSX } from 'solid-js';
import type { Piece, Plan, Shop } from '../../engine/index.ts';
import { durationText, minuteOf } from '../clock/index.ts';
import { changePiece } from '../edits/index.ts';
import { startEngine } from '../engine/index.ts';
import { useSession } from '../state/index.ts';
import { byHelp, helpVariants, outcomeOf, type Outcome, type Variant } from './help-variants.ts';

const SEED = 1;
const BUDGET = 150_000;

interface Found {
  readonly variant: Variant;
  readonly outcome: Outcome;
  readonly plan: Plan;
}

export const HelpBoard = (props: {
  readonly piece: Piece;
  readonly shop: Shop;
  readonly plan: Plan;
  readonly lateMinutes: number;
}): JSX.Element => {
  const session = useSession();
  // Fixed at opening: what is offered is measured against this plan.
  const { piece, shop, plan, lateMinutes } = props;
  const variants = helpVariants(shop, plan, piece);
  const [found, setFound] = createSignal<readonly Found[]>([]);
  const [left, setLeft] = createSignal(variants.length);
  const [vain, setVain] = createSignal<readonly Variant[]>([]);
  onMount(() => {
    const engine = startEngine();
    let wanted = true;
    onCleanup(() => {
      wanted = false;
      engine.close();
    });
    const ask = async (): Promise<void> => {
      const now = session.clock().iso(session.now());
      for (const variant of variants) {
        const request = { shop: variant.edit.apply(shop), now, seed: SEED, budget: BUDGET, standing: plan };
        const answer = await engine.plan(request, () => undefined).done.catch(() => null);
        if (!wanted) return;
        setLeft((count) => count - 1);
        const after = answer?.ok ? answer.planned.plan : null;
        const usable = after && (after.status === 'optimal' || after.status === 'feasible') ? after : null;
        const outcome = usable ? outcomeOf(piece.id, plan, usable) : null;
        if (usable && outcome && outcome.lateMinutes < lateMinutes)
          setFound((known) => byHelp([...known, { variant, outcome, plan: usable }]));
        else setVain((known) => [...known, variant]);
      }
      engine.close();
    };
    void ask();
  });
  const nameOf = (id: string): string => shop.pieces.find((one) => one.id === id)?.name ?? id;
  const near = (iso: string): string => session.clock().near(minuteOf(iso), session.now());
  /** The plan's own moment, on the next full hour. */
  const laterDue = (): string => {
    const ready = minuteOf(plan.pieces.find((one) => one.piece === piece.id)?.ready ?? '');
    return session.clock().iso(Math.ceil(ready / 60) * 60);
  };
  return (
    <section class="help" aria-label={`What would help ${piece.name}`}>
      <h4>What would help</h4>
      <p role="status">
        {left() > 0
          ? `Planning ${left() === 1 ? 'one more way' : `${left()} more ways`}…`
          : found().length === 0
            ? 'Nothing that was tried brings it forward.'
            : `${found().length === 1 ? 'One way brings' : `${found().length} ways bring`} it forward.`}
      </p>
      <ul class="help-ways">
        <For each={found()}>
          {({ variant, outcome, plan: promised }) => (
            <li>
              <div>
                <strong>{capital(variant.title)}</strong>
                <p>
                  ready {near(outcome.ready)}:{' '}
                  {outcome.lateMinutes === 0
                    ? 'in time'
                    : `still ${durationText(outcome.lateMinutes)} late, ${durationText(lateMinutes - outcome.lateMinutes)} less`}
                </p>
                <For each={outcome.hurt}>
                  {({ piece: other, minutes }) => (
                    <p class="help-hurt">
                      but {nameOf(other)} gets {durationText(minutes)} later than promised
                    </p>
                  )}
                </For>
              </div>
              <button
                type="button"
                class="button"
                aria-label={`Do this: ${variant.title}`}
                onClick={() => session.edit({ ...variant.edit, known: promised })}
              >
                Do this
              </button>
            </li>
          )}
        </For>
        <li>
          <div>
            <strong>Promise it for {near(laterDue())} instead</strong>
            <p>if whoever waits for it agrees</p>
          </div>
          <button
            type="button"
            class="button"
            onClick={() => {
              const due = laterDue();
              session.edit({
                says: `promise “${piece.name}” for ${near(due)}`,
                apply: (so) => changePiece(so, piece.id, (old) => ({ ...old, due })),
              });
            }}
          >
            Do this
          </button>
        </li>
      </ul>
      <Show when={vain().length > 0}>
        <p class="help-vain">
          Planned too, without gain:{' '}
          {vain()
            .map(({ title }) => title)
            .join('; ')}
          .
        </p>
      </Show>
    </section>
  );
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
