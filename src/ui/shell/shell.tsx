/** Header with the shop's own clock, the way between screens, what is wrong, and what just moved. */
import { A, HashRouter, Navigate, Route, useLocation } from '@solidjs/router';
import { createEffect, For, onCleanup, onMount, Show, Suspense, type JSX } from 'solid-js';
import { ExampleNote, StartScreen } from '../first-start/index.ts';
import { keepAppForOffline } from '../offline/index.ts';
import { useSession, useView } from '../state/index.ts';
import { planWords } from '../words/index.ts';
import { ChangeToasts } from './change-toasts.tsx';
import { FirstCaution } from './first-caution.tsx';
import { Menu } from './menu.tsx';
import { NewerNote } from './newer-note.tsx';
import { FIRST_SCREEN, SCREENS } from './screens.ts';
import { TroubleBoard } from './trouble-board.tsx';
import './shell.css';

export const Shell = (): JSX.Element => {
  const view = useView();
  createEffect(() => {
    document.documentElement.dataset.theme = view.isDark() ? 'dark' : 'light';
  });
  return (
    <HashRouter root={(props) => <Frame>{props.children}</Frame>}>
      <Route path="/" component={() => <Navigate href={FIRST_SCREEN} />} />
      <For each={SCREENS}>{(screen) => <Route path={screen.path} component={screen.view} />}</For>
      <Route path="/start" component={StartScreen} />
      <Route path="*" component={() => <Navigate href={FIRST_SCREEN} />} />
    </HashRouter>
  );
};

const Frame = (props: { readonly children: JSX.Element }): JSX.Element => {
  const session = useSession();
  const location = useLocation();
  createEffect(() => {
    const screen = SCREENS.find((one) => one.path === location.pathname)?.name ?? 'Forms';
    document.title = `${screen} · ${session.shop()?.name ?? 'Pourwright'}`;
  });
  // Fetched ahead once the plan has settled, which nothing waits for: in a workshop the network is often out of reach when the next screen is wanted.
  createEffect(() => {
    if (session.phase() !== 'settled') return;
    for (const { load } of SCREENS) void load().catch(() => undefined);
    keepAppForOffline();
  });
  const onKey = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
    // A field undoes its own typing, and behind a dialog nothing changes unseen.
    if (event.target instanceof Element && event.target.closest('input, textarea, [role=dialog]')) return;
    event.preventDefault();
    if (event.shiftKey) session.redo();
    else session.undo();
  };
  // On the document: after a dialog or a note has gone, nothing on the screen holds the focus.
  onMount(() => document.addEventListener('keydown', onKey));
  onCleanup(() => document.removeEventListener('keydown', onKey));
  return (
    <div class="shell">
      <a
        class="skip"
        href="#main"
        onClick={(event) => {
          event.preventDefault();
          document.getElementById('main')?.focus();
        }}
      >
        Skip to the screen
      </a>
      <header class="head">
        <p class="head-clock">
          <time>{session.clock().time(session.now())}</time>
          <span>{session.clock().date(session.now())}</span>
        </p>
        <div class="head-shop">
          <h1>{session.shop()?.name ?? 'Pourwright'}</h1>
          <Standing />
        </div>
        <nav class="ways" aria-label="Screens">
          <For each={SCREENS}>
            {(screen) => (
              <A
                href={screen.path}
                class="way"
                activeClass="way-here"
                aria-current={location.pathname === screen.path ? 'page' : undefined}
              >
                <svg viewBox="0 0 24 24" aria-hidden="true">
                  <path d={screen.mark} />
                </svg>
                <span>{screen.name}</span>
              </A>
            )}
          </For>
        </nav>
        <div class="head-acts">
          <button
            type="button"
            class="button mark-button"
            disabled={session.undoSays() === null}
            title={session.undoSays() === null ? 'Nothing to undo' : `Undo: ${session.undoSays()}`}
            aria-label={session.undoSays() === null ? 'Undo' : `Undo: ${session.undoSays()}`}
            onClick={() => session.undo()}
          >
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d="M8 5 4 9l4 4M4 9h10a6 5 0 0 1 0 10H9" />
            </svg>
          </button>
          <button
            type="button"
            class="button mark-button"
            disabled={session.redoSays() === null}
            title={session.redoSays() === null ? 'Nothing to do again' : `Do again: ${session.redoSays()}`}
            aria-label={session.redoSays() === null ? 'Do again' : `Do again: ${session.redoSays()}`}
            onClick={() => session.redo()}
          >
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d="m16 5 4 4-4 4M20 9H10a6 5 0 0 0 0 10h5" />
            </svg>
          </button>
          <Menu />
        </div>
      </header>
      <div class="notices">
        <FirstCaution />
        <NewerNote />
        <ExampleNote />
        <TroubleBoard />
      </div>
      <main id="main" class="stage" tabindex="-1">
        <Suspense fallback={<p class="loading">One moment…</p>}>{props.children}</Suspense>
      </main>
      <ChangeToasts />
    </div>
  );
};

const Standing = (): JSX.Element => {
  const session = useSession();
  return (
    <p class="head-standing" role="status">
      <Show when={session.isExample()}>
        <span class="tag">example</span>{' '}
      </Show>
      {planWords(session.phase(), session.planned() !== null)}
    </p>
  );
};
