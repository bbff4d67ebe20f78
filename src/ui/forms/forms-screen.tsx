/** The Forms screen: the picture, its zoom, what is picked, and who frees up next. */
import { createMemo, createSignal, For, Show, type JSX } from 'solid-js';
import { makeHand, RefusalDialog } from '../drag/index.ts';
import { useSession, useView } from '../state/index.ts';
import './forms.css';
import { asPinned, lanesOf, NAMED_SPANS, type Lane } from './model/index.ts';
import { NextFree } from './next-free.tsx';
import { PickedCard } from './picked-card.tsx';
import { Picture, type PictureHandle } from './picture.tsx';

export const FormsScreen = (): JSX.Element => {
  const session = useSession();
  const view = useView();
  const hand = makeHand(session);
  const [handle, setHandle] = createSignal<PictureHandle | null>(null);
  const lanes = createMemo<readonly Lane[]>((old) => {
    if (hand.landing() && old.length > 0) return old;
    const shop = session.shop();
    const plan = session.planned()?.plan;
    const clock = session.clock();
    const standing = shop && plan ? asPinned(shop, plan, clock.parse, clock.iso) : null;
    return shop ? lanesOf(shop, standing, session.cures(), session.now()) : [];
  }, []);
  const shownMinutes = (): number => handle()?.shownMinutes() ?? 0;
  return (
    <div class="forms" classList={{ 'forms-held': hand.held() !== null }}>
      <div class="screen-bar">
        <div class="spans" role="group" aria-label="How much time is shown">
          <For each={NAMED_SPANS}>
            {({ name, minutes }) => (
              <button
                type="button"
                class="button span"
                aria-pressed={Math.abs(shownMinutes() / minutes - 1) < 0.06}
                onClick={() => handle()?.show(minutes)}
              >
                {name}
              </button>
            )}
          </For>
        </div>
        <div class="spans">
          <button
            type="button"
            class="button"
            aria-label="Show less time"
            title="Closer (+)"
            onClick={() => handle()?.zoom(1.5)}
          >
            +
          </button>
          <button
            type="button"
            class="button"
            aria-label="Show more time"
            title="Wider (−)"
            onClick={() => handle()?.zoom(1 / 1.5)}
          >
            −
          </button>
          <button type="button" class="button" onClick={() => handle()?.showNow()}>
            Now
          </button>
        </div>
        <Legend />
      </div>
      <div class="forms-body">
        <Picture lanes={lanes()} hand={hand} ready={setHandle} />
        <aside class="forms-side" aria-label="Beside the picture">
          <Show when={view.picked()}>
            {(picked) => <PickedCard picked={picked()} move={() => handle()?.take(picked())} />}
          </Show>
          <Show when={session.planned()}>
            <NextFree lanes={lanes()} show={(at) => handle()?.showMinute(at)} />
          </Show>
        </aside>
      </div>
      <RefusalDialog hand={hand} />
    </div>
  );
};

const Legend = (): JSX.Element => (
  <ul class="legend" aria-label="What the textures mean">
    <li>
      <i class="swatch swatch-wet" /> wet
    </li>
    <li>
      <i class="swatch swatch-tacky" /> tacky: the next layer may go on
    </li>
    <li>
      <i class="swatch swatch-hard" /> hard
    </li>
    <li>
      <i class="swatch swatch-closed" /> nobody in the shop
    </li>
  </ul>
);
