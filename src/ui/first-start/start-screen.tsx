/** First start: look around in an example, or write down one's own shop in seven short pages. */
import { useNavigate } from '@solidjs/router';
import { createSignal, For, Show, type JSX } from 'solid-js';
import { exampleNames, useSession } from '../state/index.ts';
import './first-start.css';
import { OwnShop } from './own-shop.tsx';

/** What each example shows; one that is not named here is offered by its name alone. */
const EXAMPLES: Readonly<Record<string, string>> = {
  'evening-board': 'One maker, one form, evenings and weekends: a single board for a date.',
  'market-week': 'Two people and eight boards for a market: forms and hands run short.',
  'cold-garage': 'A garage that is cold at night: windows move, a warm box helps.',
  'six-weeks': 'A full shop over six weeks.',
};

const nameOf = (example: string): string =>
  example.charAt(0).toUpperCase() + example.slice(1).replaceAll('-', ' ');

export const StartScreen = (): JSX.Element => {
  const session = useSession();
  const navigate = useNavigate();
  const [own, setOwn] = createSignal(false);
  const [trouble, setTrouble] = createSignal('');
  const open = async (example: string): Promise<void> => {
    try {
      await session.openExample(example);
      navigate('/forms');
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div class="start">
      <Show
        when={own()}
        fallback={
          <div class="start-choice">
            <section class="plate start-own" aria-labelledby="start-own">
              <h2 id="start-own">Start your own shop</h2>
              <p>
                Seven short pages, each filled in with what is usual: change what is different in yours. It
                takes under two minutes, and everything can be changed later.
              </p>
              <button type="button" class="button primary" onClick={() => setOwn(true)}>
                Begin
              </button>
              <p class="start-small">
                What you have open now is not lost: undo brings it back, and the shop file can be saved.
              </p>
            </section>
            <section aria-labelledby="start-look">
              <h2 id="start-look">Or look around first</h2>
              <ul class="start-examples">
                <For each={exampleNames()}>
                  {(example) => (
                    <li>
                      <button type="button" class="start-example" onClick={() => void open(example)}>
                        <strong>{nameOf(example)}</strong>
                        <span>{EXAMPLES[example] ?? ''}</span>
                      </button>
                    </li>
                  )}
                </For>
              </ul>
              <p role="alert">{trouble()}</p>
            </section>
          </div>
        }
      >
        <OwnShop leave={() => setOwn(false)} done={() => navigate('/forms')} />
      </Show>
    </div>
  );
};
