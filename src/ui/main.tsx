/** Puts the screens on the page: first the picture, beside it the engine. */
import { render } from 'solid-js/web';
import { startEngine } from './engine/index.ts';
import './look/base.css';
import { Shell } from './shell/index.ts';
import { keptView, makeSession, makeView, Provide } from './state/index.ts';
import { keepShop, keepView, readKept, readState } from './storage/index.ts';

const root = document.getElementById('app');
if (!root) throw new Error('the page holds no element with the id "app"');

render(() => {
  const kept = readKept();
  const session = makeSession({
    engine: startEngine(),
    storage: { readKept: () => kept, keepShop, readState },
    clockMs: () => Date.now(),
  });
  const view = makeView(
    (text) => void keepView(text).catch(() => undefined),
    matchMedia('(prefers-color-scheme: dark)'),
  );
  void kept.then(({ view: text }) => view.restore(keptView(text))).catch(() => view.restore(keptView(null)));
  void session.start();
  return (
    <Provide session={session} view={view}>
      <Shell />
    </Provide>
  );
}, root);
