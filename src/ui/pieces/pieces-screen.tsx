/** The Pieces screen: what is promised, for when, and how it stands; the late ones first. */
import { createMemo, createSignal, For, Show, type JSX } from 'solid-js';
import type { Piece, Shop } from '../../engine/index.ts';
import { DAY } from '../clock/index.ts';
import type { Opened } from '../shop/index.ts';
import { useSession, type Session } from '../state/index.ts';
import { planWords } from '../words/index.ts';
import { PieceCard } from './piece-card.tsx';
import { PieceSheet } from './piece-sheet.tsx';
import './pieces.css';
import { inOrder, standingOf, type PieceStanding } from './standing.ts';

export const PiecesScreen = (): JSX.Element => {
  const session = useSession();
  const [opened, setOpened] = createSignal<Opened<'pieces'> | null>(null);
  const standings = createMemo<readonly PieceStanding[]>(() => {
    const plan = session.planned()?.plan ?? null;
    return inOrder((session.shop()?.pieces ?? []).map((piece) => standingOf(piece, plan, session.now())));
  });
  const byId = createMemo(() => new Map(standings().map((standing) => [standing.piece.id, standing])));
  // Rows are kept by id, so that what is open in one stays open while the plan gets better.
  const ids = createMemo(() => standings().map(({ piece }) => piece.id));
  const late = (): number => standings().filter(({ lateMinutes }) => lateMinutes > 0).length;
  return (
    <Show when={session.shop()} fallback={<p class="loading">One moment…</p>}>
      {(shop) => (
        <div class="pieces">
          <div class="part-head">
            <h2>Pieces</h2>
            <p role="status">
              {countText(standings().length, session.planned() ? late() : planWords(session.phase(), false))}
            </p>
            <button
              type="button"
              class="button primary"
              onClick={() => setOpened({ entry: freshPiece(shop(), session), fresh: true })}
            >
              Add a piece
            </button>
          </div>
          <Show
            when={ids().length > 0}
            fallback={
              <p class="part-empty">Nothing is promised yet. Add a piece to see when it could be ready.</p>
            }
          >
            <ul class="piece-list">
              <For each={ids()}>
                {(id) => (
                  <Show when={byId().get(id)}>
                    {(standing) => (
                      <PieceCard
                        standing={standing()}
                        shop={shop()}
                        plan={session.planned()?.plan ?? null}
                        change={() => setOpened({ entry: standing().piece, fresh: false })}
                      />
                    )}
                  </Show>
                )}
              </For>
            </ul>
          </Show>
          <Show when={opened()} keyed>
            {(now) => <PieceSheet opened={now} close={() => setOpened(null)} />}
          </Show>
        </div>
      )}
    </Show>
  );
};

/** @param late how many, or how planning stands while there is no plan to tell it */
const countText = (count: number, late: number | string): string => {
  if (count === 0) return '';
  const all = count === 1 ? 'One piece' : `${count} pieces`;
  if (typeof late === 'string') return `${all}. ${late}`;
  if (late === 0) return `${all}; every promise holds.`;
  return `${all}; ${late === 1 ? 'one promise does' : `${late} promises do`} not hold as things are.`;
};

const TWO_WEEKS = 14 * DAY;
const FIVE_PM = 17 * 60;

/** As the last one was, due in two weeks; else the first recipe in the first form's size. */
const freshPiece = (shop: Shop, session: Session): Piece => {
  const last = shop.pieces.at(-1);
  const clock = session.clock();
  const due = clock.at(clock.dayOf(session.now() + TWO_WEEKS), FIVE_PM);
  const [form] = shop.forms;
  return {
    id: 'piece',
    name: '',
    recipe: last?.recipe ?? shop.recipes[0].id,
    size: last?.size ?? { lengthMm: form.inside.lengthMm - 20, widthMm: form.inside.widthMm - 20 },
    due: clock.iso(due).slice(0, 16),
    weight: 1,
    pins: [],
    actuals: [],
    touchTests: [],
  };
};
